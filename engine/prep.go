package engine

import (
	"slices"

	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
)

// prepared is what happened to the prep, in the order in which it happened, and
// what that adds up to.
type prepared struct {
	items []prepItem
	now   prep.State
	// notes are what stays on a reading, by the number of its event.
	notes map[int64][]string
}

// prepItem is a fact of the prep, or a reading taken of a feature.
type prepItem struct {
	prep.Fact
	of plan.Feature
}

// listed reports whether the session has, or had, a prep list.
func (p *prepared) listed() bool { return len(p.items) > 0 }

// take folds an event in. Work before the first list is no part of the prep.
func (p *prepared) take(e record.Event) {
	f, ok := record.PrepFact(e)
	if !ok || f.Work != nil && !p.listed() {
		return
	}
	x := prepItem{Fact: f}
	if f.After == 0 {
		p.items = append(p.items, x)
		p.step(x)
		return
	}
	at := slices.IndexFunc(p.items, func(y prepItem) bool { return x.Before(y.Fact) })
	if at < 0 {
		at = len(p.items)
	}
	p.items = slices.Insert(slices.Clone(p.items), at, x)
	p.again()
}

// read folds a reading of a feature in.
func (p *prepared) read(n int64, f plan.Feature) {
	if p.listed() {
		x := prepItem{prep.Fact{N: n}, f}
		p.items = append(p.items, x)
		p.step(x)
	}
}

// moved notes that a reading was of another feature.
func (p *prepared) moved(n int64, f plan.Feature) {
	at := slices.IndexFunc(p.items, func(x prepItem) bool { return x.N == n && !x.of.IsZero() })
	if at >= 0 {
		p.items = slices.Clone(p.items)
		p.items[at].of = f
		p.again()
	}
}

func (p *prepared) step(x prepItem) {
	if x.of.IsZero() {
		p.now = p.now.Apply(x.Fact)
		return
	}
	if notes := p.now.Notes(x.of); len(notes) > 0 {
		if p.notes == nil {
			p.notes = map[int64][]string{}
		}
		p.notes[x.N] = notes
	}
}

// again folds everything anew.
func (p *prepared) again() {
	*p = prepared{items: p.items}
	for _, x := range p.items {
		p.step(x)
	}
}

// setDone folds a tick in; it must be of a step of the list.
func (st *state) setDone(e record.Event, d record.Done) error {
	if err := st.prep.now.List().Check(d.Tick); err != nil {
		return err
	}
	st.prep.take(e)
	return nil
}

// movesNotes reports whether withdrawing an event may change what stays on the
// figures of readings.
func (s *Session) movesNotes(e record.Event) bool {
	_, is := record.PrepFact(e)
	return is && s.prep.listed()
}

// Prep returns where the prep stands; without a list it is the zero value.
func (s *Session) Prep() prep.State { return s.prep.now }

// LastDone returns the number of the newest live tick of the prep list, 0 when
// there is none.
func (s *Session) LastDone() int64 {
	for _, e := range slices.Backward(s.events) {
		if e.Is() == record.IsDone && s.Live(e.N) {
			return e.N
		}
	}
	return 0
}

// Notes returns what stays on the figures of features: that some of their
// present readings were taken before the part was washed, deburred or soaked.
func (s *Session) Notes(fs ...plan.Feature) []string {
	if len(s.prep.notes) == 0 {
		return nil
	}
	var out []string
	for _, f := range fs {
		for p := range s.plan.Each(f) {
			for _, t := range s.Now(p) {
				for _, note := range s.prep.notes[t.N] {
					out = appendNew(out, note)
				}
			}
		}
	}
	return out
}
