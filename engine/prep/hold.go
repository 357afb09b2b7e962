package prep

import (
	"fmt"
	"strings"

	"borewright/engine/plan"
)

// Hold says why a tick is held, or "" when it is taken: a step before it does
// not stand, a count is not what it should be, a figure is outside its limits,
// a number is not its place's own. What is held may be forced.
func (s State) Hold(t Tick, l plan.Layout) string {
	step, _, ok := s.list.Find(t.Step)
	if !ok {
		return ""
	}
	var why []string
	if missing := s.before(step, t); len(missing) > 0 {
		why = append(why, s.early(step, missing))
	}
	if text := s.miscounted(step, t); text != "" {
		why = append(why, text)
	}
	if step.Kind == Value {
		if text := step.beyond(t.Value); text != "" {
			why = append(why, text)
		}
		if text := step.mismatch(t, l); text != "" {
			why = append(why, text)
		}
	}
	return strings.Join(why, "; ")
}

// Early says which step comes before one at a place and does not stand, or "".
func (s State) Early(step Step, place string) string {
	missing := s.missing(step, place)
	if len(missing) == 0 {
		return ""
	}
	return s.early(step, missing)
}

// early says which step comes first, and who says so.
func (s State) early(step Step, missing []string) string {
	before, _, _ := s.list.Find(missing[0])
	text := before.Name + " comes first"
	if ticked, all := s.Spots(before); all > 1 {
		text += fmt.Sprintf(", %d of %d places done", ticked, all)
	}
	if p, ok := PairOf(before.ID, step.ID); ok && p.Source != CommonPractice {
		text += " (" + p.Source + ")"
	}
	if more := len(missing) - 1; more > 0 {
		text += fmt.Sprintf("; %d more before it not done", more)
	}
	return text
}

func (s State) miscounted(step Step, t Tick) string {
	if step.Kind != Counted {
		return ""
	}
	tally, counts := s.Tally(step.Tally)
	switch {
	case t.Way == Accounted:
		if after := tally.Open() - t.Count + s.marks[t.mark()].Count; counts && after < 0 {
			return fmt.Sprintf("only %d are not back", tally.Open())
		}
	case step.Way == In && counts && tally.Known:
		if back := t.Count + tally.Accounted; back > max(tally.Out, step.Count) {
			return fmt.Sprintf("%d would be in, and %d came out", back, tally.Out)
		}
	case step.Count > 0 && t.Count != step.Count:
		return fmt.Sprintf("the list says %d, not %d", step.Count, t.Count)
	}
	return ""
}

// mismatch says that a number is not the place's own.
func (s Step) mismatch(t Tick, l plan.Layout) string {
	if !s.Match {
		return ""
	}
	own := l.Label(SpotOf(t.Place).Of)
	if got := strings.TrimLeft(t.Value, "0"); got != own && t.Value != own {
		return fmt.Sprintf("number %s at %s", t.Value, SpotOf(t.Place).Name(l))
	}
	return ""
}
