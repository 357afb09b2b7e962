package engine

import (
	"math"
	"strconv"
)

// MarginText writes a margin used with two decimals. One that is above 1 never
// shows as 1.00, nor one below as 1.00: it rounds away from the limit.
func MarginText(m float64) string {
	r := math.Round(m*100) / 100
	switch {
	case m > 1 && r <= 1:
		r = 1.01
	case m < 1 && r >= 1:
		r = 0.99
	}
	return strconv.FormatFloat(r, 'f', 2, 64)
}
