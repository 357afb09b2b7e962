package tui

import (
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// setupBench is a station whose keys are counted.
type setupBench struct {
	*station
	pressed int
}

// newSetupBench is a station of 80 by 24 in the ASCII kind, with demo sessions
// on its shelf.
func newSetupBench(t *testing.T, sessions ...string) *setupBench {
	t.Helper()
	s := newStation(t, 80, 24, sessions...)
	s.st.Signs, s.st.ASCII = draw.NewSigns(true), true
	return &setupBench{station: s}
}

var setupKeys = map[string]tea.KeyType{
	"<enter>": tea.KeyEnter, "<tab>": tea.KeyTab, "<back>": tea.KeyShiftTab, "<esc>": tea.KeyEscape, "<up>": tea.KeyUp,
	"<down>": tea.KeyDown, "<left>": tea.KeyLeft, "<right>": tea.KeyRight, "<pgdown>": tea.KeyPgDown, "<pgup>": tea.KeyPgUp,
	"<home>": tea.KeyHome, "<end>": tea.KeyEnd, "<delete>": tea.KeyDelete, "<erase>": tea.KeyBackspace,
	"<f2>": tea.KeyF2, "<f3>": tea.KeyF3, "<ctrl+s>": tea.KeyCtrlS, "<ctrl+w>": tea.KeyCtrlW,
}

// press presses keys: names in angle brackets, or texts of which each
// character is a key of its own.
func (b *setupBench) press(keys ...string) {
	b.t.Helper()
	for _, k := range keys {
		if kind, ok := setupKeys[k]; ok {
			b.pressed++
			b.send(tea.KeyMsg{Type: kind})
			continue
		}
		for _, r := range k {
			b.pressed++
			b.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
}

// form returns the setup form on top.
func (b *setupBench) form() *setupForm {
	b.t.Helper()
	return top[*setupForm](b.station)
}

// at goes to a field of the form on top.
func (b *setupBench) at(id string) {
	b.t.Helper()
	if !b.form().form.jump(id) {
		b.t.Fatalf("there is no field %s", id)
	}
}

// see wants a text on the screen, unseen wants it gone.
func (b *setupBench) see(text string) {
	b.t.Helper()
	if view := b.r.View(); !strings.Contains(view, text) {
		b.t.Errorf("%q is not on the screen:\n%s", text, view)
	}
}

func (b *setupBench) unseen(text string) {
	b.t.Helper()
	if view := b.r.View(); strings.Contains(view, text) {
		b.t.Errorf("%q is on the screen:\n%s", text, view)
	}
}

// focused wants a field in focus.
func (b *setupBench) focused(id string) {
	b.t.Helper()
	if got := b.form().form.focus; got != id {
		b.t.Errorf("the focus is on %s, want %s", got, id)
	}
}

// rowCount is how many rows a form has, which is not what a golden is about.
var rowCount = regexp.MustCompile(`-  lines \d+ to \d+ of \d+  -+`)

// golden wants a screen as it is drawn here; blanks at the ends of lines are
// left out, and how many rows there are.
func (b *setupBench) golden(want string) {
	b.t.Helper()
	var lines []string
	for _, line := range strings.Split(b.r.View(), "\n") {
		lines = append(lines, rowCount.ReplaceAllString(strings.TrimRight(line, " "), "- lines"))
	}
	if got := strings.TrimRight(strings.Join(lines, "\n"), "\n"); got != strings.Trim(want, "\n") {
		b.t.Errorf("the screen is\n%s\nwant\n%s", got, strings.Trim(want, "\n"))
	}
}
