package tui

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Every limit has one row, in the order of families, characteristics and
// positions; what a planned family has no limit on stands in its last row.
func TestEveryLimitHasOneRow(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>")
	d := b.st.desks[0]
	rapid.Check(t, func(rt *rapid.T) {
		of := rapid.SampledFrom([]string{"bore/1", "bore/3", "piston/2", "main-bearing", "ring-gap/2/top", "ring-gap/1/oil", "end-play", "cam-bearing/4"}).Draw(rt, "of")
		family, _ := plan.FamilyOf(of)
		on := limit.Taper
		if traits, _ := family.Traits(); traits.Figure != "" {
			on = limit.Characteristic(traits.Figure)
		}
		l := limit.Limits{On: on, Of: of, New: limit.Range{High: length.Written{Length: length.Length(rapid.Int64Range(1, 99).Draw(rt, "µm")) * length.Micrometre, Unit: length.MM, Places: 3}}}
		if err := d.Record(record.Limit{Limits: l}); err != nil {
			rt.Fatal(err)
		}
		rows := limitRows(d.Session)
		var given []limit.Limits
		for i, r := range rows {
			if r.given() {
				given = append(given, r.limits)
			}
			if i > 0 && rows[i-1].family == r.family && !rows[i-1].given() {
				rt.Fatalf("%s have a row behind what is not limited", r.family)
			}
			if i > 0 && r.given() && rows[i-1].limits.On == r.limits.On && rows[i-1].family == r.family && rows[i-1].of().At > r.of().At {
				rt.Fatalf("%s stands before %s", rows[i-1].limits.Of, r.limits.Of)
			}
		}
		for _, l := range d.Session.Limits() {
			if n := len(slices.DeleteFunc(slices.Clone(given), func(x limit.Limits) bool { return x != l })); n != 1 {
				rt.Fatalf("%s of %s has %d rows", l.On, l.Of, n)
			}
		}
	})
	b.press("b")
	for range top[*limitsScreen](b.station).all() {
		b.press("<down>")
	}
}

func TestFeaturesHaveTheirParts(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>")
	s := b.st.desks[0].Session
	for family, want := range map[plan.Family]int{plan.Bore: 3, plan.RingGap: 9, plan.EndPlay: 1, "none": 0} {
		if got := featuresOf(s, family); len(got) != want {
			t.Errorf("of %s there are %v", family, got)
		}
	}
	if got := featuresOf(s, plan.RingGap)[4].String(); got != "ring-gap/2/second" {
		t.Errorf("the fifth ring gap is %s", got)
	}
}

func TestLimitsWithoutAPlan(t *testing.T) {
	b := newSetupBench(t)
	d, err := b.st.begin([]record.Body{
		record.Details{UID: "bare", Title: "Bare", Unit: length.MM}, record.Layout{Layout: plan.Default(plan.Inline, 1, false)},
	})
	if err != nil {
		t.Fatal(err)
	}
	b.st.Push(newLimits(b.st, d, plan.Feature{}))
	b.run(b.r.settle())
	b.see("nothing is planned: s opens the setup")
	b.press("<enter>")
	b.see("change: nothing is planned, so nothing can be limited")
	b.press("<down>", "t", "f")
	top[*limitsScreen](b.station)
}
