package limit_test

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

// row reads limits of a characteristic from fields, such as "new low 0.0045 in".
func row(t interface{ Fatal(...any) }, on Characteristic, of string, fields ...string) Limits {
	l := Limits{On: on, Of: of}
	for _, text := range fields {
		name, value := "", text
		for _, f := range append(Fields(), "per") {
			if rest, ok := strings.CutPrefix(text, string(f)+" "); ok {
				name, value = string(f), rest
			}
		}
		at := map[string]*length.Written{
			"new low": &l.New.Low, "new high": &l.New.High, "wear low": &l.Wear.Low,
			"wear high": &l.Wear.High, "target": &l.Target, "per": &l.Per,
		}[name]
		if at == nil {
			t.Fatal("no field in", text)
		}
		*at = w(t, value)
	}
	return l
}

// said writes doubts as short as a test can: "new low: out of order, 0.0045 in
// (limits exchanged)".
func said(doubts []Doubt) []string {
	var out []string
	for _, d := range doubts {
		text := string(d.Field) + ": " + d.Reason.String()
		for _, g := range d.Likely {
			text += ", " + g.Text + " (" + g.Slip.String() + ")"
		}
		out = append(out, text)
	}
	return out
}

// names reports whether a doubt names a length, in a field, as likely.
func names(doubts []Doubt, f Field, l length.Length) bool {
	for _, d := range doubts {
		for _, g := range d.Likely {
			first, _, _ := strings.Cut(g.Text, " (")
			if p, err := ParsePrinted(first); err == nil && d.Field == f && p.Length() == l {
				return true
			}
		}
	}
	return false
}

// The misprints are of the manuals named in the table of outside checks, each
// with correct neighbours beside it.
func TestMisprints(t *testing.T) {
	for _, c := range []struct {
		name    string
		l       Limits
		also    map[Field]string
		nominal string
		want    []string
	}{
		{
			"digits swapped in one unit", row(t, Size, "bore", "new high 5.483 in"),
			map[Field]string{NewHigh: "(13.972 cm)"},
			"",
			[]string{"new high: printings disagree, 13.927 cm (swapped digits)"},
		},
		{"both units right", row(t, Size, "bore", "new high 5.483 in"), map[Field]string{NewHigh: "(13.927 cm)"}, "", nil},
		{
			"shifted in both units, beside a nominal", row(t, Size, "shell-main", "new high 0.00942 in"),
			map[Field]string{NewHigh: "0.23927 mm"},
			"0.0940 in",
			[]string{"new high: implausible, 0.0942 in (2.3927 mm) (shifted point)"},
		},
		{
			"shifted in both units, beside two limits", row(t, Size, "shell-main", "new low 0.0937 in", "new high 0.00942 in", "wear low 0.0930 in"),
			map[Field]string{NewHigh: "0.23927 mm"},
			"",
			[]string{"new high: out of order, 0.0942 in (2.3927 mm) (shifted point)"},
		},
		{"nothing shifted", row(t, Size, "shell-main", "new low 0.0937 in", "new high 0.0942 in"), map[Field]string{NewHigh: "2.3927 mm"}, "0.0940 in", nil},
		{"nothing to tell a shift in both units by", row(t, Size, "shell-main", "new high 0.00942 in"), map[Field]string{NewHigh: "0.23927 mm"}, "", nil},
		{
			"shifted point", row(t, Clearance, "bore", "new high 0.003 in"),
			map[Field]string{NewHigh: "0.76 mm"},
			"",
			[]string{"new high: printings disagree, 0.03 in (shifted point), 0.076 mm (shifted point)"},
		},
		{
			"shifted point, beside a limit", row(t, Clearance, "bore", "new low 0.0015 in", "new high 0.003 in", "wear high 0.006 in"),
			map[Field]string{NewHigh: "0.76 mm"},
			"",
			[]string{"new high: printings disagree, 0.076 mm (shifted point)"},
		},
		{"no shift", row(t, Clearance, "bore", "new high 0.003 in"), map[Field]string{NewHigh: "0.076 mm"}, "", nil},
		{"no shift, larger", row(t, Clearance, "bore", "new high 0.030 in"), map[Field]string{NewHigh: "0.76 mm"}, "", nil},
		{
			"a slope turned as a length", row(t, Taper, "bore", "wear high 0.0005 in", "per 1 in"),
			map[Field]string{WearHigh: "0.0127 per mm"},
			"",
			[]string{"wear high: printings disagree, 0.0005 mm per mm (slope turned as a length), 0.0127 mm per in (slope turned as a length)"},
		},
		{
			"a slope turned as a length, alone", row(t, Taper, "bore", "wear high 0.0127 mm", "per 1 mm"), nil, "",
			[]string{"wear high: steep, 0.0005 mm per mm (slope turned as a length), 0.00127 mm per mm (shifted point), 0.000127 mm per mm (shifted point), 0.0000127 mm per mm (shifted point)"},
		},
		{"a slope", row(t, Taper, "bore", "wear high 0.0005 in", "per 1 in"), map[Field]string{WearHigh: "0.0005 mm per mm"}, "", nil},
		{"a slope per the inch in millimetres", row(t, Taper, "bore", "wear high 0.0005 in", "per 1 in"), map[Field]string{WearHigh: "0.0127 mm per inch"}, "", nil},
		{"a slope whose length is said once", row(t, Taper, "bore", "wear high 0.0005 in", "per 1 in"), map[Field]string{WearHigh: "0.0127 mm"}, "", nil},
		{
			"low and high exchanged", row(t, Clearance, "bore", "new low 0.0083 in", "new high 0.0045 in"), nil, "",
			[]string{
				"new low: out of order, 0.0045 in (limits exchanged), 0.00083 in (shifted point), 0.0038 in (swapped digits)",
				"new high: out of order, 0.0083 in (limits exchanged), 0.045 in (shifted point), 0.0405 in (swapped digits)",
			},
		},
		{"low and high", row(t, Clearance, "bore", "new low 0.0045 in", "new high 0.0083 in"), nil, "", nil},
		{
			"a limit below the new maximum", row(t, EndPlay, "end-play", "new low 0.01 mm", "new high 0.066 mm", "wear high 0.03 mm"), nil, "",
			[]string{
				"new high: out of order, 0.03 mm (limits exchanged)",
				"wear high: out of order, 0.066 mm (limits exchanged), 0.3 mm (shifted point)",
			},
		},
		{"a limit above the new maximum", row(t, EndPlay, "end-play", "new low 0.01 mm", "new high 0.03 mm", "wear high 0.066 mm"), nil, "", nil},
	} {
		var doubts []Doubt
		if c.nominal == "" {
			doubts = c.l.Doubts(c.also)
		} else {
			doubts = Doubts([]Copied{{Limits: c.l, Also: c.also, Nominal: w(t, c.nominal)}})
		}
		if got := said(doubts); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// Limits that are printed in these manuals, and are right, are left alone.
func TestCorrectLimitsAreLeftAlone(t *testing.T) {
	for _, c := range []struct {
		source string
		l      Limits
		also   map[Field]string
	}{
		{"TM 9-6115-670-14&P p. 6-76", row(t, Size, "bore", "new low 67.000 mm", "new high 67.019 mm"), map[Field]string{NewLow: "2.63779 in", NewHigh: "2.63854 in"}},
		{"TM 9-6115-670-14&P p. 6-76", row(t, OverallSpread, "bore", "wear high 0.15 mm"), map[Field]string{WearHigh: "0.0059 in"}},
		{"TM 9-2815-256-24 p. 3-185", row(t, Size, "main-journal", "new low 1.531 in", "new high 1.535 in"), map[Field]string{NewLow: "38.90 mm", NewHigh: "39.00 mm"}},
		{"TM 9-2815-256-24 p. 3-185", row(t, Size, "main-bearing", "new low 1.528 in", "new high 1.530 in"), map[Field]string{NewLow: "38.80 mm", NewHigh: "38.85 mm"}},
		{"TM 9-2815-256-24 p. 3-185", row(t, EndPlay, "end-play", "new low 0.002 in", "new high 0.008 in"), map[Field]string{NewLow: "0.05 mm", NewHigh: "0.20 mm"}},
		{"TM 9-2815-220-24 WP 0135 p. 8", row(t, Size, "bore", "new low 5.7510 in", "new high 5.7530 in", "wear high 5.7600 in"), nil},
		{"TM 9-2815-202-34 p. 4-158", row(t, Taper, "main-journal", "wear high 0.0006 in"), nil},
		{"TM 55-1905-219-14-10", row(t, Clearance, "main-bearing", "new low 0.0016 in", "new high 0.0050 in"), nil},
		{"TM 5-3810-289-34", row(t, EndPlay, "end-play", "new low 0.004 in", "new high 0.015 in", "wear high 0.022 in"), nil},
		{"TM 10-3930-653-14&P", row(t, EndPlay, "end-play", "new low 0.05 mm", "new high 0.18 mm", "wear high 0.20 mm"), nil},
		{"TM 10-3930-647-14&P", row(t, Taper, "bore", "wear high 0.0005 in", "per 1 in"), nil},
		{"a wear limit that is the new one", row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear low 3.7500 in", "wear high 3.7510 in"), nil},
		{"a deck below and proud", row(t, DeckClearance, "deck", "new low -0.010 in", "new high 0.0005 in", "target 0 in"), nil},
		{"a choked bore", row(t, Taper, "bore", "new low -0.002 in", "new high -0.0001 in"), nil},
		{"a clearance from nothing", row(t, Clearance, "bore", "new low 0 in", "new high 0.0005 in"), nil},
		{"a printing without its limit", row(t, Clearance, "bore", "new high 0.0005 in"), map[Field]string{WearHigh: "9 mm"}},
		{"no limits", Limits{On: Size, Of: "bore"}, nil},
		{"of nobody knows what", row(t, "colour", "hat", "new low 9 mm", "new high 90 mm"), nil},
	} {
		if doubts := c.l.Doubts(c.also); len(doubts) > 0 {
			t.Errorf("%s: %q", c.source, said(doubts))
		}
	}
}

func TestDoubtsAreSaid(t *testing.T) {
	doubts := row(t, Size, "bore", "new high 5.483 in").Doubts(map[Field]string{NewHigh: "13.972 cm"})
	want := "5.483 in is 13.927 cm, but 13.972 cm is printed beside it: likely 13.927 cm (swapped digits)"
	if len(doubts) != 1 || doubts[0].String() != want || doubts[0].Written != "5.483 in" {
		t.Errorf("got %v", doubts)
	}
	for _, c := range []struct {
		d    []Doubt
		want string
	}{
		{row(t, Size, "bore", "new low 2.000 in", "new high 3.000 in").Doubts(nil), "the low new limit 2.000 in and the high new limit 3.000 in are far apart for one size"},
		{row(t, Clearance, "bore", "new high 0.003 in").Doubts(map[Field]string{NewHigh: "0.03 in"}), "0.003 in is also printed as 0.03 in: likely"},
		{row(t, Taper, "bore", "new high 0.0005 in", "per 1 in").Doubts(map[Field]string{NewHigh: "0.0127 mm per mm"}), "are not the same slope, a slope having no unit"},
		{row(t, Size, "bore", "new high 3.75 in").Doubts(map[Field]string{NewHigh: "about 95"}), "what is printed beside the high new limit is no figure"},
	} {
		if len(c.d) == 0 || !strings.Contains(c.d[0].String(), c.want) {
			t.Errorf("%v, want %q", c.d, c.want)
		}
	}
	if (Doubt{Why: "so"}).String() != "so" || Reason(99).String() != "" || Slip(99).String() != "" || NoSlip.String() != "" {
		t.Error("what is nothing is said to be something")
	}
}

// Doubts of all rows come by row and then by field, and nothing that was given
// is changed.
func TestDoubtsOfASession(t *testing.T) {
	all := []Copied{
		{Limits: row(t, Size, "bore", "new low 3.7500 in", "new high 3.7510 in", "wear low 3.7600 in")},
		{Limits: row(t, OutOfRound, "bore", "new high 0.0005 in", "wear high 0.0025 in")},
		{Limits: row(t, Taper, "bore", "new high 0.005 in"), Also: map[Field]string{NewHigh: "0.127 mm"}},
		{Limits: row(t, Size, "main-journal", "new low 2.4990 in", "new high 2.5000 in"), Also: map[Field]string{NewHigh: "63.05 mm", NewLow: "what"}, Nominal: w(t, "2.5 in")},
	}
	before := slices.Clone(all)
	for i := range before {
		before[i].Also = maps.Clone(all[i].Also)
	}
	var got []string
	for _, d := range Doubts(all) {
		got = append(got, string(rune('0'+d.Row))+" "+string(d.Field)+" "+d.Reason.String())
	}
	want := []string{"0 wear low wrong side", "1 new high tenfold", "2 new high tenfold", "3 new low not readable", "3 new high printings disagree"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	if !reflect.DeepEqual(all, before) {
		t.Error("the limits were changed")
	}
}
