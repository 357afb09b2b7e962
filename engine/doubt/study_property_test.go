package doubt_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// drawnStudy draws a study, with some values missing.
func drawnStudy(t *rapid.T, missing bool) []Observation {
	operators, parts, trials := rapid.IntRange(1, 4).Draw(t, "operators"), rapid.IntRange(1, 5).Draw(t, "parts"), rapid.IntRange(1, 4).Draw(t, "trials")
	var out []Observation
	for o := range operators {
		for p := range parts {
			for k := range trials {
				if missing && rapid.IntRange(0, 9).Draw(t, "missing") == 0 {
					continue
				}
				v := length.Length(rapid.Int64Range(-50_000, 50_000).Draw(t, "value"))
				out = append(out, Observation{fmt.Sprint("o", o), fmt.Sprint("p", p), k + 1, v})
			}
		}
	}
	return out
}

// No component is below zero or no number, and the sums of squares are of all
// the values.
func TestStudyProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := drawnStudy(t, true)
		s, err := NewStudy(values)
		if len(values) == 0 {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range []Result{s.ByRange(), s.ByVariance(Tested), s.ByVariance(Kept), s.ByVariance(Pooled)} {
			for _, c := range []Component{r.Repeatability, r.ByOperator, r.Interaction, r.Reproducibility, r.Gauge, r.ByPart, r.Total} {
				if !(c.Sigma >= 0) || math.IsInf(c.Sigma, 0) || c.Sigma > 0 && !c.Known || c.Clamped && c.Sigma > 0 {
					t.Errorf("%+v", c)
				}
			}
			if !r.Repeatability.Known && len(r.Notes) == 0 {
				t.Error("nothing is said of what is not there")
			}
			if n, ok := r.Distinct(); ok && n < 0 {
				t.Errorf("%d sizes told apart", n)
			}
		}
	})
}

// The sums of squares of a whole study add up to that of all its values about
// their mean, and their degrees of freedom to one less than the values.
func TestSquaresAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := drawnStudy(t, false)
		sum, mean := 0.0, 0.0
		for _, v := range values {
			mean += float64(v.Value) / float64(len(values))
		}
		for _, v := range values {
			sum += (float64(v.Value) - mean) * (float64(v.Value) - mean)
		}
		total := studied(t, values).ByVariance(Kept).Rows[4]
		if math.Abs(total.SS-sum) > 1e-9*sum+1e-3 || total.DF != len(values)-1 {
			t.Errorf("%v with %d degrees of freedom, want %v with %d", total.SS, total.DF, sum, len(values)-1)
		}
	})
}

// Neither the order of the rows nor a constant added to every value changes a
// study.
func TestStudyOfMovedValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := drawnStudy(t, true)
		if len(values) == 0 {
			return
		}
		by := length.Length(rapid.Int64Range(-1e13, 1e13).Draw(t, "by"))
		moved := rapid.Permutation(values).Draw(t, "order")
		for i := range moved {
			moved[i].Value += by
		}
		a, b := studied(t, values), studied(t, moved)
		same := func(x, y Component) bool {
			return x.Known == y.Known && math.Abs(x.Sigma-y.Sigma) <= 1e-6*max(x.Sigma, y.Sigma)+1e-4
		}
		if p, q := a.ByRange(), b.ByRange(); !same(p.Gauge, q.Gauge) || !same(p.ByPart, q.ByPart) {
			t.Errorf("by range %+v, moved %+v", p, q)
		}
		if p, q := a.ByVariance(Kept), b.ByVariance(Kept); !same(p.Gauge, q.Gauge) || !same(p.ByPart, q.ByPart) {
			t.Errorf("by variance %+v, moved %+v", p, q)
		}
	})
}

// By range a study is the hand's own formula: the mean range over d2, and the
// ranges of the averages times their factors.
func TestRangeIsTheHandFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) length.Length { return length.Length(rapid.Int64Range(0, 1000).Draw(t, name)) }
		a1, a2, b1, b2 := [2]length.Length{v("a1"), v("a1")}, [2]length.Length{v("a2"), v("a2")}, [2]length.Length{v("b1"), v("b1")}, [2]length.Length{v("b2"), v("b2")}
		var values []Observation
		for i, pair := range [][2]length.Length{a1, a2, b1, b2} {
			for k, x := range pair {
				values = append(values, Observation{[]string{"A", "B"}[i/2], []string{"1", "2"}[i%2], k + 1, x})
			}
		}
		between := func(p [2]length.Length) float64 { return math.Abs(float64(p[0] - p[1])) }
		sum := func(p [2]length.Length) float64 { return float64(p[0] + p[1]) }
		ev := (between(a1) + between(a2) + between(b1) + between(b2)) / 4 * math.Sqrt(math.Pi) / 2
		operators := math.Abs(sum(a1)+sum(a2)-sum(b1)-sum(b2)) / 4
		parts := math.Abs(sum(a1)+sum(b1)-sum(a2)-sum(b2)) / 4
		av := math.Sqrt(max(0, operators*operators/2-ev*ev/4))
		r := studied(t, values).ByRange()
		for name, x := range map[string][2]float64{
			"EV": {r.Repeatability.Sigma, ev}, "AV": {r.ByOperator.Sigma, av}, "PV": {r.ByPart.Sigma, parts / math.Sqrt2},
		} {
			if math.Abs(x[0]-x[1]) > 1e-6*x[1]+1e-4 {
				t.Errorf("%s: %v, want %v", name, x[0], x[1])
			}
		}
	})
}
