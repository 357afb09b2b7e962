package record

import (
	"encoding/json"
	"slices"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Heading is what a list of sessions shows of one. It is folded from the events
// of the session and from nothing else, so it can be made again at any time.
//
// It tells what was keyed: Readings counts every reading, a withdrawn one too.
// What stands is for the replay to say.
type Heading struct {
	UID      string      `json:"uid"`
	Title    string      `json:"title,omitempty"`
	Customer string      `json:"customer,omitempty"`
	Engine   string      `json:"engine,omitempty"`
	Unit     length.Unit `json:"unit,omitempty"`
	// Started is the time of the first event, Last that of the last one.
	Started time.Time `json:"started,omitzero"`
	Last    time.Time `json:"last,omitzero"`
	Head    Head      `json:"head"`
	// State is Archived, else Closed, else empty for a session that is open.
	State string `json:"state,omitempty"`
	// LastPlace is where the last reading was taken, LastLabel what the layout
	// of that time calls its feature, LastKeyed what was keyed, and when.
	LastPlace plan.Place `json:"last_place,omitzero"`
	LastLabel string     `json:"last_label,omitempty"`
	LastKeyed string     `json:"last_keyed,omitempty"`
	LastAt    time.Time  `json:"last_at,omitzero"`
	// LastMark is the event of the last reading, and whether it is withdrawn.
	LastMark Mark  `json:"last_mark,omitzero"`
	Readings int64 `json:"readings,omitempty"`
	// Prep are the events of the prep so far: see NotReady.
	Prep []PrepMark `json:"prep,omitempty"`
	// Labels are those of the layout, States the state events so far; both are
	// there to fold the next event.
	Labels map[string][]string `json:"labels,omitempty"`
	States []StateMark         `json:"states,omitempty"`
}

// Mark is an event that may be withdrawn and brought back.
type Mark struct {
	N int64 `json:"n"`
	// By is the last event of the row of withdrawals that began with this one.
	By int64 `json:"by,omitempty"`
	// Off says that it is withdrawn.
	Off bool `json:"off,omitempty"`
}

// StateMark is a state event.
type StateMark struct {
	Mark
	State string `json:"state"`
}

// Apply returns the heading after one more event.
func (h Heading) Apply(s Sealed) Heading {
	if h.Head.N == 0 {
		h.Started = s.At
	}
	h.Last, h.Head = s.At, s.Head
	h.Prep = h.prepared(s.Event)
	switch b := s.Body.(type) {
	case Details:
		h.UID, h.Title, h.Customer, h.Engine, h.Unit = b.UID, b.Title, b.Customer, b.Engine, b.Unit
	case Layout:
		h.Labels = b.Labels
	case Reading:
		h.Readings++
		h.LastMark, h.LastKeyed, h.LastAt = Mark{N: s.N}, b.Keyed, s.At
		h.LastPlace, h.LastLabel = b.Place(), h.label(b.Of)
	case Moved:
		if i := slices.Index(b.Readings, h.LastMark.N); i >= 0 && i < len(b.Places) {
			h.LastPlace, h.LastLabel = b.Places[i], h.label(b.Places[i].Of)
		}
	case State:
		h.States = append(slices.Clone(h.States), StateMark{Mark{N: s.N}, b.State})
		h.State = stateOf(h.States)
	case Withdrawn:
		h = h.withdraw(b.Event, s.N)
	}
	return h
}

// label returns what the layout calls the feature's position.
func (h Heading) label(f plan.Feature) string { return plan.Layout{Labels: h.Labels}.Label(f) }

// withdraw notes the withdrawal of an event, or of an earlier withdrawal, by
// event n.
func (h Heading) withdraw(event, n int64) Heading {
	h.LastMark = h.LastMark.withdraw(event, n)
	h.States = slices.Clone(h.States)
	for i := range h.States {
		h.States[i].Mark = h.States[i].withdraw(event, n)
	}
	h.State = stateOf(h.States)
	h.Prep = slices.Clone(h.Prep)
	for i := range h.Prep {
		h.Prep[i].Mark = h.Prep[i].withdraw(event, n)
	}
	return h
}

func (m Mark) withdraw(event, n int64) Mark {
	switch {
	case m.N == 0 || event != m.N && event != m.By:
		return m
	case event == m.N:
		m.Off = true
	default:
		m.Off = !m.Off
	}
	m.By = n
	return m
}

// stateOf returns what the state events that stand make of a session.
func stateOf(marks []StateMark) string {
	closed, archived := false, false
	for _, m := range marks {
		if m.Off {
			continue
		}
		switch m.State {
		case Closed, Reopened:
			closed = m.State == Closed
		case Archived, Restored:
			archived = m.State == Archived
		}
	}
	switch {
	case archived:
		return Archived
	case closed:
		return Closed
	default:
		return ""
	}
}

// UnmarshalJSON reads a heading so that its times do not depend on the time
// zone of the machine.
func (h *Heading) UnmarshalJSON(data []byte) error {
	type plain Heading
	if err := json.Unmarshal(data, (*plain)(h)); err != nil {
		return err
	}
	for _, t := range []*time.Time{&h.Started, &h.Last, &h.LastAt} {
		if !t.IsZero() {
			*t = atOffset(*t)
		}
	}
	return nil
}
