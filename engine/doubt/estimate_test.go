package doubt_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// NIST StRD, NumAcc1 and NumAcc3: a naive sum of squares loses all its digits.
func TestPoolOfLargeSizes(t *testing.T) {
	one := Pool(Estimate{}, readings(t, length.UM, "10000001 10000003 10000002"))
	if one != (Estimate{S: 1e6, DF: 2}) {
		t.Errorf("NumAcc1: %+v µm, want exactly 1", one.S/1e6)
	}
	three := Pool(Estimate{}, readings(t, length.UM, "1000001.2 "+strings.Repeat("1000001.1 1000001.3 ", 500)))
	if three.S != 1e5 || three.DF != 1000 {
		t.Errorf("NumAcc3: %v µm with %d, want 0.1", three.S/1e6, three.DF)
	}
	if three.Length() != length.Micrometre/10 {
		t.Errorf("as a length %d", three.Length())
	}
}

func TestPool(t *testing.T) {
	past := Estimate{S: 3, DF: 4}
	for name, c := range map[string]struct {
		past   Estimate
		groups [][]length.Length
		want   Estimate
	}{
		"nothing":               {Estimate{}, nil, Estimate{}},
		"single readings":       {Estimate{}, [][]length.Length{{5}, {9}, nil}, Estimate{}},
		"the past alone":        {past, [][]length.Length{{5}}, past},
		"one pair":              {Estimate{}, [][]length.Length{{5, 7}}, Estimate{math.Sqrt2, 1}},
		"places do not matter":  {Estimate{}, [][]length.Length{{5, 7}, {1005, 1007}}, Estimate{math.Sqrt2, 2}},
		"with the past":         {past, [][]length.Length{{5, 7}, {0, 0, 6}}, Estimate{math.Sqrt((4*9 + 2 + 24) / 7.0), 7}},
		"a past of no freedom":  {Estimate{S: 99}, [][]length.Length{{5, 7}}, Estimate{math.Sqrt2, 1}},
		"a past of below zero":  {Estimate{S: 99, DF: -3}, [][]length.Length{{5, 7}}, Estimate{math.Sqrt2, 1}},
		"no scatter is a value": {Estimate{}, [][]length.Length{{5, 5, 5}}, Estimate{0, 2}},
	} {
		got := Pool(c.past, c.groups...)
		if !near(got.S, c.want.S, 1e-15) || got.DF != c.want.DF || got.Known() != (c.want.DF > 0) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

func groupsOf(t *rapid.T) [][]length.Length {
	return rapid.SliceOfN(rapid.SliceOfN(rapid.Custom(func(t *rapid.T) length.Length {
		return length.Length(rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "length"))
	}), 0, 5), 0, 5).Draw(t, "groups")
}

// Pooling in two steps is pooling at once, and neither the order nor the size of
// what is read matters.
func TestPoolProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := groupsOf(t)
		all := Pool(Estimate{}, groups...)
		k := rapid.IntRange(0, len(groups)).Draw(t, "split")
		steps := Pool(Pool(Estimate{}, groups[:k]...), groups[k:]...)
		if all.DF != steps.DF || !near(all.S, steps.S, 1e-12) {
			t.Errorf("at once %+v, in steps %+v", all, steps)
		}
		by := length.Length(rapid.Int64Range(-1e14, 1e14).Draw(t, "by"))
		var moved [][]length.Length
		for _, g := range slices.Backward(groups) {
			g = slices.Clone(g)
			for i := range g {
				g[i] += by
			}
			slices.Reverse(g)
			moved = append(moved, g)
		}
		if other := Pool(Estimate{}, moved...); other.DF != all.DF || !near(other.S, all.S, 1e-12) {
			t.Errorf("moved by %d it is %+v, not %+v", by, other, all)
		}
	})
}
