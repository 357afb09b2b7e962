package engine_test

import (
	"testing"

	"borewright/engine"
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
