package prep

import (
	"fmt"
	"slices"

	"borewright/engine/plan"
)

// The most steps that a list has, and the most places that a step has.
const (
	MostSteps  = 200
	MostPlaces = 200
)

// InvalidError says what is wrong with a prep list, naming the step.
type InvalidError struct {
	Step   string // the step's id, or empty
	Reason string // what is wrong, in plain words
}

// Error is one sentence.
func (e *InvalidError) Error() string {
	if e.Step == "" {
		return "prep list: " + e.Reason
	}
	return "step " + plan.Quote(e.Step) + ": " + e.Reason
}

func invalid(step, format string, args ...any) error {
	return &InvalidError{step, fmt.Sprintf(format, args...)}
}

// Validate says what keeps a list from being followed: a step twice, a kind
// nobody knows, a kind without what it needs, a step before one that is not in
// the list or before itself. The error is an *InvalidError.
func (l List) Validate() error {
	if len(l) > MostSteps {
		return invalid("", "it has %d steps, at most %d are taken", len(l), MostSteps)
	}
	seen := map[string]bool{}
	for _, s := range l {
		if seen[s.ID] {
			return invalid(s.ID, "it stands twice in the list")
		}
		seen[s.ID] = true
		if err := s.Validate(); err != nil {
			return err
		}
	}
	return l.validateOrder()
}

func (l List) validateOrder() error {
	for _, s := range l {
		for _, id := range s.NotBefore {
			if _, _, ok := l.Find(id); !ok {
				return invalid(s.ID, "not before %s, which is no step of the list", plan.Quote(id))
			}
		}
		if slices.ContainsFunc(s.NotBefore, func(id string) bool { return l.Resting(s.ID)[id] }) {
			return invalid(s.ID, "it would have to come before itself")
		}
	}
	return nil
}

// Validate says what keeps one step from being done. The error is an
// *InvalidError.
func (s Step) Validate() error {
	switch {
	case s.ID == "":
		return invalid("", "a step has an id")
	case len(s.Places) > MostPlaces:
		return invalid(s.ID, "it has %d places, at most %d are taken", len(s.Places), MostPlaces)
	case s.On != AnyPart && s.On != Block && s.On != Crank && s.On != Loose:
		return invalid(s.ID, "%s is no part", plan.Quote(string(s.On)))
	}
	for i, p := range s.Places {
		if slices.Contains(s.Places[:i], p) {
			return invalid(s.ID, "the place %s stands twice", plan.Quote(p))
		}
	}
	return s.validateKind()
}

func (s Step) validateKind() error {
	switch s.Kind {
	case Once:
		return nil
	case Counted:
		return s.validateCount()
	case PerPlace:
		if len(s.Places) == 0 {
			return invalid(s.ID, "a step per place names its places")
		}
	case Value:
		return s.validateLimits()
	case Choice:
		if len(s.Choices) == 0 {
			return invalid(s.ID, "a choice names its choices")
		}
	default:
		return invalid(s.ID, "no kind of step is called %s", plan.Quote(string(s.Kind)))
	}
	return nil
}

func (s Step) validateCount() error {
	switch {
	case s.Way != "" && s.Way != Out && s.Way != In:
		return invalid(s.ID, "what is counted goes out or in, not %s", plan.Quote(s.Way))
	case (s.Way == "") != (s.Tally == ""):
		return invalid(s.ID, "a way and what is counted that way go together")
	case s.Count < 0:
		return invalid(s.ID, "%d is no count", s.Count)
	}
	return nil
}

func (s Step) validateLimits() error {
	for _, text := range []string{s.Low, s.High} {
		if text == "" {
			continue
		}
		if _, err := parseAmount(text, s.Unit); err != nil {
			return invalid(s.ID, "limit %s: %v", plan.Quote(text), err)
		}
	}
	return nil
}
