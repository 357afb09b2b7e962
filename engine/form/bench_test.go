package form

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"borewright/engine/length"
)

var (
	benchAngles = []int{0, 45, 90, 135}
	benchValues = []length.Exact{length.Of(100_002_000_000), length.Of(100_004_000_000), length.Of(100_009_000_000), length.Of(100_006_000_000)}
	benchDepths = []float64{10, 40, 70, 100, 130}
	benchSizes  = []float64{100.002, 100.004, 100.005, 100.009, 100.008}
)

// BenchmarkFits makes the two fits of one section and one direction;
// BenchmarkPlainFits the same two by plain calls of the library, without rank,
// residual or a word on what is not possible.
func BenchmarkFits(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if l := FitLobes(benchAngles, benchValues); !l.Possible {
			b.Fatal(l.Why)
		}
		if _, ok := FitLine(benchDepths, benchSizes); !ok {
			b.Fatal("no line")
		}
	}
}

func BenchmarkPlainFits(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		plainLobes(b, benchAngles, benchValues)
		stat.LinearRegression(benchDepths, benchSizes, nil, false)
	}
}

func plainLobes(b *testing.B, angles []int, values []length.Exact) {
	b.Helper()
	a, d := mat.NewDense(len(angles), 3, nil), mat.NewVecDense(len(angles), nil)
	for i, deg := range angles {
		sin, cos := math.Sincos(float64(deg) * math.Pi / 90)
		a.SetRow(i, []float64{1, cos, sin})
		d.SetVec(i, values[i].Float())
	}
	var x mat.VecDense
	if err := x.SolveVec(a, d); err != nil {
		b.Fatal(err)
	}
}
