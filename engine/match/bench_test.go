package match

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkBest arranges sixteen parts in sixteen positions, seeded.
func BenchmarkBest(b *testing.B) {
	const n = 16
	r := rand.New(rand.NewPCG(1, n))
	p := Problem{}
	for part := range n {
		p.Costs, p.Now = append(p.Costs, nil), append(p.Now, part)
		for range n {
			m := Margin(r.Int64N(int64(14 * OnLimit / 10)))
			p.Costs[part] = append(p.Costs[part], Cost{May: true, Margin: m, Outside: m > OnLimit})
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if s := p.Best(); s.Unfilled > 0 {
			b.Fatal("a position is empty")
		}
	}
}
