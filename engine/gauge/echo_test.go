package gauge_test

import (
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

func TestEchoSaysInFullWhatIsMeant(t *testing.T) {
	noZero, first, sent, signed := dial(t), inch(t), dial(t), inch(t)
	noZero.HasZero, first.FullSeen, signed.Signed = false, false, true
	sent.Cable, sent.Instrument.Sends = true, gauge.SendsDeviation
	half := dial(t)
	half.Instrument.Graduation = written(t, "0.0005 in")
	for _, tt := range []struct {
		keyed string
		c     gauge.Context
		want  string
	}{
		{"+3", dial(t), "+3 → 3.7503 in, LARGER"},
		{"3", dial(t), "+3 → 3.7503 in, LARGER"},
		{"2-", dial(t), "-2 → 3.7498 in, SMALLER"},
		{"-1.5", dial(t), "-1.5 → 3.74985 in, SMALLER"},
		{"0", dial(t), "0 → 3.7500 in, THE SAME"},
		{"1.5", half, "+1.5 → 3.75075 in, LARGER"},
		{"+3", noZero, "+3 → +0.0003 in, LARGER"},
		{"-0.0003", sent, "-0.0003 in → 3.7497 in, SMALLER"},
		{"503", inch(t), "503 → 3.7503 in"},
		{"000", inch(t), "000 → 3.7000 in or 3.8000 in"},
		{"3.7503", inch(t), "3.7503 → 3.7503 in"},
		{"-0.002", signed, "-0.002 → -0.0020 in"},
		{"503", first, ""},
		{"5", inch(t), ""},
		{"+", dial(t), ""},
		{".", dial(t), ""},
		{"", dial(t), ""},
		{"12OM", dial(t), ""},
	} {
		if got := gauge.Echo(tt.keyed, tt.c); got != tt.want {
			t.Errorf("Echo(%q) = %q, want %q", tt.keyed, got, tt.want)
		}
	}
}

func TestSlipsAndAnswersHaveNames(t *testing.T) {
	seen := map[string]bool{}
	for s := gauge.Ambiguous; s <= gauge.FarOff; s++ {
		if s.String() == "" || seen[s.String()] {
			t.Errorf("slip %d is called %q", s, s)
		}
		seen[s.String()] = true
	}
	if gauge.NoSlip.String() != "" || gauge.Slip(99).String() != "" {
		t.Error("no slip has a name")
	}
	for k, want := range map[gauge.Kind]string{gauge.Taken: "taken", gauge.Held: "held", gauge.Refused: "refused"} {
		if k.String() != want {
			t.Errorf("%d is called %q", k, k)
		}
	}
}

func TestResolutionPlacesAndTurn(t *testing.T) {
	for _, tt := range []struct {
		name       string
		kind       string
		unit       length.Unit
		graduation string
		step, turn string
		resolution string
		places     int
		revolution string
	}{
		{"half a graduation", gauge.Comparator, length.In, "0.0001 in", "", "", "0.00005 in", 4, ""},
		{"a step given", gauge.Comparator, length.In, "0.0005 in", "0.0001 in", "0.050 in", "0.0001 in", 4, "0.050 in"},
		{"a thimble in inches", gauge.Direct, length.In, "0.001 in", "", "", "0.0005 in", 3, "0.025 in"},
		{"a thimble in millimetres", gauge.Direct, length.MM, "0.01 mm", "", "", "0.005 mm", 2, "0.5 mm"},
		{"graduations of two", gauge.Direct, length.MM, "0.002 mm", "", "1 mm", "0.001 mm", 3, "1 mm"},
		{"micrometres", gauge.Comparator, length.MM, "1 µm", "", "", "0.0005 mm", 3, ""},
		{"in another unit", gauge.Direct, length.In, "0.01 mm", "", "", "0.005 mm", 8, "0.025 in"},
	} {
		i := gauge.Instrument{Kind: tt.kind, Unit: tt.unit, Graduation: written(t, tt.graduation)}
		if tt.step != "" {
			i.Step = written(t, tt.step)
		}
		if tt.turn != "" {
			i.Turn = written(t, tt.turn)
		}
		if i.Resolution() != written(t, tt.resolution).Exact() {
			t.Errorf("%s: resolution %v, want %s", tt.name, i.Resolution(), tt.resolution)
		}
		var turn length.Length
		if tt.revolution != "" {
			turn = written(t, tt.revolution).Length
		}
		if i.Places() != tt.places || i.Revolution() != turn {
			t.Errorf("%s: places %d, turn %d", tt.name, i.Places(), i.Revolution())
		}
	}
	var none gauge.Instrument
	if none.Resolution().Measured() || none.Places() != 0 || none.Revolution() != 0 {
		t.Error("no instrument has a resolution")
	}
}
