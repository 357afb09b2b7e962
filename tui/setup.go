package tui

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/setup"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// newSetup returns the screen that asks what is on the bench: for a new
// session, when d is nil, it begins with the presets; for one that lies open
// it is the form with what was said before.
func newSetup(st *Station, d *Desk) Screen {
	if d == nil {
		return &presets{st: st, all: setup.Presets()}
	}
	draft := setup.Of(d.Session)
	if st.By != "" {
		draft.Initials = st.By
	}
	return newSetupForm(st, d, draft)
}

// presets is the first step of a new session: the list of setups to begin
// with.
type presets struct {
	st   *Station
	all  []setup.Preset
	list list
	w, h int
}

// Init needs nothing.
func (p *presets) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (p *presets) Resize(w, h int) { p.w, p.h = w, h }

// Title names the screen.
func (p *presets) Title() string { return "new session" }

// Typing takes no characters.
func (p *presets) Typing() Typing { return NotTyping }

// Update takes the digit of a preset, and leaves when a session is begun.
func (p *presets) Update(msg tea.Msg) tea.Cmd {
	if b, ok := msg.(begun); ok {
		p.st.Pop(b)
		return nil
	}
	t, ok := msg.(term.Token)
	if !ok || t.Kind != term.Digit {
		return nil
	}
	n := int(t.Rune - '0')
	if n < 1 || n > len(p.all) {
		p.st.Say(draw.Warn, fmt.Sprintf("there are presets 1 to %d, not %d", len(p.all), n))
		p.st.Ring(2)
		return nil
	}
	p.list.at = n - 1
	return p.choose()
}

// Actions are its keys.
func (p *presets) Actions() []Action {
	return []Action{
		on(p.digits(), "choose by digit", nil).because("everything in a preset can be changed in the form that follows"),
		on("enter", "choose", p.choose),
		on("up|-", "up", func() tea.Cmd { return p.move(-1) }),
		on("down|+", "down", func() tea.Cmd { return p.move(1) }),
	}
}

// digits are the keys of the presets, one each.
func (p *presets) digits() string {
	var keys []string
	for i := range p.all {
		keys = append(keys, strconv.Itoa(i+1))
	}
	return strings.Join(keys, "|")
}

func (p *presets) move(by int) tea.Cmd {
	p.list.move(by, len(p.all))
	return nil
}

// choose opens the form with a preset filled in.
func (p *presets) choose() tea.Cmd {
	p.st.Hush()
	d := p.all[p.list.at].Draft()
	d.Title += ", " + p.st.look().Format("2 Jan 2006")
	d.Initials = p.st.By
	p.st.Push(newSetupForm(p.st, nil, d))
	return nil
}

// presetTop are the lines above the list; each preset takes two.
const presetTop, presetRow = 3, 2

// View draws the list.
func (p *presets) View() []string {
	palette := &p.st.Palette
	lines := []string{
		"", "  " + palette.Paint(draw.Title, "What is on the bench?") +
			palette.Paint(draw.Dim, draw.Cut("  Press the digit of the nearest; all can be changed.", max(0, p.w-25))),
		"",
	}
	first, last := p.list.window(len(p.all), (p.h-presetTop)/presetRow)
	for i := first; i < last; i++ {
		mark, tone := " ", draw.Plain
		if i == p.list.at {
			mark, tone = p.st.Signs.Here, draw.Marked
		}
		x := p.all[i]
		lines = append(lines,
			"  "+palette.Paint(tone, mark)+" "+palette.Paint(draw.Key, strconv.Itoa(i+1))+"  "+palette.Paint(tone, draw.Cut(x.Name, p.w-8)),
			"       "+palette.Paint(draw.Dim, draw.Cut(x.About, p.w-8)))
	}
	return lines
}
