package prep

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"borewright/engine/plan"
)

// Tick is a step, or a part of one, that was done. It is stored as it stands.
type Tick struct {
	Step  string `json:"step"`
	Place string `json:"place,omitempty"`
	// Count is how many there are in all, not how many more.
	Count int `json:"count,omitempty"`
	// Way is Out, In or Accounted, for what is counted out and in.
	Way string `json:"way,omitempty"`
	// Keyed is the text as keyed, Value the figure with its unit.
	Keyed string `json:"keyed,omitempty"`
	Value string `json:"value,omitempty"`
	// Choice is what was chosen, or why what is accounted for stays out.
	Choice string `json:"choice,omitempty"`
	// Forced is the reason for which it was held before it was forced.
	Forced string `json:"forced,omitempty"`
}

// Ticked is a tick that stands: the event that said so, when and by whom.
type Ticked struct {
	Tick
	N  int64
	At time.Time
	By string
	// Over are the steps before it that were not done when it was forced.
	Over []string
}

// Reasons are why what was counted out does not come back.
func Reasons() []string {
	return []string{"its hole is closed off for good", "a fitting or jet took its place", "left out on purpose"}
}

// mark is what a tick is about: ticking the same again replaces it.
type mark struct{ step, place string }

func (t Tick) mark() mark {
	switch {
	case t.Way == Accounted:
		return mark{t.Step, Accounted + ": " + t.Choice}
	case t.Way != "":
		return mark{t.Step, t.Way}
	default:
		return mark{t.Step, t.Place}
	}
}

// settled reports whether nothing withdraws the mark: what came out is out, and
// what is accounted for is.
func (m mark) settled() bool { return m.place == Out || strings.HasPrefix(m.place, Accounted) }

// Read makes the tick that a keyed text means at a place of the step. The error
// says in a sentence why it can be none.
func (s Step) Read(place, text string) (Tick, error) {
	t := Tick{Step: s.ID, Place: place, Keyed: text}
	switch s.Kind {
	case Counted:
		n, err := whole(text)
		if err != nil {
			return Tick{}, err
		}
		t.Count, t.Way = n, s.Way
	case Value:
		a, err := parseAmount(text, s.Unit)
		if err != nil {
			return Tick{}, err
		}
		t.Value = a.String()
	case Choice:
		n, err := whole(text)
		if err != nil || n < 1 || n > len(s.Choices) {
			return Tick{}, fmt.Errorf("choose 1 to %d, not %s", len(s.Choices), text)
		}
		t.Choice = s.Choices[n-1]
	default:
		return Tick{}, fmt.Errorf("%s is ticked, no number is keyed", s.Name)
	}
	return t, nil
}

// most is the largest count.
const most = 999

func whole(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 0 || n > most {
		return 0, fmt.Errorf("%s is no count: a whole number from 0 to %d", plan.Quote(text), most)
	}
	return n, nil
}

// Check says why a tick cannot be one of the list, or nil. The error is an
// *InvalidError.
func (l List) Check(t Tick) error {
	s, _, ok := l.Find(t.Step)
	switch {
	case !ok:
		return invalid(t.Step, "the prep list has no such step")
	case !slices.Contains(s.spots(), t.Place):
		return invalid(t.Step, "it has no place %s", plan.Quote(t.Place))
	case t.Count < 0 || t.Count > most:
		return invalid(t.Step, "%d is no count from 0 to %d", t.Count, most)
	case s.Kind != Counted && (t.Way != "" || t.Count != 0):
		return invalid(t.Step, "nothing is counted there")
	case s.Kind == Counted && t.Way != s.Way && (t.Way != Accounted || s.Way != In):
		return invalid(t.Step, "what is counted there goes %s, not %s", orNothing(s.Way), orNothing(t.Way))
	}
	return s.checkFigure(t)
}

func (s Step) checkFigure(t Tick) error {
	switch {
	case s.Kind == Choice && !slices.Contains(s.Choices, t.Choice):
		return invalid(s.ID, "%s is none of its choices", plan.Quote(t.Choice))
	case s.Kind == Value:
		if _, err := parseAmount(t.Value, s.Unit); err != nil {
			return invalid(s.ID, "%v", err)
		}
	}
	return nil
}

func orNothing(way string) string {
	if way == "" {
		return "no way"
	}
	return way
}
