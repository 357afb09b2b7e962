package doubt_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// GUM, JCGM 100:2008, H.1: the contributions to the length of an end gauge, in
// nanometres, as printed. Unrounded they come to 31.66, 16.75 and 92.5.
func TestBudgetOfAnEndGauge(t *testing.T) {
	b := combined(
		t, whole("standard", 25, 18), whole("comparator", 5.8, 24), whole("random effects", 3.9, 5),
		whole("systematic effects", 6.7, 8), whole("expansion", 2.9, 50), whole("temperature", 16.6, 2),
	)
	if math.Round(b.U) != 32 || math.Floor(b.DF) != 16 {
		t.Errorf("u %v with %v degrees of freedom, want 32 with 16", b.U, b.DF)
	}
	if u := b.Expanded(AtLevel(0.99)); u < 92.4 || u > 93.5 {
		t.Errorf("U99 %v, want 92.4 to 93.5", u)
	}
	if got, want := b.Lines[0].Name+", "+b.Lines[1].Name, "standard, temperature"; got != want {
		t.Errorf("the largest are %s, want %s", got, want)
	}
}

// u = 3 with 4 and u = 4 with 9 degrees of freedom: 5 with 12.835, cut to 12.
func TestWelchSatterthwaite(t *testing.T) {
	b := combined(t, whole("a", 3, 4), whole("b", 4, 9))
	if b.U != 5 || math.Round(b.DF*1000) != 12835 {
		t.Errorf("u %v with %v, want 5 with 12.835", b.U, b.DF)
	}
	if b = combined(t, whole("a", 3, 0), whole("b", 4, 0)); b.U != 5 || !math.IsInf(b.DF, 1) {
		t.Errorf("u %v with %v, want 5 with infinitely many", b.U, b.DF)
	}
	if b = combined(t); b.U != 0 || !math.IsInf(b.DF, 1) || len(b.Lines) != 0 || b.Guard(Coverage{}) != 0 {
		t.Errorf("of nothing: %+v", b)
	}
}

func TestKindsOfContributions(t *testing.T) {
	for name, c := range map[string]struct {
		Contribution
		want float64
	}{
		"as it stands":  {Contribution{Value: 1.15}, 1.15},
		"rectangular":   {Contribution{Kind: Rectangular, Value: 2}, 2 / math.Sqrt(3)},
		"a certificate": {Contribution{Kind: Normal, Value: 4}, 2},
		"by t":          {Contribution{Kind: Student, Value: 12.706, DF: 1}, 1},
	} {
		if got := c.Standard(); !near(got, c.want, 1e-4) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	names := map[string]bool{}
	for _, k := range []Kind{Deviation, Rectangular, Normal, Student} {
		names[k.String()] = true
	}
	if len(names) != 4 || names[""] {
		t.Errorf("the kinds are called %v", names)
	}
}

func TestBadContributions(t *testing.T) {
	for name, c := range map[string]Contribution{
		"below zero":        {Value: -1},
		"not a number":      {Value: math.NaN()},
		"infinite":          {Value: math.Inf(1)},
		"sensitivity":       {Value: 1, Sensitivity: math.NaN()},
		"great sensitivity": {Value: 1, Sensitivity: math.Inf(-1)},
		"half a freedom":    {Value: 1, DF: 0.5},
		"no freedom":        {Value: 1, DF: math.NaN()},
		"t without freedom": {Value: 1, Kind: Student},
		"t, infinite":       {Value: 1, Kind: Student, DF: math.Inf(1)},
	} {
		c.Name = "the master"
		var bad *BadContribution
		_, err := Combine([]Contribution{whole("a", 1, 0), c})
		if !errors.As(err, &bad) || !strings.HasPrefix(err.Error(), `contribution "the master": `) || bad.Reason == "" {
			t.Errorf("%s: %v", name, err)
		}
		f := Of(Reading{Key: "x", Common: []Contribution{c}})
		if _, err := f.Budget(); !errors.As(err, &bad) {
			t.Errorf("%s, in a figure: %v", name, err)
		}
		if _, err := f.Settle(1, Coverage{}); !errors.As(err, &bad) {
			t.Errorf("%s, to settle: %v", name, err)
		}
	}
}

// What is of one source adds with its sign, what is of several by squares.
func TestSources(t *testing.T) {
	of := func(source string, c float64) Contribution {
		return Contribution{Name: "the master", Source: source, Value: 3, Sensitivity: c}
	}
	for name, c := range map[string]struct {
		cs        []Contribution
		want      float64
		cancelled []string
	}{
		"one source, both ways":    {[]Contribution{of("r1", 1), of("r1", -1)}, 0, []string{"the master"}},
		"one source, twice":        {[]Contribution{of("r1", 1), of("r1", 1)}, 6, nil},
		"two sources, both ways":   {[]Contribution{of("r1", 1), of("r2", -1)}, 3 * math.Sqrt2, nil},
		"sources of their own":     {[]Contribution{of("", 1), of("", -1)}, 3 * math.Sqrt2, nil},
		"both ways, two of a name": {[]Contribution{of("r1", 1), of("r2", 1), of("r1", -1), of("r2", -1)}, 0, []string{"the master"}},
		"a value of nothing":       {[]Contribution{{Name: "x", Source: "x", Sensitivity: 1}}, 0, nil},
		"a sensitivity of nothing": {[]Contribution{of("r1", 0)}, 0, nil},
	} {
		b := combined(t, c.cs...)
		if !near(b.U, c.want, 1e-15) || !slices.Equal(b.Cancelled, c.cancelled) {
			t.Errorf("%s: %v, cancelled %q, want %v and %q", name, b.U, b.Cancelled, c.want, c.cancelled)
		}
	}
}

// An estimate counts its degrees of freedom once: the difference of two readings
// is no better known than the repeatability both rest on.
func TestOneEstimateCountsOnce(t *testing.T) {
	of := func(name string) Contribution { return whole(name, 3, 9) }
	if b := combined(t, of("repeatability"), of("repeatability")); !near(b.DF, 9, 1e-12) || len(b.Lines) != 1 {
		t.Errorf("of one estimate: %v degrees of freedom in %d lines", b.DF, len(b.Lines))
	}
	if b := combined(t, of("one gauge"), of("another")); !near(b.DF, 18, 1e-12) || len(b.Lines) != 2 {
		t.Errorf("of two estimates: %v degrees of freedom in %d lines", b.DF, len(b.Lines))
	}
}

func drawn(t *rapid.T) []Contribution {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Contribution {
		return Contribution{
			Name:        rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "name"),
			Source:      rapid.SampledFrom([]string{"", "r", "s", "t"}).Draw(t, "source"),
			Kind:        Kind(rapid.IntRange(0, 2).Draw(t, "kind")),
			Value:       rapid.Float64Range(0, 1e30).Draw(t, "value"),
			Sensitivity: rapid.Float64Range(-1e30, 1e30).Draw(t, "sensitivity"),
			DF:          rapid.SampledFrom([]float64{0, 1, 2.5, 30}).Draw(t, "df"),
		}
	}), 0, 12).Draw(t, "contributions")
}

// Whatever it is made of, a budget has no doubt below zero, shares that make a
// whole, the fewest degrees of freedom at least, and says something.
func TestBudgetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cs := drawn(t)
		b, err := Combine(cs)
		if err != nil {
			t.Fatal(err)
		}
		shares, squares, least := 0.0, 0.0, math.Inf(1)
		for i, l := range b.Lines {
			shares += l.Share
			squares += l.U / b.U * (l.U / b.U)
			least = min(least, l.DF)
			if i > 0 && l.U > b.Lines[i-1].U {
				t.Errorf("line %d is larger than the one above", i)
			}
		}
		tiny := b.U > 0 && b.U < 1e-300 // where a float has ever fewer digits
		if len(b.Lines) > 0 && !tiny && (!near(shares, 1, 1e-12) || !near(squares, 1, 1e-9)) {
			t.Errorf("shares come to %v, squares to %v", shares, squares)
		}
		if math.IsNaN(b.U) || b.U < 0 || !(b.DF >= least*(1-1e-9)) {
			t.Errorf("u %v with %v degrees of freedom, the fewest %v", b.U, b.DF, least)
		}
		if b.Sentence() == "" || b.Guard(Coverage{}) < 0 {
			t.Errorf("%q, guarded by %d", b.Sentence(), b.Guard(Coverage{}))
		}
	})
}

// The contributions to both sides of a difference cancel, however they are made
// up, and turning every sign changes nothing.
func TestACommonSourceCancels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cs := drawn(t)
		for i := range cs {
			cs[i].Source = "common " + cs[i].Name
		}
		both, turned := slices.Clone(cs), slices.Clone(cs)
		for i, c := range slices.Backward(cs) {
			c.Sensitivity = -c.Sensitivity
			both, turned[i] = append(both, c), c
		}
		b, err := Combine(both)
		if err != nil {
			t.Fatal(err)
		}
		one, _ := Combine(cs)
		if b.U > 1e-14*sumOf(both) {
			t.Errorf("%v is left of %v", b.U, sumOf(both))
		}
		if other, _ := Combine(turned); !near(other.U, one.U, 1e-15) {
			t.Errorf("turned it is %v, not %v", other.U, one.U)
		}
	})
}

// sumOf adds up all that could be wrong.
func sumOf(cs []Contribution) float64 {
	sum := 0.0
	for _, c := range cs {
		sum += math.Abs(c.Sensitivity) * c.Standard()
	}
	return sum
}

func TestGuardRoundsUp(t *testing.T) {
	k2, _ := ParseCoverage("2")
	for u, want := range map[float64]length.Length{1: 2, 1.25: 3, 0.001: 1, 0: 0, 1e300: 1 << 62} {
		if got := combined(t, whole("a", u, 0)).Guard(k2); got != want {
			t.Errorf("u %v: guarded by %d, want %d", u, got, want)
		}
	}
}

func TestBudgetSays(t *testing.T) {
	for want, cs := range map[string][]Contribution{
		"nothing is known that would make it doubtful":                 nil,
		"all of it is the gauge's step":                                {whole("the gauge's step", 1, 0)},
		"most of it is the gauge's step":                               {whole("the master", 1, 0), whole("the gauge's step", 1.1, 0)},
		"most of it is a and b":                                        {whole("a", 1, 0), whole("b", 0.99, 0), whole("c", 0.8, 0)},
		"no one thing is most of it; a is the largest, 28 %":           {whole("a", 1.05, 0), whole("b", 1, 0), whole("c", 0.99, 0), whole("d", 0.9, 0)},
		"all of it is x; the micrometer cancels":                       {whole("x", 1, 0), {Name: "the micrometer", Source: "m", Value: 1, Sensitivity: 1}, {Name: "the micrometer", Source: "m", Value: 1, Sensitivity: -1}},
		"nothing is known that would make it doubtful; m and n cancel": {{Name: "m", Source: "m", Value: 1, Sensitivity: 1}, {Name: "m", Source: "m", Value: 1, Sensitivity: -1}, {Name: "n", Source: "n", Value: 1, Sensitivity: 1}, {Name: "n", Source: "n", Value: 1, Sensitivity: -1}},
	} {
		if got := combined(t, cs...).Sentence(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestBudgetText(t *testing.T) {
	k2, _ := ParseCoverage("2")
	for _, c := range []struct {
		b    Budget
		c    Coverage
		u    length.Unit
		want string
	}{
		{combined(t, whole("a", tenth/2, 0)), k2, length.In, "±0.00010 in (diametral, k = 2)"},
		{combined(t, whole("a", tenth, 16)), Coverage{}, length.In, "±0.00021 in (diametral, 95 %, k = 2.12 with 16 degrees of freedom)"},
		{combined(t, whole("a", 1e6, 0)), Coverage{}, length.MM, "±0.0020 mm (diametral, 95 %, k = 1.96)"},
		{combined(t, whole("a", 1e3, 0)), k2, length.MM, "±0.000002 mm (diametral, k = 2)"},
		{combined(t), k2, length.MM, "±0.0000 mm (diametral, k = 2)"},
	} {
		if got := c.b.Text(c.c, c.u); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
