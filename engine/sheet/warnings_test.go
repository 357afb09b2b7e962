package sheet

import (
	"strings"
	"testing"

	"borewright/engine/enginetest"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// What directions can see is said of every family that is read; the warning of
// many is said once.
func TestSheetWarnsOfWhatDirectionsSee(t *testing.T) {
	t.Parallel()
	got := section(t, built(t, session(t, "hillclimb", 0), ""), "What to know of these figures")
	for _, want := range []string{
		"Main journals: 2 directions see 0 to 100 % of a true oval and no odd lobes.",
		"Bores: 3 directions see 75 to 87 % of a true oval and no odd lobes.",
	} {
		if strings.Count(got, want) != 1 {
			t.Errorf("want %q once in\n%s", want, got)
		}
	}
}

// A part that was read in other conditions, and a zero that came back wrong, are
// warned of.
func TestSheetWarnsOfConditionsAndZeros(t *testing.T) {
	t.Parallel()
	s := session(t, "launch-complete", 0)
	h, err := s.Hand(plan.Bore)
	if err != nil {
		t.Fatal(err)
	}
	bare := h.Set
	bare.ID, bare.Plate = "bare", ""
	enginetest.Apply(t, s, record.Zero{Set: h.Set.ID, Keyed: "20", Deviation: enginetest.Written(t, "0.0020 in")}, record.Set{Set: bare}, record.Reading{
		Of: plan.Feature{Family: plan.Bore, At: 1}, Level: "a", Dir: "across", Set: "bare", Keyed: "3", As: record.Replace,
		Dev: enginetest.Written(t, "0.0003 in"), Via: record.ViaKeypad,
	})
	got := section(t, built(t, s, ""), "What to know of these figures")
	for _, want := range []string{"to be measured again, for the gauge's zero could not be believed", "Bore 1: "} {
		if !strings.Contains(got, want) {
			t.Errorf("want %q in\n%s", want, got)
		}
	}
}
