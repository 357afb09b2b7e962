package draw_test

import (
	"testing"

	"borewright/tui/draw"
)

func TestBegin(t *testing.T) {
	for _, tt := range []struct {
		text string
		w    int
		want string
	}{
		{"Oil it.", 7, "Oil it."},
		{"Oil it. Then wipe it.", 12, "Oil it"},
		{"Oil it, then wipe; twice", 20, "Oil it, then wipe"},
		{"19 steps: plugs out, burrs, brush", 27, "19 steps: plugs out, burrs"},
		{"19 steps: plugs out, burrs", 12, "19 steps"},
		{"Which lifters does it run?", 10, ""},
		{"anything at all, or not", 0, ""},
	} {
		if got := draw.Begin(tt.text, tt.w); got != tt.want {
			t.Errorf("Begin(%q, %d) = %q, want %q", tt.text, tt.w, got, tt.want)
		}
	}
}
