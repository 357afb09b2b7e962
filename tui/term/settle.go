package term

import (
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Settle gives the drawing library what [Profile] chose, so that nothing drawn
// with its own defaults asks the terminal or looks different. Call it before
// the program runs.
func Settle(dark bool, profile termenv.Profile) {
	lipgloss.SetHasDarkBackground(dark)
	lipgloss.SetColorProfile(profile)
}
