package fit_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

// readings draws [level][direction] readings about a size, some missing.
func readings(about length.Length) *rapid.Generator[[][]length.Exact] {
	return rapid.Custom(func(t *rapid.T) [][]length.Exact {
		out := make([][]length.Exact, rapid.IntRange(1, 4).Draw(t, "levels"))
		for i := range out {
			out[i] = make([]length.Exact, rapid.IntRange(1, 3).Draw(t, "directions"))
			for k := range out[i] {
				if rapid.IntRange(0, 4).Draw(t, "there") > 0 {
					n := rapid.IntRange(-40, 40).Draw(t, "µm")
					out[i][k] = length.Of(about + length.Length(n)*length.Micrometre)
				}
			}
		}
		return out
	})
}

// Tightest <= mean <= loosest, at every level and over all, and what is judged
// lies between.
func TestClearanceInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole := readings(60*length.Millimetre).Draw(t, "hole")
		shaft := readings(60*length.Millimetre-50*length.Micrometre).Draw(t, "shaft")
		by := rapid.SampledFrom([]Definition{SmallestLargest, SmallestMean, SmallestSmallest, MeanMean}).Draw(t, "by")
		c := Between(hole, shaft, by)
		ordered(t, LevelClearance{c.Tightest, c.Mean, c.Loosest, c.Judged})
		for _, l := range c.ByLevel {
			ordered(t, l)
		}
		if c.Bound && c.ByLevel != nil || c.Judged.Measured() != (c.Bound || c.Level >= 0) {
			t.Fatalf("%+v", c)
		}
		if c.Level >= 0 && c.Judged != length.Min(c.JudgedLevels()...) {
			t.Fatalf("judged %v of %v", c.Judged, c.JudgedLevels())
		}
	})
}

func ordered(t *rapid.T, l LevelClearance) {
	t.Helper()
	if l.Tightest.Cmp(l.Mean) > 0 || l.Mean.Cmp(l.Loosest) > 0 || l.Tightest.Cmp(l.Judged) > 0 || l.Judged.Cmp(l.Loosest) > 0 {
		t.Fatalf("%+v", l)
	}
	if l.Tightest.Measured() != l.Judged.Measured() || l.Tightest.Measured() != l.Loosest.Measured() {
		t.Fatalf("%+v", l)
	}
}

// A clearance taken level by level is inside its own bounds.
func TestBoundsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole := readings(60*length.Millimetre).Draw(t, "hole")
		shaft := readings(60*length.Millimetre).Draw(t, "shaft")
		c := Between(hole, shaft, SmallestLargest)
		all := func(r [][]length.Exact) []length.Exact { return slices.Concat(r...) }
		low := length.Min(all(hole)...).Sub(length.Max(all(shaft)...))
		high := length.Max(all(hole)...).Sub(length.Min(all(shaft)...))
		if c.Tightest.Measured() != low.Measured() {
			t.Fatalf("measured %v, readings of both %v", c.Tightest.Measured(), low.Measured())
		}
		if low.Measured() && (c.Tightest.Cmp(low) < 0 || c.Loosest.Cmp(high) > 0) {
			t.Fatalf("%v to %v, bounds %v to %v", c.Tightest, c.Loosest, low, high)
		}
	})
}

// Any parts of the ranges make a clearance of Clearances.
func TestClearancesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) (Range, length.Length) {
			low := length.Length(rapid.Int64Range(0, 1e12).Draw(t, name+" low"))
			high := low + length.Length(rapid.Int64Range(0, 1e9).Draw(t, name+" span"))
			return Range{low, high}, length.Length(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
		}
		hole, h := draw("hole")
		shaft, s := draw("shaft")
		if c := Clearances(hole, shaft); !c.Contains(length.Of(h - s)) {
			t.Fatalf("%d is not in %v", h-s, c)
		}
	})
}
