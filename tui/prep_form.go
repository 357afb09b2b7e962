package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// prepForm changes one step of the prep list, or makes one of your own.
type prepForm struct {
	st   *Station
	desk *Desk
	// was is the step as the form was opened with it.
	was, now prep.Step
	form     *form
	w, h     int
}

func newPrepForm(st *Station, d *Desk, s prep.Step) *prepForm {
	x := &prepForm{st: st, desk: d, was: s, now: s}
	x.form = newForm(x.rows)
	return x
}

// Init needs nothing.
func (x *prepForm) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (x *prepForm) Resize(w, h int) { x.w, x.h = w, h }

// Title names the step.
func (x *prepForm) Title() string {
	name := x.was.Name
	if name == "" {
		name = "a step of your own"
	}
	return "prep list, " + name
}

// Typing says what the field in focus takes.
func (x *prepForm) Typing() Typing { return x.form.here().typing() }

// Update takes a key that no action took.
func (x *prepForm) Update(msg tea.Msg) tea.Cmd {
	t, ok := msg.(term.Token)
	if !ok {
		return nil
	}
	x.st.Hush()
	if refused := x.form.key(t); refused != "" {
		x.refuse(refused)
	}
	return nil
}

func (x *prepForm) refuse(why string) {
	x.st.Say(draw.Warn, why)
	x.st.Ring(2)
}

// Actions are its keys.
func (x *prepForm) Actions() []Action {
	enter := "next field"
	if x.form.here().kind == buttonField {
		enter = "press"
	}
	out := []Action{
		on("enter", enter, x.enter),
		on("f2|ctrl+s", "keep the step", x.finish).unless(x.off()).because("from any field"),
	}
	out = append(out, x.form.changeKeys()...)
	out = append(out, x.form.moveKeys(x.room())...)
	return append(out, quiet(on("esc", "back", x.leave)).because("first takes back what is keyed in the field"))
}

// off says why the step cannot be kept yet.
func (x *prepForm) off() string {
	if x.form.pending() {
		return ""
	}
	return x.wrong()
}

// wrong says why the step cannot be kept as it stands.
func (x *prepForm) wrong() string {
	for _, b := range x.form.bad {
		return b.why
	}
	if strings.TrimSpace(x.now.Name) == "" {
		return "the step has no name yet"
	}
	l, err := x.desk.Session.Prep().List().Set(x.now)
	if err == nil {
		err = x.desk.Session.Check(record.Steps{List: l})
	}
	if err != nil {
		return err.Error()
	}
	return ""
}

// enter takes the field in and goes on, or presses the button.
func (x *prepForm) enter() tea.Cmd {
	x.form.armed = false
	here := x.form.here()
	if here.kind == buttonField {
		return here.press()
	}
	if !x.form.commit() {
		x.refuse(x.form.bad[here.id].why)
		return nil
	}
	x.form.move(1)
	return nil
}

// finish keeps the step and leaves.
func (x *prepForm) finish() tea.Cmd {
	x.form.armed = false
	x.form.commit()
	if why := x.wrong(); why != "" {
		x.refuse(why)
		return nil
	}
	l, err := x.desk.Session.Prep().List().Set(x.now)
	if err == nil {
		err = x.desk.Record(record.Steps{List: l})
	}
	if err != nil {
		x.refuse(err.Error())
		return nil
	}
	x.st.Say(draw.Plain, x.now.Name+" is kept in the list")
	x.st.Pop(nil)
	return nil
}

// leave takes back what is keyed, else leaves: at the second press when
// something would be lost.
func (x *prepForm) leave() tea.Cmd {
	same := x.now.Name == x.was.Name && x.now.Kind == x.was.Kind && x.now.Count == x.was.Count && x.now.Limits() == x.was.Limits()
	switch {
	case x.form.pending():
		x.form.undo()
	case x.form.armed, same && len(x.form.bad) == 0 && slices.Equal(x.now.Places, x.was.Places) && slices.Equal(x.now.Choices, x.was.Choices):
		x.st.Pop(nil)
	default:
		x.form.armed = true
		x.st.Say(draw.Warn, "Esc once more leaves the step as it was; what was changed here is dropped")
	}
	return nil
}

// prepFormFoot are the lines below the rows.
const prepFormFoot = 4

func (x *prepForm) room() int { return max(1, x.h-prepFormFoot) }

// View draws the fields and what is to be said of the step.
func (x *prepForm) View() []string {
	says := func(id string) said {
		if b, bad := x.form.bad[id]; bad {
			return said{b.why, draw.Bad}
		}
		return said{}
	}
	lines := draw.Box(x.form.view(x.st, x.w, x.room(), says), x.w, x.room())
	lines = append(lines, x.st.Palette.Paint(draw.Frame, draw.Rule(x.form.scrolled(x.room()), x.w, x.st.ASCII)))
	lines = append(lines, draw.Box(wrapped(x.st, x.w, draw.Dim, x.form.here().why, 2), x.w, 2)...)
	tone, text := draw.Good, "F2 keeps the step"
	if why := x.off(); why != "" {
		tone, text = draw.Warn, "not yet: "+why
	}
	return append(lines, wrapped(x.st, x.w, tone, text, 1)...)
}
