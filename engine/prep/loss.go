package prep

import (
	"fmt"
	"slices"

	"borewright/engine/plan"
)

// Loss is why a tick no longer stands, or never did.
type Loss struct {
	// N is the event that took it.
	N int64
	// Did and On are the work on metal that withdrew it; else First is the step
	// before it that does not stand.
	Did   string
	On    []plan.Feature
	First string
	// Early says that it was ticked before First and not forced.
	Early bool
}

// withdrawals tells what each work on metal withdrew and is not ticked again.
func (s State) withdrawals(l plan.Layout) []Finding {
	var out []Finding
	for _, n := range s.losses() {
		loss, first, rest := s.takenBy(n)
		if loss.N == 0 {
			continue
		}
		text := stepNames(first) + " withdrawn by work on " + workedOn(loss.On, l)
		if len(rest) > 0 {
			text += fmt.Sprintf(", and %d more", len(rest))
		}
		out = append(out, Finding{Withdrawn, first[0].ID, text})
	}
	return out
}

// takenBy returns the steps that work took with event n: first those that the
// work itself undid, and the rest.
func (s State) takenBy(n int64) (loss Loss, first, rest []Step) {
	for _, step := range s.list {
		x, lost := s.lossOf(step)
		switch {
		case !lost || x.N != n || x.Did == "":
			continue
		case step.Metal:
			first = append(first, step)
		default:
			rest = append(rest, step)
		}
		loss = x
	}
	if len(first) == 0 && len(rest) > 0 {
		first, rest = rest[:1], rest[1:]
	}
	return loss, first, rest
}

// losses returns the events that took ticks, oldest first.
func (s State) losses() []int64 {
	var out []int64
	for _, x := range s.lost {
		if !slices.Contains(out, x.N) {
			out = append(out, x.N)
		}
	}
	slices.Sort(out)
	return out
}

// lossOf returns the latest loss of a step that is not whole again, that by work
// first.
func (s State) lossOf(step Step) (best Loss, ok bool) {
	if s.Done(step.ID) {
		return Loss{}, false
	}
	for m, x := range s.lost {
		if m.step == step.ID && (x.N > best.N || x.N == best.N && x.Did != "") {
			best, ok = x, true
		}
	}
	return best, ok
}

// LossOf says why a step, or part of it, no longer stands; "" when nothing was
// taken from it.
func (s State) LossOf(step Step, l plan.Layout) string {
	x, ok := s.lossOf(step)
	if !ok {
		return ""
	}
	return s.LossText(x, l)
}

// LossText says in words why a tick does not stand.
func (s State) LossText(x Loss, l plan.Layout) string {
	if x.Did != "" {
		return "withdrawn by work on " + workedOn(x.On, l) + ": " + x.Did
	}
	first := x.First
	if step, _, ok := s.list.Find(x.First); ok {
		first = step.Name
	}
	if x.Early {
		return "ticked before " + first + " and not forced"
	}
	return "withdrawn: " + first + " comes before it and does not stand"
}

// tooEarly tells what was ticked before its time, or lost what it rests on.
func (s State) tooEarly(l plan.Layout) []Finding {
	var out []Finding
	for _, step := range s.list {
		if x, lost := s.lossOf(step); lost && x.Did == "" {
			out = append(out, Finding{TickedEarly, step.ID, step.Name + " " + s.LossText(x, l)})
		}
	}
	if len(out) > 2 {
		more := fmt.Sprintf(", and %d more", len(out)-1)
		out = []Finding{{out[0].Kind, out[0].Step, out[0].Text + more}}
	}
	return out
}
