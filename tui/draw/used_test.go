package draw

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestUsedDrawings(t *testing.T) {
	for _, tt := range []struct {
		share float64
		known bool
		want  string
	}{
		{0, true, "[       ] "},
		{-2, true, "[       ] "},
		{0.05, true, "[       ] "},
		{0.5, true, "[====   ] "},
		{0.97, true, "[====== ] "},
		{1, true, "[=======] "},
		{1.001, true, "[=======]>"},
		{math.Inf(1), true, "[=======]>"},
		{math.NaN(), true, "[       ] "},
		{1, false, "[       ] "},
	} {
		if got := (Used{Share: tt.share, Known: tt.known, ASCII: true}).Draw(10); got != tt.want {
			t.Errorf("%v, known %v: %q, want %q", tt.share, tt.known, got, tt.want)
		}
	}
}

// The bar is full exactly from the limit on, and passed exactly beyond it, in
// any width.
func TestUsedIsFullExactlyOnTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.OneOf(rapid.Float64Range(0, 3), rapid.SampledFrom([]float64{1, math.Nextafter(1, 0), math.Nextafter(1, 2)})).Draw(t, "share")
		w := rapid.IntRange(-1, 60).Draw(t, "w")
		got := Used{Share: share, Known: true, ASCII: true}.Draw(w)
		if Width(got) != max(0, w) {
			t.Fatalf("%q is not %d cells wide", got, w)
		}
		if w < usedLeast {
			return
		}
		full, passed := strings.Count(got, "=") == w-3, strings.HasSuffix(got, ">")
		if full != (share >= 1) || passed != (share > 1) {
			t.Errorf("%v: %q", share, got)
		}
	})
}
