package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
	"borewright/tui/term"
)

// filling is what all screens of fields to be filled in have: the form, its
// room, and what its keys do whatever the form is of.
type filling struct {
	st   *Station
	form *form
	w, h int
}

// Init needs nothing.
func (s *filling) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *filling) Resize(w, h int) { s.w, s.h = w, h }

// Typing says what the field in focus takes.
func (s *filling) Typing() Typing { return s.form.here().typing() }

// Update takes a key that no action took.
func (s *filling) Update(msg tea.Msg) tea.Cmd {
	t, ok := msg.(term.Token)
	if !ok {
		return nil
	}
	s.st.Hush()
	if refused := s.form.key(t); refused != "" {
		s.refuse(refused)
	}
	return nil
}

func (s *filling) refuse(why string) {
	s.st.Say(draw.Warn, why)
	s.st.Ring(2)
}

// fail says what went wrong when the form was kept.
func (s *filling) fail(err error) {
	s.st.Say(draw.Bad, err.Error())
	s.st.Ring(2)
}

// entering is what Enter is called where the field in focus may be a button.
func (s *filling) entering() string {
	if s.form.here().kind == buttonField {
		return "press"
	}
	return "next field"
}

// takeIn takes in what is keyed, or presses the button. What cannot be taken
// stays as keyed; taken says that the hand may go on to the next field.
func (s *filling) takeIn() (cmd tea.Cmd, taken bool) {
	s.form.armed = false
	here := s.form.here()
	if here.kind == buttonField {
		return here.press(), false
	}
	if !s.form.commit() {
		s.refuse(s.form.bad[here.id].why)
		return nil, false
	}
	return nil, true
}

// standing says why a form cannot be kept: wrong's reason, which is not asked
// for while something is keyed that has not been taken in.
func (s *filling) standing(wrong func() string) string {
	if s.form.pending() {
		return ""
	}
	return wrong()
}

// untaken says why the first field that could not be taken in could not.
func (s *filling) untaken() string {
	for _, r := range s.form.rows {
		for _, f := range r.fields {
			if b, bad := s.form.bad[f.id]; bad {
				return b.why
			}
		}
	}
	return ""
}

// leave takes back what is keyed, else leaves: at the second press when
// something would be lost, which the warning says.
func (s *filling) leave(same bool, warning string) tea.Cmd {
	switch {
	case s.form.pending():
		s.form.undo()
	case s.form.armed, same && len(s.form.bad) == 0:
		s.st.Pop(nil)
	default:
		s.form.armed = true
		s.st.Say(draw.Warn, "Esc once more "+warning)
	}
	return nil
}

// moving adds the keys that every form has behind those of its own.
func (s *filling) moving(room int, leave func() tea.Cmd) []Action {
	out := append(s.form.changeKeys(), s.form.moveKeys(room)...)
	return append(out, s.backKey(leave))
}

func (s *filling) backKey(leave func() tea.Cmd) Action {
	return quiet(on("esc", "back", leave)).because("first takes back what is keyed in the field")
}
