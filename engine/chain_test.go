package engine_test

import (
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// The dial gives the true clearance, however wrong the micrometer is.
func TestTheChainReadsClearanceStraightOff(t *testing.T) {
	for _, off := range []string{"0.0000", "0.0003", "-0.0010"} {
		s := chain(t, off)
		p := plan.Place{Of: plan.Feature{Family: plan.MainBearing, At: 1}, Level: "a", Dir: "vertical"}
		c, over, ok := s.Chained(p)
		if !ok || over != (plan.Feature{Family: plan.MainJournal, At: 1}) || c.Format(length.In, 4) != "0.0020" {
			t.Errorf("micrometer out by %s: %s over %s, %v", off, c.Format(length.In, 4), over, ok)
		}
	}
}

func TestWhatIsReadOnAScaleIsNoChain(t *testing.T) {
	s := chain(t, "0.0003")
	for _, of := range []plan.Feature{{Family: plan.MainJournal, At: 1}, {Family: plan.MainBearing, At: 2}} {
		if _, _, ok := s.Chained(plan.Place{Of: of, Level: "a", Dir: "vertical"}); ok {
			t.Errorf("%s is read by the chain", of)
		}
	}
}
