package prep

import (
	"maps"
	"slices"
	"strings"

	"borewright/engine/plan"
)

// State is what the facts so far add up to. It is a value: Apply returns
// another. The zero value has no list.
type State struct {
	list  List
	marks map[mark]Ticked
	lost  map[mark]Loss
}

// List returns the prep list; the caller must not change it.
func (s State) List() List { return s.list }

// Apply returns the state after one more fact.
func (s State) Apply(f Fact) State {
	next := s.clone()
	next.apply(f)
	return next
}

func (s State) clone() State {
	s.marks, s.lost = maps.Clone(s.marks), maps.Clone(s.lost)
	if s.marks == nil {
		s.marks, s.lost = map[mark]Ticked{}, map[mark]Loss{}
	}
	return s
}

// apply takes a fact in. A tick can only take from others what a count does.
func (s *State) apply(f Fact) {
	switch {
	case f.Set:
		s.list = f.List
		s.forget()
	case f.Tick != nil:
		s.tick(f)
		if step, _, _ := s.list.Find(f.Tick.Step); step.Kind != Counted {
			return
		}
	case f.Work != nil:
		s.work(f)
	}
	s.settle(f.N)
}

// forget drops what is about no step or place of the list.
func (s *State) forget() {
	gone := func(_ mark, t Tick) bool { return s.list.Check(t) != nil }
	for m, t := range s.marks {
		if gone(m, t.Tick) {
			delete(s.marks, m)
		}
	}
	for m := range s.lost {
		step, _, ok := s.list.Find(m.step)
		if !ok || step.Kind != Counted && !slices.Contains(step.spots(), m.place) {
			delete(s.lost, m)
		}
	}
}

func (s *State) tick(f Fact) {
	if s.list.Check(*f.Tick) != nil {
		return
	}
	step, _, _ := s.list.Find(f.Tick.Step)
	m, missing := f.Tick.mark(), s.before(step, *f.Tick)
	if len(missing) > 0 && f.Tick.Forced == "" {
		if _, stands := s.marks[m]; !stands {
			s.lost[m] = Loss{N: f.N, First: missing[0], Early: true}
		}
		return
	}
	s.marks[m] = Ticked{*f.Tick, f.N, f.At, f.By, missing}
	delete(s.lost, m)
}

// work withdraws what work on metal undoes.
func (s *State) work(f Fact) {
	var roots []string
	for _, step := range s.list {
		if step.Metal && slices.ContainsFunc(f.Work.On, func(x plan.Feature) bool { return step.On.about(PartOf(x)) }) {
			roots = append(roots, step.ID)
		}
	}
	resting := s.list.Resting(roots...)
	loss := Loss{N: f.N, Did: f.Work.Did, On: f.Work.On}
	for m := range s.marks {
		step, _, _ := s.list.Find(m.step)
		undone := step.Did != "" && step.Did != f.Work.Did && slices.Contains(f.Work.On, SpotOf(m.place).Of)
		if resting[m.step] || undone {
			s.drop(m, loss)
		}
	}
}

func (s *State) drop(m mark, why Loss) {
	if m.settled() {
		return
	}
	delete(s.marks, m)
	s.lost[m] = why
}

// settle withdraws what rests on what does not stand, until all that stands may.
func (s *State) settle(n int64) {
	for changed := true; changed; {
		changed = false
		for _, step := range s.list {
			for _, m := range s.marksOf(step.ID) {
				t := s.marks[m]
				if m.settled() {
					continue
				}
				for _, id := range s.missing(step, t.Place) {
					if !slices.Contains(t.Over, id) {
						s.drop(m, Loss{N: n, First: id})
						changed = true
						break
					}
				}
			}
		}
	}
}

// marksOf returns what stands of a step, in a fixed order.
func (s State) marksOf(id string) []mark {
	var out []mark
	for m := range s.marks {
		if m.step == id {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b mark) int { return strings.Compare(a.place, b.place) })
	return out
}

// before returns the steps that have to stand before a tick does. What is
// accounted for waits for none.
func (s State) before(step Step, t Tick) []string {
	if t.Way == Accounted {
		return nil
	}
	return s.missing(step, t.Place)
}

// missing returns the steps before one that do not stand. Where both are done
// at the same place, it is enough that the one before stands there.
func (s State) missing(step Step, place string) []string {
	var out []string
	for _, id := range step.NotBefore {
		before, _, ok := s.list.Find(id)
		if !ok {
			continue
		}
		if place != "" && slices.Contains(before.Places, place) {
			if _, stands := s.marks[mark{id, place}]; stands {
				continue
			}
		} else if s.Done(id) {
			continue
		}
		out = append(out, id)
	}
	return out
}

// Done reports whether all of a step stands.
func (s State) Done(id string) bool {
	step, _, ok := s.list.Find(id)
	if !ok {
		return false
	}
	if step.Kind == Counted {
		return s.counted(step)
	}
	for _, p := range step.spots() {
		if _, stands := s.marks[mark{id, p}]; !stands {
			return false
		}
	}
	return true
}

// At returns the tick that stands at a place of a step, or what is counted its
// way; ok is false when none does.
func (s State) At(step Step, place string) (t Ticked, ok bool) {
	t, ok = s.marks[Tick{Step: step.ID, Place: place, Way: step.Way}.mark()]
	return t, ok
}

// LostAt returns why a tick at a place of a step does not stand; ok is false
// when it was never taken from it, or stands.
func (s State) LostAt(step Step, place string) (l Loss, ok bool) {
	l, ok = s.lost[Tick{Step: step.ID, Place: place, Way: step.Way}.mark()]
	return l, ok
}

// Progress counts the steps and those that stand.
func (s State) Progress() (done, all int) {
	for _, step := range s.list {
		if s.Done(step.ID) {
			done++
		}
	}
	return done, len(s.list)
}

// Spots returns how many places of a step are ticked, of how many.
func (s State) Spots(step Step) (ticked, all int) {
	for _, p := range step.spots() {
		if _, ok := s.At(step, p); ok {
			ticked++
		}
	}
	return ticked, len(step.spots())
}

// ForcedAt returns the first reason for which a tick of a step was forced, or "".
func (s State) ForcedAt(step Step) string {
	for _, m := range s.marksOf(step.ID) {
		if why := s.marks[m].Forced; why != "" {
			return why
		}
	}
	return ""
}
