package prep

import (
	"slices"

	"borewright/engine/plan"
)

// Notes returns what stays on the figures of a feature that is read now: the
// notes of the steps that are not done on it yet.
func (s State) Notes(f plan.Feature) []string {
	var out []string
	for _, step := range s.list {
		if step.Note == "" || !step.On.about(PartOf(f)) || slices.Contains(out, step.Note) {
			continue
		}
		if !s.doneOn(step, f) {
			out = append(out, step.Note)
		}
	}
	return out
}

// doneOn reports whether a step is done as far as it is about a feature: at its
// places there, or, where it names no features, as a whole.
func (s State) doneOn(step Step, f plan.Feature) bool {
	whole := true
	for _, p := range step.Places {
		of := SpotOf(p).Of
		whole = whole && of.IsZero()
		if _, stands := s.At(step, p); of == f && !stands {
			return false
		}
	}
	return !whole || s.Done(step.ID)
}
