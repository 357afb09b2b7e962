package engine_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
)

func longSession(t *testing.T, bodies []record.Body) *engine.Session {
	t.Helper()
	events, err := recordtest.Seal(recordtest.Events(bodies))
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay(events)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A full session has every place read, every finding measured and a budget for
// each.
func TestWholeSessionIsWhole(t *testing.T) {
	s := longSession(t, append(recordtest.Setup("whole"), recordtest.Read(recordtest.Whole, recordtest.Repeats)...))
	if n := len(s.Places()); n != recordtest.Places {
		t.Errorf("the plan has %d places, not %d", n, recordtest.Places)
	}
	if settled, planned := s.Progress(); settled != planned {
		t.Errorf("%d of %d places are read", settled, planned)
	}
	a := engine.Assess(s)
	if len(a.Findings) < 80 {
		t.Errorf("only %d findings", len(a.Findings))
	}
	for _, f := range a.Findings {
		if f.On == limit.Step {
			continue // of two clearances that have theirs
		}
		if !f.Value.Measured() || f.Doubt.Expanded <= 0 {
			t.Errorf("%s has no figure or no doubt: %s", f.Of, f.Text)
		}
	}
}

// A long session is as long as it was asked to be, and its bores are to be read.
func TestLongSessionEndsHoned(t *testing.T) {
	const n = 2000
	s := longSession(t, recordtest.Long("long", n))
	if got := s.Head().N; got != n {
		t.Errorf("it has %d events, want %d", got, n)
	}
	if settled, planned := s.Progress(); planned-settled != 160 {
		t.Errorf("%d places are to be read, want the bores' 160", planned-settled)
	}
}

// fewPlaces is the setup of a vee eight of which only bores, pistons and mains
// are read, at few places each, so that repeats and replacements are frequent.
func fewPlaces() []record.Body {
	bodies := recordtest.Setup("few")
	for i, b := range bodies {
		p, ok := b.(record.Plan)
		if !ok {
			continue
		}
		p.Families = p.Families[:4]
		for k := range p.Families {
			p.Families[k].Levels, p.Families[k].Directions = p.Families[k].Levels[:2], p.Families[k].Directions[:1]
		}
		bodies[i] = p
	}
	return bodies
}

// After every event what is touched, assessed again, is what a full assessment
// of a fresh replay says: with the gauges' repeatability, which first readings,
// repeats, unseen repeats, replacements, work and withdrawals move. The assessment
// before it, which a screen may hold, still says what it said.
func TestAgainEqualsAFreshAssessmentWithBudgets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := fewPlaces()
		kept := replay(t, bodies)
		again, was := engine.Assess(kept), engine.Assess(replay(t, bodies))
		reads := recordtest.Read(recordtest.Places, recordtest.Repeats)
		var few []record.Body
		for _, r := range reads {
			if kept.Check(r) == nil {
				few = append(few, r)
			}
		}
		for range rapid.IntRange(1, 6).Draw(t, "events") {
			b := anEvent(t, kept, few[:8], int64(len(fewPlaces())))
			if kept.Check(b) != nil {
				continue
			}
			bodies = append(bodies, b)
			events := seal(t, bodies)
			touched, err := kept.Apply(events[len(events)-1])
			if err != nil {
				t.Fatal(err)
			}
			held := again
			again = again.Again(kept, touched)
			if !reflect.DeepEqual(held, was) {
				t.Fatalf("%+v, which touched %+v, changed the assessment before it", b, touched)
			}
			full := engine.Assess(replay(t, bodies))
			was = full
			if reflect.DeepEqual(again, full) {
				continue
			}
			for i, f := range full.Findings {
				if !reflect.DeepEqual(again.Findings[i], f) {
					t.Fatalf("after %+v, which touched %+v, again\n%+v\nin full\n%+v", b, touched, again.Findings[i], f)
				}
			}
			t.Fatalf("after %+v, which touched %+v, what is not a finding differs", b, touched)
		}
	})
}

// anEvent draws a reading of few places in any way, work on a bore, or that one
// of the events since the setup is withdrawn.
func anEvent(t *rapid.T, s *engine.Session, reads []record.Body, setup int64) record.Body {
	switch rapid.IntRange(0, 9).Draw(t, "what") {
	case 0:
		return recordtest.Honed()
	case 1:
		return record.Withdrawn{Event: rapid.Int64Range(setup+1, max(setup+1, s.Head().N)).Draw(t, "withdrawn")}
	default:
		r := rapid.SampledFrom(reads).Draw(t, "reading").(record.Reading)
		r.As = rapid.SampledFrom([]string{record.First, record.Repeat, record.Replace}).Draw(t, "as")
		r.Blind = r.As == record.Repeat && rapid.Bool().Draw(t, "blind")
		r.Dev.Length += length.Length(rapid.IntRange(0, 5).Draw(t, "off")) * length.Micrometre
		return r
	}
}
