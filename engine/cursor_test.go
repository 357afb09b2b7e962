package engine_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// TestNext: the place to read after one is the first unsettled behind it, going round
// to it; when all are settled it is the one behind it.
func TestNext(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := small(length.MM, rapid.SampledFrom([]string{plan.ByLevel, plan.ByDirection}).Draw(t, "order"))
		empty, err := engine.Replay(seal(t, bodies))
		if err != nil {
			t.Fatal(err)
		}
		places := empty.Places()
		most := len(places)
		if rapid.Bool().Draw(t, "some open") {
			most--
		}
		left := rapid.SliceOfNDistinct(rapid.IntRange(0, most-1), 0, most, rapid.ID).Draw(t, "left out")
		if rapid.Bool().Draw(t, "all of these") {
			left = nil
			for i := range most {
				left = append(left, i)
			}
		}
		for _, i := range left {
			bodies = append(bodies, record.LeftOut{Of: places[i].Of, Level: places[i].Level, Dir: places[i].Dir})
		}
		s, err := engine.Replay(seal(t, bodies))
		if err != nil {
			t.Fatal(err)
		}
		at := rapid.IntRange(-1, len(places)-1).Draw(t, "after") // -1 is no place
		var after plan.Place
		if at >= 0 {
			after = places[at]
		}
		want := places[(at+1)%len(places)]
		for i := range places {
			if k := (at + 1 + i) % len(places); !slices.Contains(left, k) {
				want = places[k]
				break
			}
		}
		if got := s.Next(after); got != want {
			t.Fatalf("after %v comes %v, not %v", after, got, want)
		}
	})
}
