package store

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"borewright/engine"
	"borewright/engine/record"
)

// Told is an event in the words of the bench.
type Told struct {
	N  int64       `json:"n"`
	At time.Time   `json:"at,omitzero"`
	By string      `json:"by,omitempty"`
	Is record.Kind `json:"is,omitempty"`
	// Text says what the event says, or, of a lost one, what it perhaps was.
	Text string `json:"text"`
	// Why says of an event that was set aside why it cannot stand.
	Why string `json:"why,omitempty"`
}

// Gap is a row of lost events.
type Gap struct {
	First int64 `json:"first"`
	Last  int64 `json:"last"`
	// After and Before are the intact events that it lies between, nil where
	// there is none.
	After  *Told `json:"after,omitempty"`
	Before *Told `json:"before,omitempty"`
	// Remains are those of the lost events of which something can still be
	// read. Any byte of it may be the changed one.
	Remains []Told `json:"remains,omitempty"`
}

// tell returns an intact event in the names of the session as it stands.
func (m *mender) tell(e record.Event) Told {
	s := m.session
	if s == nil {
		s = &engine.Session{}
	}
	t := Told{N: e.N, At: e.At, By: e.By, Is: e.Is(), Text: "an event of a newer borewright"}
	if e.Body != nil {
		t.Text = s.Words(e.Body)
	}
	return t
}

// miss adds a lost event to the gap that is open, or opens one.
func (m *mender) miss(n int64) {
	if !m.open {
		m.open = true
		m.Gaps = append(m.Gaps, Gap{First: n})
		if m.before.N > 0 {
			after := m.tell(m.before)
			m.Gaps[len(m.Gaps)-1].After = &after
		}
	}
	g := &m.Gaps[len(m.Gaps)-1]
	g.Last = n
	r := m.remains[eventID{m.id, n}]
	words := r.words(m.bench)
	if slices.Contains(m.doubtful, n) {
		r, words = remains{}, doubtfulText
	}
	if h := m.heading; n == h.LastMark.N {
		r = remains{kind: record.IsReading, at: h.LastAt}
		words = fmt.Sprintf("a reading of %s, keyed %s, %s, as the list of sessions says",
			engine.PlaceName(m.bench.layout, m.bench.plan, h.LastPlace), h.LastKeyed, clock(h.LastAt))
	}
	if words != "" {
		g.Remains = append(g.Remains, Told{N: n, At: r.at, Is: r.kind, Text: words})
	}
}

// doubtfulText is for a number at which two events were found.
const doubtfulText = "two different events with this number were found, and nothing tells which of them was kept"

// meet closes the gap that is open, if there is one, before an intact event.
func (m *mender) meet(e record.Event) {
	if m.open {
		m.open = false
		before := m.tell(e)
		m.Gaps[len(m.Gaps)-1].Before = &before
	}
	m.before = e
	m.bench.learn(e.Body)
}

// setNewer keeps an intact event that a newer program wrote beside the database and
// puts a note in its place.
func (m *mender) setNewer(l leaf) error {
	_, cannot := record.Decode(l.line)
	e, is, err := record.DecodeEnvelope(l.line)
	if err != nil {
		return err
	}
	m.begin()
	m.at = e.At
	m.meet(e)
	m.Newer = append(m.Newer, Told{N: e.N, At: e.At, By: e.By, Is: is, Text: cannot.Error()})
	m.aside = append(m.aside, l.line)
	text := quoteLine(newerText, l.line)
	by := record.Event{At: e.At, By: e.By, Body: record.Note{Text: text}}
	if by.Validate() != nil { // here no such initials are known
		e.By = ""
	}
	return m.stand(e, text, misses{newer: 1})
}

// setAside keeps an intact event that cannot stand, because of err, and puts a
// note in its place.
func (m *mender) setAside(e record.Event, line []byte, err error) error {
	told := m.tell(e)
	told.Why = err.Error()
	var refused *engine.EventError
	if errors.As(err, &refused) {
		told.Why = refused.Err.Error()
	}
	m.Aside, m.Strays, m.aside = append(m.Aside, e.N), append(m.Strays, told), append(m.aside, line)
	words := asideText + told.Why + ". It says: " + told.Text + ". As it was kept: "
	return m.seal(record.Event{At: e.At, By: e.By, Body: record.Note{Text: quoteLine(words, line)}})
}
