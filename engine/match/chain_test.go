package match

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

const enough = 1_000_000

// exhaustive tries every choice.
func exhaustive(c Chain) Score {
	var best *Score
	of := make([]int, len(c.Options))
	var try func(int)
	try = func(position int) {
		if position == len(of) {
			if s, ok := c.Score(of); ok && (best == nil || s.Compare(*best) < 0) {
				best = &s
			}
			return
		}
		for option := None; option < len(c.Options[position]); option++ {
			if option != None && !c.Options[position][option].May {
				continue
			}
			of[position] = option
			try(position + 1)
		}
	}
	try(0)
	return *best
}

// drawChain draws a small crank: up to 6 positions of up to 4 options, from a
// stock that may run out.
func drawChain(t *rapid.T) Chain {
	items := rapid.IntRange(1, 4).Draw(t, "items")
	c := Chain{Stock: rapid.SliceOfN(rapid.IntRange(0, 4), items, items).Draw(t, "stock")}
	var heights [][]int
	for range rapid.IntRange(0, 6).Draw(t, "positions") {
		var options []Option
		var height []int
		for range rapid.IntRange(0, 4).Draw(t, "options") {
			options = append(options, Option{
				Cost:  drawCost(t),
				Uses:  rapid.SliceOfN(rapid.IntRange(0, items-1), 0, 2).Draw(t, "uses"),
				Moved: rapid.Bool().Draw(t, "moved"),
			})
			height = append(height, rapid.IntRange(0, 3).Draw(t, "height"))
		}
		c.Options, heights = append(c.Options, options), append(heights, height)
	}
	if rapid.Bool().Draw(t, "rule") {
		c.Apart = func(position, a, b int) bool {
			d := heights[position][a] - heights[position+1][b]
			return d > 1 || d < -1
		}
	}
	return c
}

func TestChainBestIsTheBestOfAll(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := drawChain(t)
		got := c.Best(enough)
		scored, ok := c.Score(got.Of)
		if !ok || scored != got.Score {
			t.Fatalf("says %+v of %v, which scores %+v, from stock %v", got.Score, got.Of, scored, ok)
		}
		if want := exhaustive(c); got.Score != want || !got.Proven {
			t.Fatalf("best %+v (proven %v), the best of all is %+v", got.Score, got.Proven, want)
		}
	})
}

// Stopped early it still gives a choice that the stock suffices for, and never
// one that is better than the best.
func TestChainStoppedEarlyStillChooses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := drawChain(t)
		got := c.Best(rapid.IntRange(0, 8).Draw(t, "looks"))
		scored, ok := c.Score(got.Of)
		if !ok || scored != got.Score || len(got.Of) != len(c.Options) {
			t.Fatalf("%+v scores %+v, from stock %v", got, scored, ok)
		}
		whole := c.Best(enough)
		if got.Compare(whole.Score) < 0 || got.Proven && got.Score != whole.Score {
			t.Fatalf("stopped early %+v (proven %v), best %+v", got.Score, got.Proven, whole.Score)
		}
	})
}

func TestChainKeepsToStockAndNeighbours(t *testing.T) {
	t.Parallel()
	tight, good := Cost{May: true, Outside: true, Margin: 2 * OnLimit}, Cost{May: true, Margin: OnLimit / 2}
	better := Cost{May: true, Margin: OnLimit / 4}
	as := func(c Cost) []Option {
		return []Option{{Cost: c}, {Cost: good, Uses: []int{0}, Moved: true}, {Cost: better, Uses: []int{1}, Moved: true}}
	}
	three := [][]Option{as(tight), as(tight), as(good)}
	for name, x := range map[string]struct {
		c    Chain
		want []int
	}{
		"plenty":              {Chain{Options: three, Stock: []int{9, 9}}, []int{2, 2, 2}},
		"none":                {Chain{Options: three, Stock: []int{0, 0}}, []int{0, 0, 0}},
		"one of each":         {Chain{Options: three, Stock: []int{1, 1}}, []int{2, 1, 0}},
		"one, where it helps": {Chain{Options: three, Stock: []int{1, 0}}, []int{1, 0, 0}},
		"never 2 beside 2": {Chain{Options: three, Stock: []int{9, 9}, Apart: func(_, a, b int) bool {
			return a == 2 && b == 2
		}}, []int{2, 1, 2}},
		"nothing to choose": {Chain{Options: [][]Option{{}, {{Cost: good}}}}, []int{None, 0}},
	} {
		if got := x.c.Best(enough); !slices.Equal(got.Of, x.want) {
			t.Errorf("%s: %v, want %v (%+v)", name, got.Of, x.want, got.Score)
		}
	}
}

// Seeded cranks of seven positions and five options, of which the stock has
// few: all 280 000 choices are tried.
func TestChainOnSeededCranks(t *testing.T) {
	t.Parallel()
	for seed := range uint64(4) {
		r := rand.New(rand.NewPCG(seed, 7))
		c := Chain{Stock: []int{2, 1, 3, 1}}
		for range 7 {
			var options []Option
			for i := range 5 {
				m := Margin(r.Int64N(int64(13 * OnLimit / 10)))
				o := Option{Cost: Cost{May: true, Margin: m, Outside: m > OnLimit}, Moved: i > 0}
				if i > 0 {
					o.Uses = []int{i - 1, r.IntN(4)}
				}
				options = append(options, o)
			}
			c.Options = append(c.Options, options)
		}
		c.Apart = func(position, a, b int) bool { return (position+a+b)%3 == 0 }
		got := c.Best(enough)
		if want := exhaustive(c); got.Score != want || !got.Proven {
			t.Errorf("seed %d: best %+v (proven %v), the best of all is %+v", seed, got.Score, got.Proven, want)
		}
	}
}
