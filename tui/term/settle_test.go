package term

import (
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

func TestSettle(t *testing.T) {
	dark, profile := lipgloss.HasDarkBackground(), lipgloss.ColorProfile()
	t.Cleanup(func() { Settle(dark, profile) })
	red := lipgloss.NewStyle().Foreground(lipgloss.AdaptiveColor{Light: "1", Dark: "9"})
	for _, c := range []struct {
		dark    bool
		profile termenv.Profile
		want    string
	}{
		{true, termenv.ANSI, "\x1b[91mx\x1b[0m"},
		{false, termenv.ANSI, "\x1b[31mx\x1b[0m"},
		{true, termenv.Ascii, "x"},
	} {
		Settle(c.dark, c.profile)
		if got := red.Render("x"); got != c.want {
			t.Errorf("dark %v, profile %v: drawn %q, want %q", c.dark, c.profile, got, c.want)
		}
	}
}
