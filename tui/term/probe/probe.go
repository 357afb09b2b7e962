// Package probe keeps a program from asking the terminal for its background
// colour while it starts.
//
// Bubble Tea v1 asks in a package init, in every command of a binary that
// links it. A terminal that does not answer holds the program for five
// seconds, and what is typed meanwhile is lost. Go initialises packages in
// the order of their import paths as far as their imports allow, so this
// package, which imports Lip Gloss but not Bubble Tea and whose path sorts
// before github.com/charmbracelet/bubbletea, settles the background first.
//
// Import it for its effect wherever Bubble Tea is imported, or import
// borewright/tui/term, which does. Caveat: renaming the module so that its
// path sorts later undoes the cure without a compile error; a test of this
// package sees it.
package probe

import "github.com/charmbracelet/lipgloss"

// Dark is the background that is taken until the program has read its flags
// and its environment.
const Dark = true

func init() {
	lipgloss.SetHasDarkBackground(Dark)
}
