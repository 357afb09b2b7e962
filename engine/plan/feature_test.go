package plan_test

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/plan"
)

// drawFeature draws a feature of any family.
func drawFeature(t *rapid.T) plan.Feature {
	row := rapid.SampledFrom(plan.Families()).Draw(t, "family")
	f := plan.Feature{Family: row.Family, At: rapid.IntRange(1, 99).Draw(t, "position")}
	if len(row.Parts) > 0 {
		f.Part = rapid.SampledFrom(row.Parts).Draw(t, "part")
	}
	return f
}

func TestFeatureTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFeature(t)
		if err := f.Validate(); err != nil {
			t.Fatalf("%+v: %v", f, err)
		}
		if got, err := plan.ParseFeature(f.String()); err != nil || got != f {
			t.Fatalf("%q reads back as %+v, %v", f, got, err)
		}
		if family, err := plan.FamilyOf(f.String()); err != nil || family != f.Family {
			t.Fatalf("%q is of %q, %v", f, family, err)
		}
		p := plan.Place{Of: f, Level: "a", Dir: "x"}
		stored, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		var again plan.Place
		if err := json.Unmarshal(stored, &again); err != nil || again != p {
			t.Fatalf("%s reads back as %+v, %v", stored, again, err)
		}
	})
}

// What is read as a feature prints back as it was, so that a text is one name.
func TestWhatParsesPrintsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := drawFeature(t).String()
		at := rapid.IntRange(0, len(text)-1).Draw(t, "at")
		with := rapid.SampledFrom([]string{"", "/", "0", "7", "x", " ", "upper", "+"}).Draw(t, "with")
		changed := text[:at] + with + text[at+1:]
		f, err := plan.ParseFeature(changed)
		switch {
		case err == nil && f.String() != changed:
			t.Fatalf("%q is read as %q", changed, f)
		case err != nil && !f.IsZero():
			t.Fatalf("%q is refused and %+v", changed, f)
		}
	})
}

func TestFeatureRefuses(t *testing.T) {
	long := strings.Repeat("x", 50)
	for text, want := range map[string]string{
		"":                   `feature "" is not written family/position, such as bore/3`,
		"bore":               `feature "bore" is not written family/position, such as bore/3`,
		"bore/1/a/b":         `feature "bore/1/a/b" is not written family/position, such as bore/3`,
		"valve/1":            `feature "valve/1": no family is called "valve"`,
		"/1":                 `feature "/1": no family is called ""`,
		"Bore/1":             `feature "Bore/1": no family is called "Bore"`,
		"bore/":              `feature "bore/": position "" is not a whole number from 1 to 99`,
		"bore/0":             `feature "bore/0": position "0" is not a whole number from 1 to 99`,
		"bore/100":           `feature "bore/100": position "100" is not a whole number from 1 to 99`,
		"bore/01":            `feature "bore/01": position "01" is not a whole number from 1 to 99`,
		"bore/+1":            `feature "bore/+1": position "+1" is not a whole number from 1 to 99`,
		"bore/1.5":           `feature "bore/1.5": position "1.5" is not a whole number from 1 to 99`,
		"bore/3/":            `feature "bore/3/": bores have no part ""`,
		"bore/3/upper":       `feature "bore/3/upper": bores have no part "upper"`,
		"shell-main/2":       `feature "shell-main/2": its part is missing: upper, lower`,
		"shell-main/2/":      `feature "shell-main/2/": its part is missing: upper, lower`,
		"shell-main/2/inner": `feature "shell-main/2/inner": main shell walls have no part "inner"`,
		long + "/1":          `feature "` + long[:40] + `…": no family is called "` + long[:40] + `…"`,
		"bore\x1b[2J/1":      `feature "bore\x1b[2J/1": no family is called "bore\x1b[2J"`,
	} {
		f, err := plan.ParseFeature(text)
		refused[*plan.NameError](t, text, err, want)
		if !f.IsZero() {
			t.Errorf("%q is refused and %+v", text, f)
		}
		var g plan.Feature
		refused[*plan.NameError](t, text, g.UnmarshalText([]byte(text)), want)
		if !g.IsZero() {
			t.Errorf("%q is refused and leaves %+v", text, g)
		}
	}
}

func TestFeatureValidate(t *testing.T) {
	for _, c := range []struct {
		f    plan.Feature
		want string
	}{
		{plan.Feature{}, `feature "/0": no family is called ""`},
		{plan.Feature{Family: plan.Bore, At: -1}, `feature "bore/-1": position "-1" is not a whole number from 1 to 99`},
		{plan.Feature{Family: "bore/1", At: 2}, `feature "bore/1/2": bores have no part "2"`},
		{plan.Feature{Family: plan.ShellMain, At: 1, Part: "a/b"}, `feature "shell-main/1/a/b" is not written family/position, such as bore/3`},
	} {
		refused[*plan.NameError](t, c.f.String(), c.f.Validate(), c.want)
	}
}

func TestFamilyOf(t *testing.T) {
	for text, want := range map[string]plan.Family{
		"bore": plan.Bore, "bore/3": plan.Bore, "shell-main": plan.ShellMain, "shell-main/2/upper": plan.ShellMain, "rod": plan.Rod,
	} {
		if got, err := plan.FamilyOf(text); err != nil || got != want {
			t.Errorf("%q is of %q, %v; want %q", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":       `no family is called ""`,
		"bores":  `no family is called "bores"`,
		"bore/0": `feature "bore/0": position "0" is not a whole number from 1 to 99`,
	} {
		got, err := plan.FamilyOf(text)
		refused[*plan.NameError](t, text, err, want)
		if got != "" {
			t.Errorf("%q is refused and %q", text, got)
		}
	}
}

func TestPlaceIsZero(t *testing.T) {
	if !(plan.Place{}).IsZero() || (plan.Place{Level: "a"}).IsZero() || (plan.Place{Dir: "45"}).IsZero() {
		t.Error("only a place of nothing is none")
	}
}
