package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// Actions are the keys of the fits.
func (s *fits) Actions() []Action {
	r, some := s.marked()
	none, untried, bore, target := "", "", "", ""
	if !some {
		none = "there is nothing on this page"
	}
	nowhere := none
	if some && r.of.IsZero() {
		nowhere = "this is measured at no place of the plan"
	}
	if len(s.changes) == 0 && !s.target.Measured() {
		untried = "nothing is tried"
	}
	if r.of.Family != plan.Bore || s.here().name != boresPage {
		bore = "mark a bore on the page of bores"
	}
	if target = bore; bore == "" && s.keyed.text == "" {
		target = "key the size first"
	}
	return []Action{
		on("enter", "try it", s.enter).unless(none).
			because("tries what is keyed at the marked row, and every clearance follows; nothing is recorded"),
		{Keys: []string{"*"}, Help: "best", Why: "tries what is best of all on this page"},
		{Keys: []string{"/"}, Help: "take back", Why: "clears what is being keyed, else all that is tried"},
		on("tab|right", "page", func() tea.Cmd { return s.turn(1) }),
		quiet(on("shift+tab|left", "page before", func() tea.Cmd { return s.turn(-1) })),
		quiet(on("up", "up", func() tea.Cmd { return s.move(-1) })),
		quiet(on("down", "down", func() tea.Cmd { return s.move(1) })),
		{Keys: []string{"-", "+"}, Help: "up, down", Why: "while no number is being keyed", Quiet: true},
		on("i", "decide", s.decide).unless(untried).
			because("records what is tried as intended, once you say so; it is compared with what is measured when it is done"),
		on("c", "countdown", s.countdown).unless(bore).
			because("while honing the marked bore: key strokes and size, and see what is left"),
		s.givensKey(untried != ""),
		quiet(on("t", "try as target", s.asTarget).unless(target)).
			because("takes the keyed size as the size that all bores are honed to"),
		quiet(on("g", "go to it", s.visit).unless(nowhere)).because("opens the marked feature on the measure screen"),
	}
}

// givensKey opens what is given; it leaves the footer to the decision while
// something is tried.
func (s *fits) givensKey(shown bool) Action {
	a := s.st.givensKey(s.desk)
	a.Quiet = !shown
	return a
}

// key takes a character of the keypad.
func (s *fits) key(t term.Token) {
	empty := s.keyed.text == ""
	switch {
	case t.Kind == term.Star:
		s.best()
	case t.Kind == term.Slash && empty:
		s.clear()
		s.st.Say(draw.Plain, "nothing is tried any more")
	case t.Kind == term.Minus && empty:
		s.move(-1)
	case t.Kind == term.Plus && empty:
		s.move(1)
	default:
		next, refused := s.keyed.key(t)
		if refused != "" {
			s.refuse(refused)
			return
		}
		s.st.Hush()
		s.keyed = next
	}
}

// best tries what is best on the page.
func (s *fits) best() {
	if len(s.here().best) == 0 {
		s.st.Say(draw.Plain, "there is nothing better to try on this page")
		return
	}
	s.st.Hush()
	s.try(s.here().best...)
}

// enter tries what is keyed at the marked row; where nothing is keyed, what is
// best for it.
func (s *fits) enter() tea.Cmd {
	r, _ := s.marked()
	changes := r.best
	if s.keyed.text != "" {
		var err error
		if changes, err = s.here().read(r, s.keyed.text); err != nil {
			s.refuse(err.Error())
			return nil
		}
	}
	if len(changes) == 0 {
		s.st.Say(draw.Plain, s.here().asks(r))
		return nil
	}
	s.try(changes...)
	return nil
}

// asTarget takes the keyed size as the hone target.
func (s *fits) asTarget() tea.Cmd {
	w, err := s.readSize(plan.Bore, s.keyed.text)
	if err != nil {
		s.refuse(err.Error())
		return nil
	}
	s.target, s.n, s.keyed = w.Exact(), -1, numberText{}
	return nil
}

// visit goes to the marked feature.
func (s *fits) visit() tea.Cmd {
	r, _ := s.marked()
	s.st.Pop(goTo{of: r.of})
	return nil
}

// countdown opens the hone countdown of the marked bore.
func (s *fits) countdown() tea.Cmd {
	r, _ := s.marked()
	s.st.Push(newHone(s.st, s.desk, r.of, s.aimOf(r.of)))
	return nil
}

// aimOf is the size that a bore is tried at, or honed to.
func (s *fits) aimOf(bore plan.Feature) length.Exact {
	for _, c := range s.changes {
		if c.Of == bore {
			return c.Size.Exact()
		}
	}
	return s.target
}

// decide asks whether what is tried is to be recorded as intended.
func (s *fits) decide() tea.Cmd {
	var lines []string
	var bodies []record.Body
	if s.target.Measured() {
		u := s.desk.Session.Unit()
		value := s.target.Format(u, u.Decimals()) + " " + u.String()
		bodies = append(bodies, s.desk.Session.TargetBody(value))
		lines = append(lines, "hone bores to "+value)
	}
	var actions []record.Action
	for _, c := range s.changes {
		actions = append(actions, c.Action())
		lines = append(lines, s.desk.Session.Tell(c))
	}
	if len(actions) > 0 {
		bodies = append(bodies, record.Intended{Actions: actions})
	}
	s.st.Push(&sure{st: s.st, title: "decide", asks: "Record this as intended?", lines: lines, done: decided{}, do: func() error {
		return s.desk.Record(bodies...)
	}})
	return nil
}

// decided tells the fits that what was tried is recorded.
type decided struct{}
