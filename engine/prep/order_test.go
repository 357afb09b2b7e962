package prep_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// engines are some that presets are made for: with and without cam bearings,
// in both units.
var engines = []prep.For{
	six,
	{Layout: plan.Default(plan.Vee, 8, true), Unit: length.MM},
	{Layout: withoutCams(plan.Default(plan.Inline, 3, false)), Unit: length.MM},
	{Layout: plan.Default(plan.Flat, 2, false), Unit: length.In},
}

func withoutCams(l plan.Layout) plan.Layout {
	l.CamBearings = 0
	return l
}

// lists are every preset for every engine, and all presets in one list.
func lists() map[string]struct {
	prep.List
	prep.For
} {
	out := map[string]struct {
		prep.List
		prep.For
	}{}
	for i, e := range engines {
		var whole prep.List
		for _, p := range prep.Presets() {
			l := p.List(e)
			out[p.ID+" "+itoa(i)] = struct {
				prep.List
				prep.For
			}{l, e}
			for _, s := range l {
				whole = whole.With(e, s.ID)
			}
		}
		out["all "+itoa(i)] = struct {
			prep.List
			prep.For
		}{whole, e}
	}
	return out
}

// Every published before and after holds in every list, directly or through
// the steps between; so does what the trade does.
func TestPresetsKeepThePublishedOrder(t *testing.T) {
	checked := map[prep.Pair]bool{}
	for name, l := range lists() {
		if err := l.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, p := range prep.Pairs() {
			_, a, first := l.Find(p.First)
			_, b, then := l.Find(p.Then)
			if !first || !then {
				continue
			}
			checked[p] = true
			if !l.Resting(p.First)[p.Then] {
				t.Errorf("%s: %s does not wait for %s (%s)", name, p.Then, p.First, p.Source)
			}
			if a >= b {
				t.Errorf("%s: %s is listed behind %s", name, p.First, p.Then)
			}
		}
	}
	for _, p := range prep.Pairs() {
		if !checked[p] {
			t.Errorf("no list has both %s and %s", p.First, p.Then)
		}
	}
}

// The chain that the manuals describe, from plugs out to the last wipe, in one
// breath: it must follow from the pairs that have a published source.
func TestThePublishedChainIsWhole(t *testing.T) {
	chain := []string{
		prep.PlugsOut, prep.Machining, prep.DeburrBores, prep.Brush, prep.Wash, prep.Dry, prep.Oil,
		prep.CamIn, prep.CamFeed, prep.CoreIn, prep.PlugsIn, prep.LastWipe,
	}
	var sourced prep.List
	for _, id := range chain {
		s := prep.Step{ID: id, Name: id, Kind: prep.Once}
		for _, p := range prep.Pairs() {
			if p.Then == id && p.Source != prep.CommonPractice && slices.Contains(chain, p.First) {
				s.NotBefore = append(s.NotBefore, p.First)
			}
		}
		sourced = append(sourced, s)
	}
	for i, id := range chain[1:] {
		if !sourced.Resting(chain[i])[id] {
			t.Errorf("no published pair puts %s before %s", chain[i], id)
		}
	}
}

// stands reports whether a step stands where another one at a place needs it.
func (b *bench) stands(step prep.Step, place string) bool {
	if place != "" && slices.Contains(step.Places, place) {
		_, ok := b.now.At(step, place)
		return ok
	}
	return b.now.Done(step.ID)
}

// unforced returns the places of a step that stand and were never forced.
func (b *bench) unforced(s prep.Step) []string {
	var out []string
	places := s.Places
	if len(places) == 0 {
		places = []string{""}
	}
	for _, p := range places {
		if t, ok := b.now.At(s, p); ok && t.Forced == "" {
			out = append(out, p)
		}
	}
	return out
}

// anyAct draws something a hand may do: a tick in any order, forced or given
// up when it is held, or work on metal.
func (b *bench) anyAct(t *rapid.T) {
	if rapid.IntRange(0, 19).Draw(t, "act") == 0 {
		b.work(rapid.SampledFrom([]string{"honed", "ground", prep.Deburred}).Draw(t, "did"),
			rapid.SampledFrom([]string{"bore/1", "main-journal/1", "piston/1"}).Draw(t, "on"))
		return
	}
	s := rapid.SampledFrom(b.now.List()).Draw(t, "step")
	place := ""
	if len(s.Places) > 0 {
		place = rapid.SampledFrom(s.Places).Draw(t, "place")
	}
	text := rapid.SampledFrom([]string{"1", "2", "3", "60"}).Draw(t, "text")
	if s.Kind == prep.Choice {
		text = "1"
	}
	tick := b.read(s.ID, place, text)
	if held := b.now.Hold(tick, b.l); held != "" {
		if rapid.IntRange(0, 9).Draw(t, "force") > 0 {
			return
		}
		tick.Forced = held
	}
	b.add(prep.Fact{Tick: &tick})
}

// In whatever order a list is ticked, no step stands before what the pairs put
// before it, unless it was forced; after work on metal nothing stands that the
// pairs put behind the wash.
func TestAnyOrderKeepsThePairs(t *testing.T) {
	all := lists()
	names := []string{"new-block 0", "used-block 1", "after-machining 2", "crank 0", "assembly 3", "all 1"}
	rapid.Check(t, func(t *rapid.T) {
		l := all[rapid.SampledFrom(names).Draw(t, "list")]
		b := newBench(t, l.For, l.List)
		for range rapid.IntRange(1, 60).Draw(t, "acts") {
			b.anyAct(t)
			for _, p := range prep.Pairs() {
				first, _, ok := l.Find(p.First)
				then, _, both := l.Find(p.Then)
				if !ok || !both || then.Way == prep.Out {
					continue
				}
				for _, place := range b.unforced(then) {
					if !b.stands(first, place) && !b.forcedBetween(first.ID, then.ID) {
						t.Fatalf("%s stands at %q and %s does not (%s)", then.ID, place, first.ID, p.Source)
					}
				}
			}
			if w := b.facts[len(b.facts)-1].Work; w != nil && w.On[0].Family == plan.Bore {
				b.nothingBehindTheWash(t)
			}
		}
	})
}

// forcedBetween reports whether a step between the two of a pair was forced:
// then what is behind it rests on that.
func (b *bench) forcedBetween(first, then string) bool {
	list := b.now.List()
	for _, s := range list {
		if !list.Resting(first)[s.ID] || !list.Resting(s.ID)[then] || s.ID == then {
			continue
		}
		for _, f := range b.now.Findings(b.l) {
			if f.Kind == prep.Forced && f.Step == s.ID {
				return true
			}
		}
	}
	return false
}

func (b *bench) nothingBehindTheWash(t *rapid.T) {
	var pairs prep.List
	for _, s := range b.now.List() {
		x := prep.Step{ID: s.ID}
		for _, p := range prep.Pairs() {
			if p.Then == s.ID {
				x.NotBefore = append(x.NotBefore, p.First)
			}
		}
		pairs = append(pairs, x)
	}
	for id := range pairs.Resting(prep.Wash) {
		s, _, ok := b.now.List().Find(id)
		if !ok || s.Way == prep.Out {
			continue
		}
		if ticked, _ := b.now.Spots(s); ticked > 0 {
			t.Fatalf("%s stands after work on a bore", id)
		}
	}
}

// Folding facts one by one, all at once, or shuffled gives the same.
func TestFoldDoesNotDependOnTheOrderGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := of(t, "new-block")
		for range rapid.IntRange(1, 40).Draw(t, "acts") {
			b.anyAct(t)
		}
		shuffled := rapid.Permutation(b.facts).Draw(t, "shuffled")
		got, want := prep.Fold(shuffled), b.now
		if prep.NotReady(got.Findings(b.l)) != prep.NotReady(want.Findings(b.l)) {
			t.Fatal("shuffled facts fold to something else")
		}
		for _, s := range want.List() {
			if got.Done(s.ID) != want.Done(s.ID) {
				t.Fatalf("%s is done in one order only", s.ID)
			}
		}
	})
}

// A list that is done in its own order is never held, and is ready at the end.
func TestInItsOrderNothingIsHeld(t *testing.T) {
	for name, l := range lists() {
		b := newBench(t, l.For, l.List)
		b.upTo(l.List[len(l.List)-1].ID)
		if got := b.notReady(); got != "" {
			t.Errorf("%s: %s", name, got)
		}
		if done, all := b.now.Progress(); done != all || all != len(l.List) {
			t.Errorf("%s: %d of %d done", name, done, all)
		}
	}
}
