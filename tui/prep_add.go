package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// prepAdd lists what may be added to the prep list: whole ready lists, then
// the steps that the list lacks.
type prepAdd struct {
	st   *Station
	desk *Desk
	list list
	w, h int
}

func newPrepAdd(st *Station, d *Desk) *prepAdd { return &prepAdd{st: st, desk: d} }

// offer is something that may be added.
type offer struct {
	name, about string
	ids         []string
}

// offers are what the list lacks.
func (a *prepAdd) offers() []offer {
	have, f := a.desk.Session.Prep().List(), a.desk.prepFor()
	var out []offer
	for _, x := range prep.Presets() {
		var ids []string
		for _, s := range x.List(f) {
			if _, _, ok := have.Find(s.ID); !ok {
				ids = append(ids, s.ID)
			}
		}
		if len(ids) > 0 {
			out = append(out, offer{"all of " + x.Name, fmt.Sprintf("%d steps: %s", len(ids), x.About), ids})
		}
	}
	for _, s := range prep.Catalogue(f) {
		if _, _, ok := have.Find(s.ID); !ok {
			out = append(out, offer{s.Name, s.Text, []string{s.ID}})
		}
	}
	return out
}

// Init needs nothing.
func (a *prepAdd) Init() tea.Cmd { return nil }

// Update takes nothing.
func (a *prepAdd) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (a *prepAdd) Resize(w, h int) { a.w, a.h = w, h }

// Title names the screen.
func (a *prepAdd) Title() string { return "add to the prep list, " + a.desk.Title() }

// Typing takes no characters.
func (a *prepAdd) Typing() Typing { return NotTyping }

// Actions are its keys.
func (a *prepAdd) Actions() []Action {
	none := ""
	if len(a.offers()) == 0 {
		none = "the list has every step that the program knows"
	}
	move := func(by int) func() tea.Cmd {
		return func() tea.Cmd {
			a.list.move(by, len(a.offers()))
			return nil
		}
	}
	return []Action{
		on("enter", "add", a.add).unless(none).because("it goes where it belongs in the order; what rests on it and is ticked is withdrawn"),
		on("up|-", "up", move(-1)), on("down|+", "down", move(1)),
		on("pgup", "", move(-a.h)), on("pgdown", "", move(a.h)),
	}
}

// add puts the marked offer into the list.
func (a *prepAdd) add() tea.Cmd {
	all := a.offers()
	a.list.move(0, len(all))
	x := all[a.list.at]
	l := a.desk.Session.Prep().List().With(a.desk.prepFor(), x.ids...)
	if err := a.desk.Record(record.Steps{List: l}); err != nil {
		a.st.Say(draw.Warn, err.Error())
		a.st.Ring(2)
		return nil
	}
	a.st.Say(draw.Plain, x.name+" is added")
	a.list.move(0, len(a.offers()))
	return nil
}

// View draws the offers, and the whole text of the marked one.
func (a *prepAdd) View() []string {
	p, all := &a.st.Palette, a.offers()
	if len(all) == 0 {
		return []string{"", "  The list has every step that the program knows."}
	}
	room := max(1, a.h-prepAddFoot)
	first, last := a.list.window(len(all), room)
	var lines []string
	for i := first; i < last; i++ {
		mark, tone := "  ", draw.Plain
		if i == a.list.at {
			mark, tone = a.st.Signs.Here+" ", draw.Marked
		}
		lines = append(lines, p.Paint(tone, mark+draw.Fit(all[i].name, 25))+" "+
			p.Paint(draw.Dim, draw.Begin(a.st.Signs.Text(all[i].about), a.w-28)))
	}
	lines = append(draw.Box(lines, a.w, room), p.Paint(draw.Frame, draw.Rule("", a.w, a.st.ASCII)))
	return append(lines, draw.Box(wrapped(a.st, a.w, draw.Plain, all[a.list.at].about, prepAddFoot-1), a.w, prepAddFoot-1)...)
}

// prepAddFoot are the lines below the offers: a rule, and the marked one's text.
const prepAddFoot = 4
