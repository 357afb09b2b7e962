package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// prepForm changes one step of the prep list, or makes one of your own.
type prepForm struct {
	filling
	desk *Desk
	// was is the step as the form was opened with it.
	was, now prep.Step
}

func newPrepForm(st *Station, d *Desk, s prep.Step) *prepForm {
	x := &prepForm{filling: filling{st: st}, desk: d, was: s, now: s}
	x.form = newForm(x.rows)
	return x
}

// Title names the step.
func (x *prepForm) Title() string {
	name := x.was.Name
	if name == "" {
		name = "a step of your own"
	}
	return "prep list, " + name
}

// Actions are its keys.
func (x *prepForm) Actions() []Action {
	return append([]Action{
		on("enter", x.entering(), x.enter),
		on("f2|ctrl+s", "keep the step", x.finish).unless(x.off()).because("from any field"),
	}, x.moving(x.room(), x.leave)...)
}

// off says why the step cannot be kept yet.
func (x *prepForm) off() string { return x.standing(x.wrong) }

// wrong says why the step cannot be kept as it stands.
func (x *prepForm) wrong() string {
	if why := x.untaken(); why != "" {
		return why
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
	cmd, taken := x.takeIn()
	if taken {
		x.form.move(1)
	}
	return cmd
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
	same := x.now.Name == x.was.Name && x.now.Kind == x.was.Kind && x.now.Count == x.was.Count && x.now.Limits() == x.was.Limits() &&
		slices.Equal(x.now.Places, x.was.Places) && slices.Equal(x.now.Choices, x.was.Choices)
	return x.filling.leave(same, "leaves the step as it was; what was changed here is dropped")
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
	lines = append(lines, x.st.Palette.Paint(draw.Frame, draw.Rule(x.form.scrolled(), x.w, x.st.ASCII)))
	lines = append(lines, draw.Box(wrapped(x.st, x.w, draw.Dim, x.form.here().purpose(), 2), x.w, 2)...)
	tone, text := draw.Good, "F2 keeps the step"
	if why := x.off(); why != "" {
		tone, text = draw.Warn, "not yet: "+why
	}
	return append(lines, wrapped(x.st, x.w, tone, text, 1)...)
}
