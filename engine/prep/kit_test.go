package prep_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// bench is a prep under test: the facts so far and what they fold to.
type bench struct {
	t     rapid.TB
	l     plan.Layout
	facts []prep.Fact
	now   prep.State
}

// six is the engine that most tests prepare.
var six = prep.For{Layout: plan.Default(plan.Inline, 6, false), Unit: length.In}

func newBench(t rapid.TB, f prep.For, list prep.List) *bench {
	t.Helper()
	if err := list.Validate(); err != nil {
		t.Fatal(err)
	}
	b := &bench{t: t, l: f.Layout}
	b.add(prep.Fact{Set: true, List: list})
	return b
}

// of opens a bench with a preset for a straight six in inches.
func of(t rapid.TB, id string) *bench {
	t.Helper()
	return newBench(t, six, preset(t, id).List(six))
}

func preset(t rapid.TB, id string) prep.Preset {
	t.Helper()
	for _, p := range prep.Presets() {
		if p.ID == id {
			return p
		}
	}
	t.Fatalf("there is no preset %s", id)
	return prep.Preset{}
}

// add puts a fact behind the others.
func (b *bench) add(f prep.Fact) {
	f.N = int64(len(b.facts) + 1)
	b.facts = append(b.facts, f)
	b.now = b.now.Apply(f)
}

func (b *bench) step(id string) prep.Step {
	b.t.Helper()
	s, _, ok := b.now.List().Find(id)
	if !ok {
		b.t.Fatalf("there is no step %s", id)
	}
	return s
}

// tick does a step at a place with a keyed text, forced when it is held, and
// returns why it was held.
func (b *bench) tick(id, place, text string) (held string) {
	b.t.Helper()
	t := b.read(id, place, text)
	held = b.now.Hold(t, b.l)
	t.Forced = held
	b.add(prep.Fact{Tick: &t})
	return held
}

func (b *bench) read(id, place, text string) prep.Tick {
	b.t.Helper()
	s := b.step(id)
	if !s.Keyed() {
		return prep.Tick{Step: id, Place: place}
	}
	t, err := s.Read(place, text)
	if err != nil {
		b.t.Fatalf("%s: %v", id, err)
	}
	return t
}

// all does a step at all its places and fails when one is held.
func (b *bench) all(id, text string) {
	b.t.Helper()
	s := b.step(id)
	places := s.Places
	if len(places) == 0 {
		places = []string{""}
	}
	for _, p := range places {
		keyed := text
		if s.Match {
			keyed = b.l.Label(prep.SpotOf(p).Of)
		}
		if held := b.tick(id, p, keyed); held != "" {
			b.t.Fatalf("%s at %q is held: %s", id, p, held)
		}
	}
}

// upTo does every step of the list in its order, up to and with one.
func (b *bench) upTo(id string) {
	b.t.Helper()
	for _, s := range b.now.List() {
		b.all(s.ID, b.usual(s))
		if s.ID == id {
			return
		}
	}
}

// usual is a text that a step is done with.
func (b *bench) usual(s prep.Step) string {
	out, _ := b.now.Tally(s.Tally)
	switch {
	case s.Way == prep.In && out.Out > 0:
		return itoa(out.Out)
	case s.Kind == prep.Choice:
		return "1"
	case s.Count > 0:
		return itoa(s.Count)
	case s.Kind == prep.Counted:
		return "11"
	default:
		return "60"
	}
}

func itoa(n int) string {
	if n > 9 {
		return itoa(n/10) + itoa(n%10)
	}
	return string(rune('0' + n))
}

// work does work on metal.
func (b *bench) work(did, on string) {
	b.t.Helper()
	b.add(prep.Fact{Work: &prep.Work{Did: did, On: []plan.Feature{feature(b.t, on)}}})
}

func feature(t rapid.TB, text string) plan.Feature {
	t.Helper()
	f, err := plan.ParseFeature(text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func (b *bench) notReady() string { return prep.NotReady(b.now.Findings(b.l)) }

func (b *bench) wants(t *testing.T, what string) {
	t.Helper()
	if got := b.notReady(); got != what {
		t.Errorf("it says\n  %q\nnot\n  %q", got, what)
	}
}
