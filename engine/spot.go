package engine

import (
	"fmt"
	"maps"
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// spot is what happened at one place: the events of its live readings in order,
// what of them stands, by stage, and, when it was left out, the event that said so.
type spot struct {
	readings []int64
	stages   []standing
	leftOut  int64
}

// workMark is a work event that changed a feature. What was read after event
// from belongs to the stage that it opened.
type workMark struct {
	n, from int64
	record.Work
}

func (st *state) spotAt(p plan.Place) *spot {
	if st.spots == nil {
		st.spots = make(map[plan.Place]*spot, st.plan.Count(st.layout)) // grown step by step it took 40 kB more
		st.full = map[string]bool{}
	}
	s, ok := st.spots[p]
	if !ok {
		s = &spot{}
		st.spots[p] = s
	}
	return s
}

func (st *state) addReading(e record.Sealed, r record.Reading) error {
	if err := st.inPlan(r.Place()); err != nil {
		return err
	}
	if err := st.checkSet(r); err != nil {
		return err
	}
	s, t := st.spotAt(r.Place()), Taken{e.N, e.At, e.By, r}
	s.readings = append(s.readings, e.N)
	s.stand(t, st.stageOf(r.Of, e.N))
	st.full[r.Set] = st.full[r.Set] || !r.Size.IsZero()
	if !r.Blind {
		st.lastPlace = r.Place()
	}
	st.prep.read(e.N, r.Of)
	return nil
}

// checkSet holds a deviation to a set whose master has a size.
func (st *state) checkSet(r record.Reading) error {
	if r.Set == "" && r.Dev.IsZero() {
		return nil
	}
	set, ok := st.Set(r.Set)
	if !ok {
		return fmt.Errorf("%s: no set %q", r.Of, r.Set)
	}
	x, _ := st.Setting(set.Setting)
	if _, chained := masterFeature(&x); !r.Dev.IsZero() && x.Size.IsZero() && !chained {
		return fmt.Errorf("%s: a deviation needs a master of known size, setting %q has none", r.Of, x.ID)
	}
	return nil
}

func (st *state) leaveOut(n int64, l record.LeftOut) error {
	if err := st.inPlan(l.Place()); err != nil {
		return err
	}
	st.spotAt(l.Place()).leftOut = n
	st.lastPlace = l.Place()
	return nil
}

// move puts readings to other places, all or none.
func (st *state) move(m record.Moved) error {
	if len(m.Readings) != len(m.Places) {
		return fmt.Errorf("%d readings are moved to %d places", len(m.Readings), len(m.Places))
	}
	for i, n := range m.Readings {
		if _, ok := st.standsAt(n); !ok {
			return fmt.Errorf("event %d is no reading to move", n)
		}
		if err := st.inPlan(m.Places[i]); err != nil {
			return err
		}
	}
	for _, n := range m.Readings {
		st.lift(n)
	}
	for i, n := range m.Readings {
		st.drop(n, m.Places[i])
		st.prep.moved(n, m.Places[i].Of)
	}
	return nil
}

// lift takes a reading from where it stands.
func (st *state) lift(n int64) {
	p, ok := st.standsAt(n)
	if !ok {
		return
	}
	s := st.spots[p]
	i, _ := slices.BinarySearch(s.readings, n)
	s.readings = slices.Delete(s.readings, i, i+1)
	st.restand(p)
}

// drop puts a reading to a place, in the order of its event.
func (st *state) drop(n int64, p plan.Place) {
	s := st.spotAt(p)
	i, _ := slices.BinarySearch(s.readings, n)
	s.readings = slices.Insert(s.readings, i, n)
	if st.moved == nil {
		st.moved = map[int64]plan.Place{}
	}
	st.moved[n] = p
	st.restand(p)
}

func (st *state) addWork(e record.Event, w record.Work) error {
	n := e.N
	if w.After >= n {
		return fmt.Errorf("work after event %d comes before it", w.After)
	}
	for _, f := range append(w.To[:len(w.To):len(w.To)], w.Changes...) {
		if err := st.layout.Has(f); err != nil {
			return err
		}
	}
	from := n
	if w.After > 0 {
		from = w.After
	}
	if st.works == nil {
		st.works = map[plan.Feature][]workMark{}
	}
	for _, f := range w.Changes {
		st.works[f] = append(st.works[f], workMark{n, from, w})
		if from < n { // what was read in between belongs to the new stage
			st.restandAll(f)
		}
	}
	st.prep.take(e)
	return nil
}

// stageOf returns how many works a feature had seen when event n was recorded.
func (st *state) stageOf(f plan.Feature, n int64) int {
	stage := 0
	for _, w := range st.works[f] {
		if w.from < n {
			stage++
		}
	}
	return stage
}

// Stage returns the present stage of a feature: 0 as found, then the number of
// works that changed it.
func (s *Session) Stage(f plan.Feature) int { return len(s.works[f]) }

// Now returns the live readings of a place's present stage.
func (s *Session) Now(p plan.Place) []Taken { return s.At(p, s.Stage(p.Of)) }

// IsLeftOut reports whether a place was left out and not read since.
func (s *Session) IsLeftOut(p plan.Place) bool { return s.leftOut(p.Of, s.spots[p]) }

func (s *Session) leftOut(f plan.Feature, sp *spot) bool {
	if sp == nil || sp.leftOut == 0 {
		return false
	}
	if n := len(sp.readings); n > 0 && sp.readings[n-1] > sp.leftOut {
		return false
	}
	return s.stageOf(f, sp.leftOut) == s.Stage(f)
}

// SizeOf returns the size that a reading means at 20 °C: what was read, or its
// deviation from the size of its setting's master as that is known now, less
// what the zero had wandered by, see Drift. It is not measured when that master is a feature with no reading left.
func (s *Session) SizeOf(t Taken) length.Exact { return s.sizeOf(t) }

func (s *Session) sizeOf(t Taken, through ...string) length.Exact {
	wandered := length.Of(s.Drift(t))
	if !t.Size.IsZero() {
		return s.at20(t, t.Size.Exact().Sub(wandered))
	}
	return s.at20(t, s.zeroSize(s.setOf(t.Set).Setting, through...).Add(t.Dev.Exact()).Sub(wandered))
}

// Figure returns a place's figure in a stage: the exact mean of its readings.
func (s *Session) Figure(p plan.Place, stage int) length.Exact { return s.figure(p, stage) }

func (s *Session) figure(p plan.Place, stage int, through ...string) length.Exact {
	return s.meanSize(s.At(p, stage), through...)
}

// meanSize is the exact mean of readings.
func (s *Session) meanSize(list []Taken, through ...string) length.Exact {
	return length.MeanOf(s.sizesOf(make([]length.Exact, 0, len(list)), list, through...)...)
}

// sizesOf adds the sizes that readings mean to a list.
func (s *Session) sizesOf(out []length.Exact, list []Taken, through ...string) []length.Exact {
	for i := range list {
		out = append(out, s.sizeOf(list[i], through...))
	}
	return out
}

// HasReadings reports whether a place has live readings of any stage.
func (s *Session) HasReadings(p plan.Place) bool {
	sp := s.spots[p]
	return sp != nil && len(sp.readings) > 0
}

// ReadPlaces returns every place that was read or left out in any stage, also
// those that the plan has no more, in no order.
func (s *Session) ReadPlaces() []plan.Place { return slices.Collect(maps.Keys(s.spots)) }
