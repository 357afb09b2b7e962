package doubt_test

import (
	"math"
	"sync"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	. "borewright/engine/doubt"
)

// NIST TN 1297 Table B.1.
func TestFactorIsStudents(t *testing.T) {
	for df, want := range map[float64]float64{
		1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 8: 2.31, 10: 2.23, 16: 2.12, 16.99: 2.12, 20: 2.09, 30: 2.04,
		0: 1.96, math.Inf(1): 1.96,
	} {
		if got := (Coverage{}).Factor(df); math.Round(got*100)/100 != want {
			t.Errorf("%v degrees of freedom: %v, want %v", df, got, want)
		}
	}
	if got := AtLevel(0.99).Factor(16.7); math.Round(got*100)/100 != 2.92 {
		t.Errorf("99 %%: %v, want 2.92", got)
	}
	for _, level := range []float64{0, 1, -1, 2, math.NaN()} {
		if got := AtLevel(level); got != (Coverage{}) {
			t.Errorf("level %v: %v", level, got)
		}
	}
}

func TestParseCoverage(t *testing.T) {
	for text, want := range map[string]string{"": "95 %", "2": "k = 2", "1": "k = 1", "2.58": "k = 2.58", "10": "k = 10", "2,5": "k = 2.5"} {
		c, err := ParseCoverage(text)
		if err != nil || c.String() != want {
			t.Errorf("%q: %s, %v, want %s", text, c, err, want)
		}
	}
	if c, _ := ParseCoverage("2"); c.Factor(1) != 2 || c.Factor(math.Inf(1)) != 2 {
		t.Errorf("k = 2 is %v with one degree of freedom", c.Factor(1))
	}
	for _, text := range []string{"0.99", "10.1", "-2", "two", "NaN", "1e1"} {
		if c, err := ParseCoverage(text); err == nil {
			t.Errorf("%q: %s", text, c)
		}
	}
	if got := AtLevel(0.99).String(); got != "99 %" {
		t.Errorf("%q", got)
	}
}

// TestFactorAgain: a factor that was worked out before is the same one, also where
// several ask for it at once.
func TestFactorAgain(t *testing.T) {
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for df := 1; df <= 250; df++ {
				want := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile(0.975)
				for range 2 {
					if got := (Coverage{}).Factor(float64(df) + 0.5); got != want {
						t.Errorf("%d degrees of freedom: %v, want %v", df, got, want)
					}
				}
			}
		})
	}
	all.Wait()
}
