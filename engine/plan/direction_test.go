package plan_test

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/plan"
)

func TestParseDirection(t *testing.T) {
	for _, c := range []struct {
		family     plan.Family
		text, want string
		angle      int
	}{
		{plan.Bore, "across", "across", 90},
		{plan.Bore, "along", "along", 0},
		{plan.Bore, " Across ", "across", 90},
		{plan.Bore, "90", "across", 90},
		{plan.Bore, "270", "across", 90},
		{plan.Bore, "0", "along", 0},
		{plan.Bore, "180", "along", 0},
		{plan.Bore, "360", "along", 0},
		{plan.Bore, "45", "45", 45},
		{plan.Bore, "45°", "45", 45},
		{plan.Bore, "225", "45", 45},
		{plan.Bore, "179", "179", 179},
		{plan.Bore, "359", "179", 179},
		{plan.Bore, "007", "7", 7},
		{plan.Piston, "90", "across", 90},
		{plan.MainBearing, "90", "vertical", 90},
		{plan.MainBearing, "180", "horizontal", 0},
		{plan.MainJournal, "VERTICAL", "vertical", 90},
		{plan.RodJournal, "30", "30", 30},
		{plan.EndPlay, "once", "once", 0},
		{plan.Deck, "0", "once", 0},
	} {
		got, err := plan.ParseDirection(c.family, c.text)
		if err != nil || got != c.want {
			t.Errorf("%q of %s is %q, %v; want %q", c.text, c.family, got, err, c.want)
		}
		if angle, ok := plan.Angle(c.family, got); !ok || angle != c.angle {
			t.Errorf("%q of %s is at %d°, %v; want %d°", got, c.family, angle, ok, c.angle)
		}
		if err := plan.CheckDirection(c.family, c.want); err != nil {
			t.Errorf("the canonical text: %v", err)
		}
	}
}

func TestDirectionRefuses(t *testing.T) {
	for _, c := range []struct {
		family     plan.Family
		text, want string
	}{
		{plan.Bore, "", `direction "" of bores is neither across, along nor an angle from 0 to 360`},
		{plan.Bore, "vertical", `direction "vertical" of bores is neither across, along nor an angle from 0 to 360`},
		{plan.Bore, "361", `direction "361" of bores is neither across, along nor an angle from 0 to 360`},
		{plan.Bore, "-45", `direction "-45" of bores is neither across, along nor an angle from 0 to 360`},
		{plan.Bore, "22.5", `direction "22.5" of bores is neither across, along nor an angle from 0 to 360`},
		{plan.MainBearing, "across", `direction "across" of main bearings is neither vertical, horizontal nor an angle from 0 to 360`},
		{plan.EndPlay, "45", `end play has no direction "45": it is written "once"`},
		{"valve", "45", `no family is called "valve"`},
	} {
		got, err := plan.ParseDirection(c.family, c.text)
		refused[*plan.NameError](t, c.text, err, c.want)
		refused[*plan.NameError](t, c.text, plan.CheckDirection(c.family, c.text), c.want)
		if got != "" {
			t.Errorf("%q of %s is refused and %q", c.text, c.family, got)
		}
	}
}

func TestDirectionIsWrittenSo(t *testing.T) {
	for text, want := range map[string]string{
		"90":     `direction "90" of bores is written "across"`,
		"Across": `direction "Across" of bores is written "across"`,
		"225":    `direction "225" of bores is written "45"`,
		"45°":    `direction "45°" of bores is written "45"`,
		" 45":    `direction " 45" of bores is written "45"`,
	} {
		refused[*plan.NameError](t, text, plan.CheckDirection(plan.Bore, text), want)
	}
}

func TestAngleOfNoDirection(t *testing.T) {
	for _, text := range []string{"", "up", "180", "-1", "vertical"} {
		if deg, ok := plan.Angle(plan.Bore, text); ok {
			t.Errorf("%q is at %d°", text, deg)
		}
	}
}

// An angle and that angle turned by 180° are one direction, whose text reads
// back as itself and whose angle is the one meant.
func TestDirectionsAreModulo180(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.SampledFrom(plan.Families()).Filter(func(t plan.Traits) bool { return t.Figure == "" }).Draw(t, "family")
		deg := rapid.IntRange(0, 180).Draw(t, "angle")
		near, err := plan.ParseDirection(row.Family, strconv.Itoa(deg))
		far, err2 := plan.ParseDirection(row.Family, strconv.Itoa(deg+180))
		if err != nil || err2 != nil || near != far {
			t.Fatalf("%d° is %q (%v), %d° is %q (%v)", deg, near, err, deg+180, far, err2)
		}
		if err := plan.CheckDirection(row.Family, near); err != nil {
			t.Fatal(err)
		}
		if angle, ok := plan.Angle(row.Family, near); !ok || angle != deg%180 {
			t.Fatalf("%d° is at %d°, %v", deg, angle, ok)
		}
	})
}
