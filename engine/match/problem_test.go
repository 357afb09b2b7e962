package match

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

// drawCost draws a cost whose outside agrees with its margin, from few enough
// margins that many are equal.
func drawCost(t *rapid.T) Cost {
	m := Margin(rapid.IntRange(0, 8).Draw(t, "margin")) * OnLimit / 5
	return Cost{May: rapid.IntRange(0, 5).Draw(t, "may") > 0, Margin: m, Outside: m > OnLimit}
}

func drawProblem(t *rapid.T, most int) Problem {
	parts, positions := rapid.IntRange(1, most).Draw(t, "parts"), rapid.IntRange(1, most).Draw(t, "positions")
	p := Problem{}
	for part := range parts {
		var row []Cost
		for range positions {
			row = append(row, drawCost(t))
		}
		p.Costs = append(p.Costs, row)
		p.Now = append(p.Now, None)
		if part < positions {
			p.Now[part] = part
		}
	}
	return p
}

// allArrangements calls try with every arrangement there is.
func allArrangements(p Problem, try func([]int)) {
	at, taken := make([]int, len(p.Costs)), make([]bool, p.positions())
	var place func(int)
	place = func(part int) {
		if part == len(at) {
			try(at)
			return
		}
		at[part] = None
		place(part + 1)
		for position := range taken {
			if taken[position] || !p.Costs[part][position].May {
				continue
			}
			taken[position], at[part] = true, position
			place(part + 1)
			taken[position], at[part] = false, None
		}
	}
	place(0)
}

func bestOfAll(p Problem) Score {
	best := Score{Unfilled: math.MaxInt}
	allArrangements(p, func(at []int) {
		if s := p.Score(at); s.Compare(best) < 0 {
			best = s
		}
	})
	return best
}

func checkArrangement(t interface{ Fatalf(string, ...any) }, p Problem, r Result) {
	var seen []int
	for part, at := range r.At {
		if at == None {
			continue
		}
		if slices.Contains(seen, at) || !p.Costs[part][at].May {
			t.Fatalf("%v puts part %d where it may not be", r.At, part)
		}
		seen = append(seen, at)
	}
	if got := p.Score(r.At); got != r.Score {
		t.Fatalf("says %+v of %v, which scores %+v", r.Score, r.At, got)
	}
}

// Fewer and more parts than positions, with what may not be.
func TestBestIsTheBestOfAllArrangements(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, 5)
		got := p.Best()
		checkArrangement(t, p, got)
		if want := bestOfAll(p); got.Score != want {
			t.Fatalf("best %+v by %v, the best of all is %+v", got.Score, got.At, want)
		}
	})
}

// Eight parts in eight positions: all 40 320 permutations, of seeded tables.
func TestBestIsTheBestOfAllPermutations(t *testing.T) {
	t.Parallel()
	for n := 1; n <= 8; n++ {
		for seed := range uint64(6) {
			r := rand.New(rand.NewPCG(seed, uint64(n)))
			p := Problem{}
			for part := range n {
				p.Costs, p.Now = append(p.Costs, nil), append(p.Now, part)
				for range n {
					m := Margin(r.Int64N(int64(14 * OnLimit / 10)))
					p.Costs[part] = append(p.Costs[part], Cost{May: true, Margin: m, Outside: m > OnLimit})
				}
			}
			got := p.Best()
			checkArrangement(t, p, got)
			if want := bestPermutation(p); got.Score != want {
				t.Errorf("%d parts, seed %d: best %+v, of all permutations %+v", n, seed, got.Score, want)
			}
		}
	}
}

// bestPermutation tries every permutation, as Heap's method makes them.
func bestPermutation(p Problem) Score {
	at, count := make([]int, len(p.Costs)), make([]int, len(p.Costs))
	for i := range at {
		at[i] = i
	}
	best := p.Score(at)
	for i := 1; i < len(at); {
		if count[i] == i {
			count[i] = 0
			i++
			continue
		}
		if i%2 == 0 {
			at[0], at[i] = at[i], at[0]
		} else {
			at[count[i]], at[i] = at[i], at[count[i]]
		}
		if s := p.Score(at); s.Compare(best) < 0 {
			best = s
		}
		count[i]++
		i = 1
	}
	return best
}

// leastByProgramming returns the least sum that any assignment of a table has,
// by the simplex method of a library: an assignment is a linear program whose
// corners are the permutations.
func leastByProgramming(t *rapid.T, costs [][]float64) float64 {
	n := len(costs)
	c := slices.Concat(costs...)
	// Each row and each column is used once; the last column's is implied.
	a, b := mat.NewDense(2*n-1, n*n, nil), make([]float64, 2*n-1)
	for i := range n {
		for k := range n {
			a.Set(i, i*n+k, 1)
			if k < n-1 {
				a.Set(n+k, i*n+k, 1)
			}
		}
	}
	for i := range b {
		b[i] = 1
	}
	start := make([]int, 0, 2*n-1)
	for i := range n {
		start = append(start, i*n+i)
		if i < n-1 {
			start = append(start, i*n+i+1)
		}
	}
	sum, _, err := lp.Simplex(c, a, b, 1e-9, start)
	if err != nil {
		t.Fatalf("%v: %v", costs, err)
	}
	return sum
}

// A library that has nothing to do with this package finds the same least sum.
func TestLeastSumAgreesWithALibrary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "n")
		table, costs := make([][]price, n), make([][]float64, n)
		for r := range table {
			for range n {
				m := rapid.Int64Range(0, 1000).Draw(t, "cost")
				table[r], costs[r] = append(table[r], price{sum: Margin(m)}), append(costs[r], float64(m))
			}
		}
		var got Margin
		for r, c := range assign(table) {
			got += table[r][c].sum
		}
		if want := leastByProgramming(t, costs); math.Abs(float64(got)-want) > 1e-6 {
			t.Fatalf("least sum %d, the library's is %g", got, want)
		}
	})
}

// It finds as few outside too, of up to 12 parts, where each outside costs 1.
func TestFewestOutsideAgreesWithALibrary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "n")
		p, costs := Problem{}, make([][]float64, n)
		for part := range n {
			p.Costs = append(p.Costs, nil)
			for range n {
				m := Margin(rapid.Int64Range(0, 3000).Draw(t, "margin")) * OnLimit / 1000
				p.Costs[part] = append(p.Costs[part], Cost{May: true, Margin: m, Outside: m > OnLimit})
				cost := 0.0
				if m > OnLimit {
					cost = 1
				}
				costs[part] = append(costs[part], cost)
			}
		}
		want := leastByProgramming(t, costs)
		if got := p.Best(); math.Abs(float64(got.Outside)-want) > 1e-6 || got.Unfilled != 0 {
			t.Fatalf("best %+v, the library leaves %g outside", got.Score, want)
		}
	})
}

func TestRulesAndLocks(t *testing.T) {
	t.Parallel()
	cost := func(m int) Cost { return Cost{May: true, Margin: Margin(m) * OnLimit / 10} }
	table := func() Problem {
		return Problem{
			Costs: [][]Cost{{cost(9), cost(1), cost(5)}, {cost(1), cost(9), cost(5)}, {cost(5), cost(5), cost(5)}},
			Now:   []int{0, 1, 2},
		}
	}
	free, only, locked := table(), table(), table()
	only.Only(0, 0, 2)
	locked.Lock(2, 0)
	for name, x := range map[string]struct {
		p    Problem
		want []int
	}{"free": {free, []int{1, 0, 2}}, "only in 1 or 3": {only, []int{2, 0, 1}}, "locked": {locked, []int{1, 2, 0}}} {
		if got := x.p.Best(); !slices.Equal(got.At, x.want) {
			t.Errorf("%s: %v, want %v", name, got.At, x.want)
		}
	}
}

// Nothing moves for nothing, and a move alone is no gain.
func TestEqualsStayWhereTheyAre(t *testing.T) {
	t.Parallel()
	same := Cost{May: true, Margin: OnLimit / 2}
	p := Problem{Costs: [][]Cost{{same, same, same}, {same, same, same}}, Now: []int{2, 0}}
	got := p.Best()
	if !slices.Equal(got.At, p.Now) || got.Unfilled != 1 || got.Moved != 0 {
		t.Errorf("moved to %v: %+v", got.At, got.Score)
	}
	if moved := p.Score([]int{0, 2}); moved.Gains(got.Score) || !got.Same(moved) || got.Compare(moved) >= 0 {
		t.Errorf("%+v against %+v", got.Score, moved)
	}
}

func TestNothingToArrange(t *testing.T) {
	t.Parallel()
	if got := (Problem{}).Best(); len(got.At) != 0 || got.Score != (Score{}) {
		t.Errorf("%+v", got)
	}
	none := Problem{Costs: [][]Cost{{{}, {}}}, Now: []int{1}}
	if got := none.Best(); got.At[0] != None || got.Unfilled != 2 || got.Moved != 1 {
		t.Errorf("%+v", got)
	}
}

func TestMargins(t *testing.T) {
	t.Parallel()
	for share, want := range map[float64]Margin{
		0: 0, 1: OnLimit, 0.5: OnLimit / 2, -3: 0, 1e9: Most, math.Inf(1): Most, 1.0000000004: OnLimit, 1e-9: 1,
	} {
		if got := MarginOf(share); got != want {
			t.Errorf("%g is %d, want %d", share, got, want)
		}
	}
	if MarginOf(math.NaN()) != Most || MarginOf(0.25).Share() != 0.25 {
		t.Error("NaN is not the most, or a share does not come back")
	}
}
