package form

import (
	"fmt"
	"math"
)

// SeenShare returns how much of a true oval the largest less the smallest of
// two-contact readings in these directions, in degrees, can see: the least and
// the most as shares from 0 to 1, over every way the oval may lie. Two
// directions at 90° see 0 to 1, three at 60° 0.75 to 0.866, four at 45° 0.707
// to 1; fewer than two that differ modulo 180° see nothing.
//
// Derivation: an oval's diameter is D + a·cos 2(θ - φ), so a reading is the
// point at angle 2θ of a circle of radius a, seen from the direction 2φ. Their
// spread is the width of the polygon of those points in that direction. The
// greatest width of a polygon is its longest side or diagonal, the least lies
// square to one of its sides; the oval's own spread is 2a.
func SeenShare(angles []int) (low, high float64) {
	points := onCircle(angles)
	if len(points) < 2 {
		return 0, 0
	}
	low = 1
	for i, p := range points {
		for _, q := range points[i+1:] {
			side := q.less(p)
			long := math.Hypot(side.x, side.y)
			high = max(high, long/2)
			low = min(low, width(points, vector{-side.y / long, side.x / long})/2)
		}
	}
	return low, min(high, 1)
}

type vector struct{ x, y float64 }

func (v vector) less(o vector) vector   { return vector{v.x - o.x, v.y - o.y} }
func (v vector) along(o vector) float64 { return v.x*o.x + v.y*o.y }

// onCircle returns the points of the unit circle at twice the angles, each
// once.
func onCircle(angles []int) []vector {
	var out []vector
	seen := map[int]bool{}
	for _, a := range angles {
		if a = halfTurn(a); seen[a] {
			continue
		}
		seen[a] = true
		sin, cos := math.Sincos(2 * radians(a))
		out = append(out, vector{cos, sin})
	}
	return out
}

// width returns how wide the points are in a direction of length 1.
func width(points []vector, toward vector) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		at := p.along(toward)
		low, high = min(low, at), max(high, at)
	}
	return high - low
}

// Sees says in a sentence what out-of-round read in these directions can see.
func Sees(angles []int, twoContact bool) string {
	n := distinct(angles)
	switch {
	case !twoContact:
		return "a three-contact head cannot see an oval: out-of-round is not measured"
	case n < 2:
		return "one direction cannot see an oval: out-of-round is not measured"
	}
	low, high := SeenShare(angles)
	return fmt.Sprintf("%d directions see %.0f to %.0f %% of a true oval and no odd lobes", n, 100*low, 100*high)
}
