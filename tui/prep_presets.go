package tui

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// prepPresets is the first step of a sign-off: the lists to begin with.
type prepPresets struct {
	st   *Station
	desk *Desk
	all  []prep.Preset
	list list
	w, h int
}

func newPrepPresets(st *Station, d *Desk) *prepPresets {
	return &prepPresets{st: st, desk: d, all: prep.Presets()}
}

// prepFor is what a prep list of the session is made for.
func (d *Desk) prepFor() prep.For {
	return prep.For{Layout: d.Session.Layout(), Unit: d.Session.Unit()}
}

// Init needs nothing.
func (p *prepPresets) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (p *prepPresets) Resize(w, h int) { p.w, p.h = w, h }

// Title names the screen.
func (p *prepPresets) Title() string { return "new prep list, " + p.desk.Title() }

// Typing takes no characters.
func (p *prepPresets) Typing() Typing { return NotTyping }

// Update takes the digit of a preset.
func (p *prepPresets) Update(msg tea.Msg) tea.Cmd {
	t, ok := msg.(term.Token)
	if !ok || t.Kind != term.Digit {
		return nil
	}
	n := int(t.Rune - '0')
	if n < 1 || n > len(p.all) {
		p.st.Say(draw.Warn, fmt.Sprintf("there are lists 1 to %d, not %d", len(p.all), n))
		p.st.Ring(2)
		return nil
	}
	p.list.at = n - 1
	return p.choose()
}

// Actions are its keys.
func (p *prepPresets) Actions() []Action {
	var digits []string
	for i := range p.all {
		digits = append(digits, strconv.Itoa(i+1))
	}
	move := func(by int) func() tea.Cmd {
		return func() tea.Cmd {
			p.list.move(by, len(p.all))
			return nil
		}
	}
	return []Action{
		on(strings.Join(digits, "|"), "choose by digit", nil).because("every step can be changed afterwards, and others added"),
		on("enter", "choose", p.choose),
		on("up|-", "up", move(-1)),
		on("down|+", "down", move(1)),
	}
}

// choose sets the list and opens it.
func (p *prepPresets) choose() tea.Cmd {
	l := p.all[p.list.at].List(p.desk.prepFor())
	if err := p.desk.Record(record.Steps{List: l}); err != nil {
		p.st.Say(draw.Warn, err.Error())
		p.st.Ring(2)
		return nil
	}
	p.st.Hush()
	p.st.Pop(nil)
	p.st.Push(newPrep(p.st, p.desk))
	return nil
}

// View draws the lists to choose from, and what the marked one has.
func (p *prepPresets) View() []string {
	palette := &p.st.Palette
	lines := []string{"", "  " + palette.Paint(draw.Title, "Which prep list?"), ""}
	for i, x := range p.all {
		mark, tone := " ", draw.Plain
		if i == p.list.at {
			mark, tone = p.st.Signs.Here, draw.Marked
		}
		lines = append(lines, "  "+palette.Paint(tone, mark)+" "+palette.Paint(draw.Key, strconv.Itoa(i+1))+"  "+
			palette.Paint(tone, draw.Fit(x.Name, 18))+palette.Paint(draw.Dim, draw.Cut(x.About, p.w-26)))
	}
	var names []string
	for _, s := range p.all[p.list.at].List(p.desk.prepFor()) {
		names = append(names, s.Name)
	}
	lines = append(lines, "")
	for _, line := range draw.Wrap(fmt.Sprintf("%d steps: ", len(names))+strings.Join(names, ", "), p.w-4) {
		lines = append(lines, "  "+line)
	}
	return append(lines, "", "  "+palette.Paint(draw.Dim, draw.Cut(prep.Defer, p.w-4)))
}
