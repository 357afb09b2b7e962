//go:build !windows

package term

import (
	"testing"

	"github.com/muesli/termenv"
)

// On Windows the console's version decides and TERM says nothing.
func TestColours(t *testing.T) {
	tests := []struct {
		term, colorterm string
		want            termenv.Profile
	}{
		{"xterm-256color", "truecolor", termenv.TrueColor},
		{"xterm-256color", "", termenv.ANSI256},
		{"xterm", "", termenv.ANSI},
		{"linux", "", termenv.ANSI},
		{"screen", "", termenv.ANSI},
		{"screen.xterm", "", termenv.ANSI},
		{"tmux-256color", "", termenv.ANSI256},
		{"rxvt", "", termenv.ANSI},
		{"foot", "", termenv.ANSI},
		{"dumb", "", termenv.Ascii},
		{"vt220", "", termenv.Ascii},
		{"", "", termenv.Ascii},
	}
	for _, tt := range tests {
		env := from(map[string]string{"TERM": tt.term, "COLORTERM": tt.colorterm, "CI": "true"})
		if _, got, _ := Profile(env, Flags{}); got != tt.want {
			t.Errorf("TERM=%s COLORTERM=%s: %s, want %s", tt.term, tt.colorterm, got.Name(), tt.want.Name())
		}
	}
}
