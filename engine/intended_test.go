package engine_test

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// texted writes what was decided and what came of it.
func texted(s *engine.Session) string {
	var out []string
	for _, x := range s.Intentions(engine.Assess(s)) {
		out = append(out, x.Text)
	}
	return strings.Join(out, "\n")
}

func after(t *testing.T, s *engine.Session, bodies ...record.Body) *engine.Session {
	t.Helper()
	next, err := engine.Replay(enginetest.Seal(t, s.Events(), "ek", bodies))
	if err != nil {
		t.Fatal(err)
	}
	return next
}

func TestDecidedAndWhatCameOfIt(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	hone := change(t, engine.Hone, "bore/2", "3.7512")
	s = after(t, s, record.Intended{Actions: []record.Action{hone.Action()}})
	want(t, texted(s), "hone bore 2 to 3.7512 in: not done yet")

	s = after(t, s, record.Work{Did: "honed", To: []plan.Feature{hone.Of}, Changes: []plan.Feature{hone.Of}})
	want(t, texted(s), "hone bore 2 to 3.7512 in: done, not measured again")

	s = after(t, s, read(t, "bore/2", "a/across=3.7512 a/along=3.7514")...)
	want(t, texted(s), "hone bore 2 to 3.7512 in: mean size meant 3.7512, measured 3.7513 in, +0.0001")
	want(t, strings.Join(engine.Assess(s).Summary(s), "\n"), "Decided, and what came of it:\n  hone bore 2 to 3.7512 in: mean size meant 3.7512")
	if r := engine.Assess(s).Report(s); len(r.Intended) != 1 || !r.Intended[0].Done || r.Intended[0].Found != "3.7513 in" {
		t.Errorf("reported as %+v", r.Intended)
	}
}

func TestDecidedShellsAreComparedByTheirClearance(t *testing.T) {
	t.Parallel()
	s, a := complete(t)
	x := s.Shells(a, plan.MainBearing)
	var actions []record.Action
	for _, c := range x.Changes {
		if c.Of.At == 3 {
			actions = append(actions, c.Action())
		}
	}
	s = after(t, s, record.Intended{Actions: actions})
	if len(actions) != 2 {
		t.Fatalf("%d halves are changed at main 3", len(actions))
	}
	half := actions[0].To[0]
	s = after(t, s, record.Work{Did: "shell changed", To: []plan.Feature{half}, Changes: []plan.Feature{half, feature(t, "main-bearing/3")}})
	s = after(t, s, read(t, "main-bearing/3", "a/vertical=2.7511 b/vertical=2.7511")...)
	want(t, texted(s), "fit upper main shell 3 of extra clearance 0.0010 in: clearance meant 0.0018, measured 0.0017 in, -0.0001")
}

func TestASeatIsDecidedAndTaken(t *testing.T) {
	t.Parallel()
	s := pistons(t, []int{0, 20}, []int{20, 0}, clearanceLimit(t))
	x := s.Arrange(engine.Assess(s), plan.Piston)
	s = after(t, s, record.Intended{Actions: []record.Action{x.Changes[0].Action(), x.Changes[1].Action()}})
	want(t, texted(s), "put piston 2 at bore 1: not done yet")
	s = after(t, s, record.Fitted{Part: feature(t, "piston/2"), At: feature(t, "bore/1")}, record.Fitted{Part: feature(t, "piston/1"), At: feature(t, "bore/2")})
	want(t, texted(s), "put piston 2 at bore 1: clearance meant 0.0100, measured 0.0100 in, 0.0000", "put piston 1 at bore 2: clearance meant 0.0100")
}

// A later decision about the same thing takes the earlier one's place, others
// stand; deciding on nothing, or withdrawing the decision, takes it back.
func TestDecisionsReplaceAndGo(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	first, other := change(t, engine.Hone, "bore/2", "3.7512"), change(t, engine.Hone, "bore/3", "3.7510")
	s = after(t, s, record.Intended{Actions: []record.Action{first.Action()}}, record.Intended{Actions: []record.Action{other.Action()}})
	n := s.Head().N
	s = after(t, s, record.Intended{Actions: []record.Action{change(t, engine.Hone, "bore/2", "3.7513").Action()}})
	if got := texted(s); got != "hone bore 2 to 3.7513 in: not done yet\nhone bore 3 to 3.7510 in: not done yet" {
		t.Errorf("decided:\n%s", got)
	}
	if got := texted(after(t, s, record.Withdrawn{Event: n})); strings.Contains(got, "bore 3") {
		t.Errorf("withdrawn and still decided:\n%s", got)
	}
	if got := texted(after(t, s, record.Intended{})); got != "" {
		t.Errorf("all taken back, and still:\n%s", got)
	}
	if got := s.Log()[n-1].Text; got != "intended: hone bore 3 to 3.7510 in" {
		t.Errorf("the log says %q", got)
	}
}

// An action in words of its own is kept and shown as it is.
func TestADecisionInOtherWords(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	s = after(t, s, record.Intended{Actions: []record.Action{{Did: "send away", To: []plan.Feature{feature(t, "main-journal/3")}, Amount: "1 week"}}})
	want(t, texted(s), "intended: send away main journal 3, 1 week")
	want(t, s.Log()[s.Head().N-1].Text, "intended: send away main journal 3, 1 week")
}
