package limit_test

import (
	"slices"
	"testing"

	. "borewright/engine/limit"
)

func TestWearOnTheWrongSide(t *testing.T) {
	for _, c := range []struct {
		name string
		l    Limits
		want []string
	}{
		{"a bore worn smaller", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear low 3.7600 in"), []string{"wear low: wrong side, 3.7600 in as the high wear limit (wrong field)"}},
		{"one bore's own limits", row(t, Size, "bore/3", "new high 3.7510 in", "wear low 3.7600 in"), []string{"wear low: wrong side, 3.7600 in as the high wear limit (wrong field)"}},
		{"a bore worn smaller than new", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear low 3.7400 in"), []string{"wear low: wrong side"}},
		{"a bore with both", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear low 3.7500 in", "wear high 3.7600 in"), nil},
		{"a journal worn larger", row(t, Size, "main-journal", "new low 2.4990 in", "new high 2.5000 in", "wear high 2.4970 in"), []string{"wear high: wrong side, 2.4970 in as the low wear limit (wrong field)"}},
		{"a journal", row(t, Size, "main-journal", "new low 2.4990 in", "wear low 2.4970 in"), nil},
		{"a shell's wall worn thicker", row(t, Wall, "shell-main", "new low 0.1247 in", "wear high 0.1240 in"), []string{"wear high: wrong side, 0.1240 in as the low wear limit (wrong field)"}},
		{"a gap worn smaller", row(t, EndGap, "ring-gap", "new low 0.010 in", "wear low 0.040 in"), []string{"wear low: wrong side, 0.040 in as the high wear limit (wrong field)"}},
		{"a taper limited from below", row(t, Taper, "bore", "wear low 0.002 in"), []string{"wear low: wrong side, 0.002 in as the high wear limit (wrong field)"}},
		{"a choked bore", row(t, Taper, "bore", "new low -0.002 in", "wear low -0.003 in"), nil},
		{"a deck, which does not wear", row(t, DeckClearance, "deck", "wear low 0.002 in"), nil},
	} {
		if got := said(c.l.Doubts(nil)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	misprinted := row(t, Size, "bore", "new high 3.7510 in", "wear low 3.7600 in").Doubts(map[Field]string{WearLow: "95.054 mm"})
	if got := said(misprinted); !slices.Equal(got, []string{"wear low: printings disagree, 95.504 mm (swapped digits)", "wear low: wrong side, 3.7600 in as the high wear limit (wrong field)"}) {
		t.Errorf("both at once: %q", got)
	}
}

func TestOutOfOrder(t *testing.T) {
	for _, c := range []struct {
		name string
		l    Limits
		want []string
	}{
		{
			"a wear limit below new", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear high 3.7501 in"),
			[]string{"new high: out of order, 3.7501 in (limits exchanged)", "wear high: out of order, 3.7510 in (limits exchanged)"},
		},
		{
			"a target above", row(t, Clearance, "bore", "new low 0.0015 in", "new high 0.0025 in", "target 0.020 in"),
			[]string{"target: out of order, 0.0020 in (shifted point)"},
		},
		{
			"a target below", row(t, Size, "main-journal", "new low 2.4990 in", "new high 2.5000 in", "target 2.4959 in"),
			[]string{"new low: out of order, 2.4909 in (swapped digits)", "target: out of order, 2.4995 in (swapped digits)"},
		},
		{
			"millimetres in an inch field", row(t, Size, "bore", "new low 95.250 in", "new high 3.7510 in", "wear high 3.7600 in"),
			[]string{"new low: out of order, 95.250 mm (wrong unit)"},
		},
		{
			"exchanged, beside a wear limit", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7010 in", "wear high 3.7600 in"),
			[]string{"new low: out of order, 3.7010 in (limits exchanged)", "new high: out of order, 3.7500 in (limits exchanged)"},
		},
	} {
		if got := said(c.l.Doubts(nil)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Each of several misprints of a row is doubted, explained or not.
func TestMoreThanOneMisprint(t *testing.T) {
	for _, c := range []struct {
		name string
		l    Limits
		also map[Field]string
		want []string
	}{
		{
			"one explained, one not", row(t, Clearance, "bore", "new low 0.0100 in", "new high 0.0050 in"),
			map[Field]string{NewLow: "9.876 mm"},
			[]string{"new low: printings disagree", "new high: out of order, 0.050 in (shifted point)"},
		},
		{
			"both in their conversions", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in"),
			map[Field]string{NewLow: "92.550 mm", NewHigh: "952.75 mm"},
			[]string{"new low: printings disagree, 95.250 mm (swapped digits)", "new high: printings disagree, 95.275 mm (shifted point), 37.510 in (shifted point)"},
		},
		{
			"both swapped, and so out of order", row(t, Size, "bore", "new low 7.3500 in", "new high 3.7501 in"),
			map[Field]string{NewLow: "95.250 mm", NewHigh: "95.275 mm"},
			[]string{"new low: printings disagree, 3.7500 in (swapped digits)", "new high: printings disagree, 3.7510 in (swapped digits)"},
		},
	} {
		if got := said(c.l.Doubts(c.also)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// 0.005 beside 0.0005 on facing pages, and the neighbours that are no misprint.
func TestTheDigitsOfALikeLimit(t *testing.T) {
	form := func(on Characteristic, of string, fields ...string) Copied {
		return Copied{Limits: row(t, on, of, fields...)}
	}
	for _, c := range []struct {
		name string
		all  []Copied
		want []string
	}{
		{
			"a lost zero",
			[]Copied{form(OutOfRound, "main-journal", "new high 0.0005 in"), form(OutOfRound, "rod-journal", "new high 0.005 in")},
			[]string{"new high: tenfold, 0.005 in (shifted point)", "new high: tenfold, 0.0005 in (lost zero)"},
		},
		{
			"two against one",
			[]Copied{
				form(OutOfRound, "main-journal", "wear high 0.0005 in"), form(OutOfRound, "rod-journal", "wear high 0.005 in"), form(OutOfRound, "main-journal/2", "wear high 0.0005 in"),
			},
			[]string{"wear high: tenfold, 0.0005 in (lost zero)"},
		},
		{
			"taper beside out-of-round",
			[]Copied{form(Taper, "bore", "new high 0.02 mm"), form(OutOfRound, "bore", "new high 0.002 mm")},
			[]string{"new high: tenfold, 0.002 mm (lost zero)", "new high: tenfold, 0.02 mm (shifted point)"},
		},
		{
			"one bore beside the others",
			[]Copied{form(Clearance, "bore", "new high 0.0025 in"), form(Clearance, "bore/3", "new high 0.025 in")},
			[]string{"new high: tenfold, 0.025 in (shifted point)", "new high: tenfold, 0.0025 in (lost zero)"},
		},
		{"taper 0.0006 and out-of-round 0.0005, TM 9-2815-202-34 p. 4-158", []Copied{form(Taper, "main-journal", "wear high 0.0006 in"), form(OutOfRound, "main-journal", "wear high 0.0005 in")}, nil},
		{"taper 0.002 and out-of-round 0.0025, TM 9-2815-202-34 p. 4-147", []Copied{form(Taper, "bore", "wear high 0.002 in"), form(OutOfRound, "bore", "wear high 0.0025 in")}, nil},
		{"new beside wear", []Copied{form(OutOfRound, "bore", "new high 0.0005 in", "wear high 0.005 in")}, nil},
		{"new here and wear there", []Copied{form(OutOfRound, "bore", "new high 0.0005 in"), form(Taper, "bore", "wear high 0.005 in")}, nil},
		{"bores beside journals", []Copied{form(OutOfRound, "bore", "wear high 0.005 in"), form(OutOfRound, "main-journal", "wear high 0.0005 in")}, nil},
		{"clearances of pistons and of mains", []Copied{form(Clearance, "bore", "new high 0.02 in"), form(Clearance, "main-bearing", "new high 0.002 in")}, nil},
		{"per length and not", []Copied{form(Taper, "bore", "wear high 0.0005 in", "per 1 in"), form(OutOfRound, "bore", "wear high 0.005 in")}, nil},
		{"in another unit", []Copied{form(Taper, "bore", "wear high 0.005 in"), form(OutOfRound, "bore", "wear high 0.0127 mm")}, nil},
		{"a hundred against ten", []Copied{form(Taper, "bore", "wear high 0.012 mm"), form(OutOfRound, "bore", "wear high 0.063 mm")}, nil},
	} {
		if got := said(Doubts(c.all)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
