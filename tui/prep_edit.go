package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// prepEdit changes the prep list: steps are added, taken out, or given another
// count, other limits.
type prepEdit struct {
	st   *Station
	desk *Desk
	list list
	w, h int
}

func newPrepEdit(st *Station, d *Desk, at int) *prepEdit {
	return &prepEdit{st: st, desk: d, list: list{at: at}}
}

// Init needs nothing.
func (e *prepEdit) Init() tea.Cmd { return nil }

// Update takes nothing.
func (e *prepEdit) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (e *prepEdit) Resize(w, h int) { e.w, e.h = w, h }

// Title names the screen.
func (e *prepEdit) Title() string { return "prep list, " + e.desk.Title() }

// Typing takes no characters.
func (e *prepEdit) Typing() Typing { return NotTyping }

func (e *prepEdit) steps() prep.List { return e.desk.Session.Prep().List() }

// marked is the step under the cursor; ok is false in an empty list.
func (e *prepEdit) marked() (s prep.Step, ok bool) {
	all := e.steps()
	e.list.move(0, len(all))
	if len(all) == 0 {
		return s, false
	}
	return all[e.list.at], true
}

// Actions are its keys; the digits do for who has but a keypad.
func (e *prepEdit) Actions() []Action {
	none := ""
	if _, ok := e.marked(); !ok {
		none = "the list is empty: 1 adds steps"
	}
	push := func(s Screen) func() tea.Cmd {
		return func() tea.Cmd {
			e.st.Push(s)
			return nil
		}
	}
	move := func(by int) func() tea.Cmd {
		return func() tea.Cmd {
			e.list.move(by, len(e.steps()))
			return nil
		}
	}
	return []Action{
		on("enter", "change", e.change).unless(none).because("its name, how many there are, its limits, its places"),
		on("1|a", "add", push(newPrepAdd(e.st, e.desk))).because("a step the program knows, or all of a ready list"),
		on("2|t|delete", "take out", e.askTakeOut).unless(e.stays(none)).
			because("after asking: what came after the step comes after what came before it; the log can bring it back"),
		on("3|o", "own step", e.own).because("a step of your own, behind any other"),
		on("up|-", "up", move(-1)), on("down|+", "down", move(1)),
		on("pgup", "", move(-e.room())), on("pgdown", "", move(e.room())),
	}
}

// stays says why the marked step cannot be taken out.
func (e *prepEdit) stays(none string) string {
	s, ok := e.marked()
	if !ok {
		return none
	}
	if err := e.desk.Session.Prep().MayRemove(s.ID); err != nil {
		return err.Error()
	}
	return ""
}

func (e *prepEdit) change() tea.Cmd {
	s, _ := e.marked()
	e.st.Push(newPrepForm(e.st, e.desk, s))
	return nil
}

func (e *prepEdit) own() tea.Cmd {
	s := prep.Step{ID: e.steps().FreshID(), Kind: prep.Once, Source: keyedHere}
	if marked, ok := e.marked(); ok {
		s.NotBefore = []string{marked.ID}
	}
	e.st.Push(newPrepForm(e.st, e.desk, s))
	return nil
}

// askTakeOut asks before the marked step is taken out of the list.
func (e *prepEdit) askTakeOut() tea.Cmd {
	s, _ := e.marked()
	e.st.Push(&confirm{
		st: e.st, title: "take a step out", yes: "take it out", no: "leave it in the list",
		question: []string{
			"Take " + quoted(s.Name) + " out of the list?", "",
			"It is not asked for any more. What it had ticked stays in the log, and W there brings it back.",
		},
		do: e.takeOut,
	})
	return nil
}

func (e *prepEdit) takeOut() tea.Cmd {
	s, _ := e.marked()
	l, err := e.steps().Without(s.ID)
	if err == nil {
		err = e.desk.Record(record.Steps{List: l})
	}
	if err != nil {
		e.st.Say(draw.Warn, err.Error())
		e.st.Ring(2)
		return nil
	}
	e.st.Say(draw.Plain, s.Name+" is taken out of the list; W in the log brings it back")
	return nil
}

// editTop are the lines above the list, editFoot those below.
const editTop, editFoot = 1, 3

func (e *prepEdit) room() int { return max(1, e.h-editTop-editFoot) }

// View draws the steps and what the marked one has.
func (e *prepEdit) View() []string {
	p, all := &e.st.Palette, e.steps()
	lines := []string{p.Paint(draw.Dim, draw.Fit("      step                      kind                 comes after", e.w))}
	first, last := e.list.window(len(all), e.room())
	for i := first; i < last; i++ {
		lines = append(lines, e.line(all[i], i))
	}
	lines = append(draw.Box(lines, e.w, e.h-editFoot), draw.Rule("", e.w, e.st.ASCII))
	s, ok := e.marked()
	if !ok {
		return append(lines, p.Paint(draw.Warn, " the list is empty: 1 adds steps, Esc leaves it so"))
	}
	return append(lines, draw.Box(wrapped(e.st, e.w, draw.Dim, s.Text+" Source: "+s.Source+".", 2), e.w, 2)...)
}

func (e *prepEdit) line(s prep.Step, i int) string {
	mark, tone := "  ", draw.Plain
	if i == e.list.at {
		mark, tone = e.st.Signs.Here+" ", draw.Marked
	}
	kind := string(s.Kind)
	if s.Count > 0 {
		kind += fmt.Sprintf(" %d", s.Count)
	}
	if limits := s.Limits(); limits != "" {
		kind = limits
	}
	var before []string
	for _, id := range s.NotBefore {
		b, _, _ := e.steps().Find(id)
		before = append(before, b.Name)
	}
	text := fmt.Sprintf("%2d  %s %s ", i+1, draw.Fit(draw.Clean(s.Name), 25), draw.Fit(kind, 20))
	text += someNames(before, e.w-draw.Width(mark+text))
	return e.st.Palette.Paint(tone, draw.Fit(mark+e.st.Signs.Text(text), e.w))
}

// someNames lists as many names as w cells hold, and says how many more there are.
func someNames(names []string, w int) string {
	text := draw.Clean(strings.Join(names, ", "))
	for n := len(names) - 1; draw.Width(text) > w && n > 0; n-- {
		text = draw.Clean(fmt.Sprintf("%s, +%d", strings.Join(names[:n], ", "), len(names)-n))
	}
	return text
}
