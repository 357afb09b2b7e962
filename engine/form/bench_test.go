package form

import (
	"math"
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"borewright/engine/length"
)

// BenchmarkFits makes the two fits of one section and one direction, in turns
// with the same two by plain calls of the library, without rank, condition,
// residual or a word on what is not possible.
func BenchmarkFits(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	angles := []int{0, 45, 90, 135}
	values := []length.Exact{length.Of(100_002_000_000), length.Of(100_004_000_000), length.Of(100_009_000_000), length.Of(100_006_000_000)}
	depths, sizes := []float64{10, 40, 70, 100, 130}, []float64{100.002, 100.004, 100.005, 100.009, 100.008}
	const times = 2000
	var ours, plain time.Duration
	for range 9 {
		start := time.Now()
		for range times {
			if l := FitLobes(angles, values); !l.Possible {
				b.Fatal(l.Why)
			}
			if _, ok := FitLine(depths, sizes); !ok {
				b.Fatal("no line")
			}
		}
		ours += time.Since(start)
		start = time.Now()
		for range times {
			plainLobes(b, angles, values)
			stat.LinearRegression(depths, sizes, nil, false)
		}
		plain += time.Since(start)
	}
	b.ReportMetric(float64(ours.Nanoseconds())/(9*times), "ns/fits")
	b.ReportMetric(float64(ours)/float64(plain), "gonum-x")
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
