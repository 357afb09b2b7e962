package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// loadShop reads what the shop has, away from the screen.
func (st *Station) loadShop() tea.Cmd {
	book := st.Book
	return ask(0, func() (engine.Shop, error) {
		events, err := book.Load(record.ShopUID)
		return engine.ReadShop(events), err
	})
}

// shelved is what is known of the shop: nothing until it is read.
type shelved struct {
	st   *Station
	shop engine.Shop
	off  string // why nothing can be kept there or taken from it, or ""
}

func newShelved(st *Station) shelved { return shelved{st: st, off: "the shop is being read"} }

// take takes in what was read.
func (s *shelved) take(a answer[engine.Shop]) {
	s.shop, s.off = a.value, ""
	if a.err != nil {
		s.off = "the shop cannot be read: " + a.err.Error()
	}
}

// keep keeps an instrument, which was called was, in the shop.
func (s *shelved) keep(i gauge.Instrument, was string) error {
	kept := s.shop.Keeping(i, was)
	sealed, err := s.st.Book.Keep(record.ShopUID, s.st.event(record.Instrument{Instrument: kept}))
	if err != nil {
		return err
	}
	s.shop = s.shop.With(kept, sealed[len(sealed)-1].N)
	return nil
}

// drop takes an instrument off the shop's shelf.
func (s *shelved) drop(i gauge.Instrument) error {
	var events []record.Event
	for _, b := range s.shop.OutOfUse(i) {
		events = append(events, s.st.event(b))
	}
	if _, err := s.st.Book.Keep(record.ShopUID, events...); err != nil {
		return err
	}
	s.shop = s.shop.Without(i)
	return nil
}

// follow keeps an instrument in the shop where the shop has it.
func (s *shelved) follow(i gauge.Instrument, was string) error {
	if _, has := s.shop.Named(was); s.off != "" || !has {
		return nil
	}
	return s.keep(i, was)
}

// shopScreen lists the shop's gauges, to be copied into the session.
type shopScreen struct {
	st   *Station
	desk *Desk
	shop *shelved
	list list
	w, h int
}

// fetched tells the screen beneath which instrument was copied into the session.
type fetched struct{ id string }

// Init needs nothing.
func (s *shopScreen) Init() tea.Cmd { return nil }

// Update takes nothing.
func (s *shopScreen) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *shopScreen) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *shopScreen) Title() string { return "the shop's gauges" }

// Typing takes no characters.
func (s *shopScreen) Typing() Typing { return NotTyping }

// Actions are its keys.
func (s *shopScreen) Actions() []Action {
	none := ""
	if len(s.all()) == 0 {
		none = "the shop has no gauge yet: k on the gauges of a session keeps one there"
	}
	return []Action{
		on("enter", "take it", s.take).unless(none).
			because("copies it into this session and takes it up for what the hand is reading; what is changed here later is the session's own"),
		on("x", "out of use", s.outOfUse).unless(none).
			because("takes the marked gauge off the shop's shelf, after asking: no new session is offered it, sessions that have it keep theirs"),
		quiet(on("up|-", "up", func() tea.Cmd { s.list.move(-1, len(s.all())); return nil })),
		quiet(on("down|+", "down", func() tea.Cmd { s.list.move(1, len(s.all())); return nil })),
	}
}

// all are the shop's gauges.
func (s *shopScreen) all() []gauge.Instrument { return s.shop.shop.Instruments }

// marked is the marked gauge; there is one.
func (s *shopScreen) marked() gauge.Instrument { return s.all()[min(s.list.at, len(s.all())-1)] }

// outOfUse asks whether the marked gauge shall go, and takes it off the shelf.
func (s *shopScreen) outOfUse() tea.Cmd {
	i := s.marked()
	s.st.Push(&confirm{
		st: s.st, title: "out of use",
		question: []string{"Take " + draw.Clean(i.Name) + " off the shop's shelf?", "No new session is offered it. Sessions that have it keep theirs."},
		yes:      "it is out of use", no: "leave it there",
		do: func() tea.Cmd {
			if err := s.shop.drop(i); err != nil {
				s.st.Say(draw.Bad, err.Error())
				s.st.Ring(2)
				return nil
			}
			s.list.move(0, len(s.all()))
			s.st.Say(draw.Plain, i.Name+" is off the shop's shelf; k on the gauges of a session that has it keeps it there again")
			return nil
		},
	})
	return nil
}

// take copies the marked gauge into the session.
func (s *shopScreen) take() tea.Cmd {
	i := s.desk.Session.Copying(s.marked())
	if err := s.desk.Record(record.Instrument{Instrument: i}); err != nil {
		s.st.Say(draw.Bad, err.Error())
		s.st.Ring(2)
		return nil
	}
	s.st.Pop(fetched{i.ID})
	return nil
}

// View draws the list.
func (s *shopScreen) View() []string {
	all := s.all()
	if len(all) == 0 {
		return wrapped(s.st, s.w, draw.Dim, "the shop has no gauge yet: k on the gauges of a session keeps one there", 2)
	}
	first, last := s.list.window(len(all), s.h)
	var lines []string
	for n := first; n < last; n++ {
		lines = append(lines, s.line(all[n], n == s.list.at))
	}
	return lines
}

// line is one gauge: its name, its kind and its mark, and whether it is due.
func (s *shopScreen) line(i gauge.Instrument, here bool) string {
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = s.st.Signs.Here+" ", draw.Marked
	}
	right, due := []string{i.Kind}, draw.Dim
	if !i.Graduation.IsZero() {
		right = append(right, "mark "+i.Graduation.String())
	}
	if i.PastDue(s.st.look()) {
		right, due = append(right, "calibration was due "+i.Due), draw.Warn
	}
	text := " " + draw.Clean(strings.Join(right, ", ")) + " "
	return s.st.Palette.Paint(tone, draw.Fit(mark+s.st.Signs.Text(draw.Clean(i.Name)), max(0, s.w-draw.Width(text)))) + s.st.Palette.Paint(due, draw.Cut(text, s.w))
}
