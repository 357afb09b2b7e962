package limit_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
	"borewright/engine/plan"
)

func TestParseClass(t *testing.T) {
	for _, c := range []struct {
		text, want string
		shape      plan.Shape
	}{
		{"60 H6", "60 mm H6", plan.Hole},
		{"57 h5", "57 mm h5", plan.Shaft},
		{"82H7", "82 mm H7", plan.Hole},
		{" Ø50 g6 ", "50 mm g6", plan.Shaft},
		{"ø 50.5 mm g6", "50.5 mm g6", plan.Shaft},
		{"57,25 js5", "57.25 mm js5", plan.Shaft},
		{"57150 µm h5", "57150 µm h5", plan.Shaft},
		{"JS13", "JS13", plan.Hole},
		{"k4", "k4", plan.Shaft},
		{"H1", "H1", plan.Hole},
	} {
		got, err := ParseClass(c.text)
		if err != nil || got.String() != c.want || got.Shape() != c.shape {
			t.Errorf("%q: %q of shape %d, %v; want %q", c.text, got, got.Shape(), err, c.want)
		}
	}
	if (Class{}).Shape() != plan.NoShape {
		t.Error("no class has a shape")
	}
}

func TestClassesRefused(t *testing.T) {
	for text, reason := range map[string]string{
		"":                         "a letter and a grade",
		"60":                       "a letter and a grade",
		"60 H":                     "a letter and a grade",
		"6":                        "a letter and a grade",
		"60 H6/h5":                 "a fit of two classes",
		"60 K6":                    "the letter K is not covered",
		"60 Js6":                   "the letter Js is not covered",
		"60 s6":                    "the letter s is not covered",
		"60 H0":                    "the grade 0 is not covered",
		"60 H14":                   "the grade 14 is not covered",
		"60 H99999999999999999999": "is not covered",
		"60 k8":                    "k is covered in the grades 4 to 7",
		"60 k3":                    "k is covered in the grades 4 to 7",
		"2.2500 in h5":             "write 2.2500 in as 57.15000 mm",
		"six H6":                   "not read",
		"-60 H6":                   "above 0 up to and including 500 mm",
		"0 H6":                     "above 0 up to and including 500 mm",
		"500.001 H6":               "above 0 up to and including 500 mm",
		"60 H6 ±":                  "a letter and a grade",
	} {
		_, err := ParseClass(text)
		var refused *ClassError
		if !errors.As(err, &refused) || refused.Text != text || !strings.Contains(err.Error(), reason) {
			t.Errorf("%q: %v, want a refusal with %q", text, err, reason)
		}
	}
}

// Expected values are ISO 286-2's, over 50 up to and including 80 mm, but where
// another row is named; limits are in mm.
func TestClassRange(t *testing.T) {
	for _, c := range []struct{ class, nominal, low, high string }{
		{"60 H6", "", "60.000 mm", "60.019 mm"},
		{"82 H7", "", "82.000 mm", "82.035 mm"},
		{"50 H7", "", "50.000 mm", "50.025 mm"}, // up to and including 50
		{"80 H7", "", "80.000 mm", "80.030 mm"}, // up to and including 80
		{"80.001 H7", "", "80.001 mm", "80.036 mm"},
		{"57 h5", "", "56.987 mm", "57.000 mm"},
		{"50 g6", "", "49.975 mm", "49.991 mm"},
		{"60 f7", "", "59.940 mm", "59.970 mm"},
		{"60 js6", "", "59.9905 mm", "60.0095 mm"},
		{"60 JS6", "", "59.9905 mm", "60.0095 mm"},
		{"60 js7", "", "59.985 mm", "60.015 mm"},
		{"60 k6", "", "60.002 mm", "60.021 mm"}, // JIS B 0401 (1999)
		{"60 m6", "", "60.011 mm", "60.030 mm"},
		{"60 n6", "", "60.020 mm", "60.039 mm"},
		{"60 p6", "", "60.032 mm", "60.051 mm"},
		{"100 E8", "", "100.072 mm", "100.126 mm"}, // ISO 286-2:1988/Cor.1:2006
		{"300 f9", "", "299.814 mm", "299.944 mm"}, // the same
		{"5 js3", "", "4.99875 mm", "5.00125 mm"},  // a half of 2.5 µm
		{"H6", "60 mm", "60.000 mm", "60.019 mm"},
		{"H6", "60.00005 mm", "60.00005 mm", "60.01905 mm"},
		{"H6", "60000 µm", "60.000 mm", "60.019 mm"},
		{"60 H6", "2 in", "60.000 mm", "60.019 mm"}, // its own goes first
	} {
		class, err := ParseClass(c.class)
		if err != nil {
			t.Fatal(err)
		}
		got, err := class.Range(w(t, c.nominal))
		if err != nil || got.Low.String() != c.low || got.High.String() != c.high {
			t.Errorf("%s of %q: %s to %s, %v; want %s to %s", c.class, c.nominal, got.Low, got.High, err, c.low, c.high)
		}
	}
}

func TestClassWithoutLimits(t *testing.T) {
	for _, c := range []struct {
		class   Class
		nominal string
		reason  string
	}{
		{Class{Letter: "H", Grade: 6}, "", "it needs a nominal size"},
		{Class{Letter: "H", Grade: 6}, "2.25 in", "write 2.25 in as 57.150 mm"},
		{Class{Letter: "H", Grade: 6}, "2250000 µin", "in inches"},
		{Class{Letter: "H", Grade: 6}, "501 mm", "not covered"},
		{Class{Letter: "H", Grade: 14}, "60 mm", "not covered"},
		{Class{Letter: "Z", Grade: 6}, "60 mm", "not covered"},
		{Class{}, "60 mm", "not covered"},
	} {
		got, err := c.class.Range(w(t, c.nominal))
		var refused *ClassError
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.reason) || !got.IsZero() {
			t.Errorf("%s of %s: %v, %v; want a refusal with %q", c.class, c.nominal, got, err, c.reason)
		}
	}
}

// class draws a class of the letters, and a nominal size of whole micrometres.
func class(letters ...string) *rapid.Generator[Class] {
	return rapid.Custom(func(t *rapid.T) Class {
		c := Class{Letter: rapid.SampledFrom(letters).Draw(t, "letter"), Grade: rapid.IntRange(1, 13).Draw(t, "grade")}
		if c.Letter == "k" {
			c.Grade = rapid.IntRange(4, 7).Draw(t, "grade of k")
		}
		n := length.Length(rapid.Int64Range(1, 500_000).Draw(t, "micrometres"))
		c.Nominal = length.Written{Length: n * length.Micrometre, Unit: length.MM, Places: 3}
		return c
	})
}

func TestAClassReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := class(Covered()...).Draw(t, "class")
		if got, err := ParseClass(c.String()); err != nil || got != c {
			t.Fatalf("%s reads back as %s: %v", c, got, err)
		}
	})
}

func TestAClassIsAsWideAsItsGrade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := class(Covered()...).Draw(t, "class")
		r, err := c.Range(length.Written{})
		width, ok := StandardTolerance(c.Nominal.Length, c.Grade)
		if err != nil || !ok || r.High.Length-r.Low.Length != width {
			t.Fatalf("%s is %s to %s, its grade is %d pm wide: %v", c, r.Low, r.High, width, err)
		}
		for _, end := range []length.Written{r.Low, r.High} {
			if back := w(t, end.String()); back != end {
				t.Fatalf("%s writes %s, which is %s", c, end, back)
			}
		}
	})
}

// A hole and the shaft of its letter lie the same way off, on either side.
func TestHolesAndShaftsMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := class("D", "E", "F", "G", "H", "JS").Draw(t, "hole")
		hole, err := c.Range(length.Written{})
		shaft := c
		shaft.Letter = strings.ToLower(c.Letter)
		other, err2 := shaft.Range(length.Written{})
		n := c.Nominal.Length
		if err != nil || err2 != nil || hole.Low.Length-n != n-other.High.Length || hole.High.Length-n != n-other.Low.Length {
			t.Fatalf("%s %v, %s %v", c, hole, shaft, other)
		}
	})
}

func TestNominalsOfOneRangeShareDeviations(t *testing.T) {
	for _, over := range []int64{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400} {
		end := length.Length(over) * length.Millimetre
		at, _ := StandardTolerance(end, 7)
		inside, _ := StandardTolerance(end-1, 7)
		above, _ := StandardTolerance(end+1, 7)
		if at != inside || above <= at {
			t.Errorf("IT7 is %d at %d mm, %d below and %d above", at, over, inside, above)
		}
	}
}
