package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// entry is a short form whose fields become an event or two when they are kept.
type entry struct {
	filling
	title string
	// wrong says why it cannot be kept as it stands, changed whether leaving
	// would lose something, keep records it, and hint says more below the fields.
	wrong   func() string
	changed func() bool
	keep    func() error
	hint    func() string
}

// Title says what is filled in.
func (s *entry) Title() string { return s.title }

// Actions are its keys.
func (s *entry) Actions() []Action {
	return append([]Action{
		on("enter", "next field", s.enter),
		on("f2|ctrl+s", "keep it", s.finish).unless(s.off()).because("from any field; nothing is recorded before"),
	}, s.moving(s.room(), s.leave)...)
}

// off says why it cannot be kept yet. While something is keyed that has not been
// taken in it may.
func (s *entry) off() string { return s.standing(s.why) }

// why says what is wrong with it: a field that could not be taken in first.
func (s *entry) why() string {
	if why := s.untaken(); why != "" {
		return why
	}
	return s.wrong()
}

// enter takes the field in and goes on; behind the last one it keeps it.
func (s *entry) enter() tea.Cmd {
	before := s.form.focus
	if cmd, taken := s.takeIn(); !taken {
		return cmd
	}
	s.form.move(1)
	if s.form.focus == before {
		return s.finish()
	}
	return nil
}

// finish keeps it and leaves.
func (s *entry) finish() tea.Cmd {
	s.form.armed = false
	s.form.commit()
	if why := s.why(); why != "" {
		s.refuse(why)
		return nil
	}
	if err := s.keep(); err != nil {
		s.fail(err)
		return nil
	}
	s.st.Pop(nil)
	return nil
}

// leave takes back what is keyed, else leaves: at the second press when
// something would be lost.
func (s *entry) leave() tea.Cmd {
	return s.filling.leave(!s.changed(), "leaves; what was changed here is dropped")
}

// entryFoot are the lines below the fields: a rule, what the field in focus is
// for, and how it stands.
const entryFoot = 7

func (s *entry) room() int { return max(1, s.h-entryFoot) }

// View draws the fields and what is to be said of the one in focus.
func (s *entry) View() []string {
	says := func(id string) said {
		if b, bad := s.form.bad[id]; bad {
			return said{b.why, draw.Bad}
		}
		return said{}
	}
	lines := draw.Box(s.form.view(s.st, s.w, s.room(), says), s.w, s.room())
	lines = append(lines, s.st.Palette.Paint(draw.Frame, draw.Rule(s.form.scrolled(), s.w, s.st.ASCII)))
	why := s.form.here().purpose()
	high := max(2, min(len(draw.Wrap(why, s.w-2)), entryFoot-3))
	lines = append(lines, draw.Box(wrapped(s.st, s.w, draw.Dim, why, high), s.w, high)...)
	return append(lines, draw.Box(s.stands(), s.w, entryFoot-1-high)...)
}

// stands says what is wrong, or what keeping it would do.
func (s *entry) stands() []string {
	if s.form.pending() {
		return wrapped(s.st, s.w, draw.Dim, "Enter takes it in, Esc takes it back", 1)
	}
	if why := s.why(); why != "" {
		return wrapped(s.st, s.w, draw.Warn, "not yet: "+why, 3)
	}
	return wrapped(s.st, s.w, draw.Good, s.hint()+"F2 keeps it", 3)
}
