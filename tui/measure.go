package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// measure steps the hand from place to place and shows at once what each
// reading does.
type measure struct {
	st   *Station
	desk *Desk
	// place is where the next reading goes; justTaken where the last one went.
	place, justTaken plan.Place
	// ledTo is where taking the last reading led; while the hand is there, what
	// came of the feature that is left stays in sight.
	ledTo plan.Place
	// returnTo is where the hand was when it went back to add a repeat.
	returnTo plan.Place
	// again are the places to be read again after this one, agains how many
	// they were with it and those before.
	again  []plan.Place
	agains int
	// clearing says that the hand is led through what is in doubt until nothing is.
	clearing bool
	// blindFrom is where the hand goes on after a blind repeat at the place; none
	// while it is not one.
	blindFrom plan.Place
	keys      keying.State
	// sizeLarge shows the size large where the dial reads clearance.
	sizeLarge bool
	// awaiting are the readings for which the bell has not rung yet.
	awaiting []int64
	// failed is the last event of which it was said that it is not kept.
	failed int64
	// owed says that something was kept since the bell rang last.
	owed   bool
	chosen gauge.Instrument // by the menu, until its master's size is keyed
	mixed  engine.Mixup     // what askMixup is about
	w, h   int
}

func newMeasure(st *Station, d *Desk) *measure {
	m := &measure{st: st, desk: d, place: d.Session.Resume()}
	if t, ok := d.Session.Last(); ok {
		now := st.look()
		m.justTaken, m.ledTo = t.Place(), m.place
		text := fmt.Sprintf("last kept: %s, keyed %s, %s", d.Session.PlaceName(t.Place()), t.Keyed, Ago(t.At, now))
		if !m.open() {
			text += "; " + everyPlace
		}
		st.Say(draw.Plain, text)
		m.askStale(now)
	}
	return m
}

// Init needs nothing.
func (m *measure) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (m *measure) Resize(w, h int) { m.w, m.h = w, h }

// Title names the session.
func (m *measure) Title() string { return m.desk.Title() }

func (m *measure) session() *Desk { return m.desk }

// Typing takes digits, point and signs; labels are asked for with letters too.
func (m *measure) Typing() Typing {
	if m.keys.Asking.What == keying.AskGoTo {
		return Words
	}
	return Numbers
}

// Update takes a token of the keypad, an outcome, or where to go.
func (m *measure) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case term.Token:
		m.step(msg)
	case Outcome:
		m.hear(msg)
	case goTo:
		m.keys = keying.State{} // it was of another place
		m.goToPlace(msg)
	case measureAgain:
		m.keys = keying.State{}
		m.startAgain(msg.places)
	case returned:
		m.stay()
	}
	return nil
}

// stay keeps to the place after another screen was on top, and to what is being
// keyed there, unless the setup took it out of the plan. The menu is closed.
func (m *measure) stay() {
	s := m.desk.Session
	gone := !slices.Contains(s.Places(), m.place)
	if gone || m.keys.At == keying.Menu {
		m.keys = keying.State{}
	}
	if gone {
		m.move(s.Resume())
	}
	if !slices.Contains(s.Places(), m.justTaken) {
		m.justTaken = plan.Place{}
	}
	if m.keys.At == keying.Empty && m.keys.Asking.What == "" && s.Warmed(m.place.Of.Family) != "" {
		m.askStale(m.st.look())
	}
}

// goToPlace goes where a screen above asked for.
func (m *measure) goToPlace(g goTo) {
	s := m.desk.Session
	for _, p := range s.Plan().Places(g.of) {
		if p.Level == g.place.Level && (g.place.Dir == "" || p.Dir == g.place.Dir) {
			m.move(p)
			return
		}
	}
	if p := s.Enter(g.of); !p.IsZero() {
		m.move(p)
	}
}

// hear rings the bell for readings that are kept, and says when keeping fails.
func (m *measure) hear(o Outcome) {
	if o.UID != m.desk.UID() {
		return
	}
	if o.Err != nil {
		m.st.Say(draw.Bad, fmt.Sprintf("NOT KEPT, still on screen: %v", o.Err))
		if o.Last > m.failed { // it is tried again and again
			m.failed = o.Last
			m.st.Ring(2)
		}
		return
	}
	left := m.awaiting[:0]
	for _, n := range m.awaiting {
		if n > m.desk.Kept {
			left = append(left, n)
		}
	}
	m.owed = m.owed || len(left) < len(m.awaiting)
	m.awaiting = left
	if m.failed > 0 && m.desk.Pending() > 0 {
		return
	}
	if m.failed > 0 {
		m.failed = 0
		m.st.Say(draw.Good, "kept again: everything on screen")
	}
	if m.owed {
		m.owed = false
		m.st.Ring(1)
	}
}

// limitBar is the size limits of a feature as the bar wants them.
type limitBar struct {
	low, high, target *float64
	lowText, highText string
}

// sizeLimits returns the limits that judge a feature's size.
func (d *Desk) sizeLimits(f plan.Feature) (b limitBar, ok bool) {
	l, ok := limit.Find(d.Session.Limits(), limit.Size, f)
	if !ok {
		return b, false
	}
	r := l.Effective().Range(l.JudgedBy(d.Session.Rules().Judge))
	u := d.Session.Unit()
	b.low, b.lowText = barEnd(r.Low, u)
	b.high, b.highText = barEnd(r.High, u)
	b.target, _ = barEnd(l.Target, u)
	return b, b.low != nil || b.high != nil
}

func barEnd(w length.Written, u length.Unit) (*float64, string) {
	if w.IsZero() {
		return nil, ""
	}
	v := w.Exact().Float()
	if w.Unit != u {
		return &v, engine.LimitText(w, u)
	}
	return &v, w.Exact().Format(u, u.Decimals())
}
