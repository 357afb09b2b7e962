package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// givens is what the fits are worked out with: targets and stock, shells on
// hand, ladders, and where parts may be. Each line opens its form.
type givens struct {
	st   *Station
	desk *Desk
	list list
	all  []givenLine
	n    int64 // events that the lines were made of
	w, h int
}

// givenLine is one line: what it is of, what is given, and its form.
type givenLine struct {
	name, text string
	open       func() Screen
}

// givensKey is the key that opens it.
func (st *Station) givensKey(d *Desk) Action {
	return on("o", "on hand", func() tea.Cmd {
		st.Push(&givens{st: st, desk: d, n: -1})
		return nil
	}).because("targets and stock, shells on hand, oversizes and undersizes, where parts may be, ring gaps, running warm, compression, fasteners")
}

// Init needs nothing.
func (s *givens) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *givens) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *givens) Title() string { return "on hand and given for " + s.desk.Title() }

// Typing takes no characters.
func (s *givens) Typing() Typing { return NotTyping }

// Update opens the line of a digit.
func (s *givens) Update(msg tea.Msg) tea.Cmd {
	t, ok := msg.(term.Token)
	if !ok || t.Kind != term.Digit {
		return nil
	}
	n := int(t.Rune - '0')
	if n < 1 || n > len(s.lines()) {
		s.st.Say(draw.Warn, fmt.Sprintf("the digits open lines 1 to %d", min(9, len(s.lines()))))
		s.st.Ring(2)
		return nil
	}
	s.list.at = n - 1
	return s.open()
}

// lines are made anew when something happened.
func (s *givens) lines() []givenLine {
	session := s.desk.Session
	if n := session.Head().N; n != s.n {
		s.n, s.all = n, nil
		for _, t := range session.GivenTopics() {
			s.all = append(s.all, givenLine{t.Name, session.GivenText(t), func() Screen { return newGivenForm(s.st, s.desk, t) }})
		}
		for _, t := range session.TableTopics() {
			s.all = append(s.all, givenLine{t.Title, session.TableText(t), func() Screen { return newTableForm(s.st, s.desk, t) }})
		}
	}
	return s.all
}

// Actions are its keys.
func (s *givens) Actions() []Action {
	none := ""
	if len(s.lines()) == 0 {
		none = "the plan has no use for any of it"
	}
	return []Action{
		on("enter", "fill in", s.open).unless(none).because("opens the marked line's form; nothing is recorded before it is kept"),
		on("1|2|3|4|5|6|7|8|9", "open by digit", nil),
		on("up|-", "up", func() tea.Cmd { return s.move(-1) }),
		on("down|+", "down", func() tea.Cmd { return s.move(1) }),
		s.st.unitKey(s.desk),
	}
}

func (s *givens) move(by int) tea.Cmd {
	s.list.move(by, len(s.lines()))
	return nil
}

func (s *givens) open() tea.Cmd {
	s.st.Hush()
	s.st.Push(s.lines()[min(s.list.at, len(s.lines())-1)].open())
	return nil
}

// givenName is the width of a line's name.
const givenName = 29

// View lists what is given, and all that is given of the marked line below.
func (s *givens) View() []string {
	p := &s.st.Palette
	const foot = 4
	lines := []string{p.Paint(draw.Dim, draw.Fit("      what the fits are worked out with; the maker's figures govern", s.w))}
	first, last := s.list.window(len(s.lines()), max(1, s.h-1-foot))
	var rows []string
	for i := first; i < last; i++ {
		x, mark, tone := s.all[i], " ", draw.Plain
		if i == s.list.at {
			mark, tone = s.st.Signs.Here, draw.Marked
		}
		digit := " "
		if i < 9 {
			digit = fmt.Sprint(i + 1)
		}
		text, dim := x.text, draw.Plain
		if text == "" {
			text, dim = "nothing is given", draw.Dim
		}
		if few := draw.SomeClauses(s.st.Signs.Text(draw.Clean(text)), s.w-givenName-7, 1); len(few) > 0 {
			text = few[0]
		}
		rows = append(rows, " "+p.Paint(tone, mark)+" "+p.Paint(draw.Key, digit)+"  "+p.Paint(tone, draw.Fit(x.name, givenName))+" "+
			p.Paint(dim, text))
	}
	lines = append(lines, draw.Box(rows, s.w, max(1, s.h-1-foot))...)
	lines = append(lines, draw.Rule("", s.w, s.st.ASCII))
	if len(s.all) == 0 {
		return append(lines, make([]string, foot-1)...)
	}
	return append(lines, draw.Box(wrapped(s.st, s.w, draw.Plain, s.all[s.list.at].name+": "+s.all[s.list.at].text, foot-1), s.w, foot-1)...)
}

// newGivenForm asks for the figures of a topic.
func newGivenForm(st *Station, d *Desk, t engine.GivenTopic) *entry {
	now := make([]string, len(t.Fields))
	for i, f := range t.Fields {
		now[i] = d.Session.GivenValue(f.Name, f.Of)
	}
	was := append([]string(nil), now...)
	bodies := func() []record.Body {
		var out []record.Body
		for i, f := range t.Fields {
			if now[i] != was[i] {
				out = append(out, d.Session.GivenBodies(f.Name, f.Of, now[i])...)
			}
		}
		return out
	}
	unit := torqueUnit(d.Session.Unit(), was...)
	rows := func() []row {
		var out []row
		for i, f := range t.Fields {
			if n := len(out); n > 0 && f.Label == out[n-1].label {
				out[n-1].fields = append(out[n-1].fields, givenField(d, i, f, &now[i], unit))
				continue
			}
			if f.Heading != "" {
				out = append(out, row{heading: f.Heading})
			}
			x := row{label: f.Label, labelWide: 32, fields: []field{givenField(d, i, f, &now[i], unit)}}
			if around := d.Session.GivenAround(f.Name, f.Of); around != "" && now[i] == "" {
				x.note = "as of all: " + around
			}
			out = append(out, x)
		}
		if slices.ContainsFunc(t.Fields, func(f engine.GivenField) bool { return f.Kind == engine.GivenFigure }) {
			out = append(out, torqueRow(&unit, 32))
		}
		return out
	}
	return &entry{
		filling: filling{st: st, form: newForm(rows)}, title: t.Name,
		wrong:   func() string { return faultText(d.Session.CheckAll(bodies()...)) },
		changed: func() bool { return len(bodies()) > 0 },
		hint:    func() string { return "the fits follow at once; " },
		keep: func() error {
			b := bodies()
			if len(b) == 0 {
				return nil
			}
			st.Say(draw.Plain, t.Name+": kept")
			return d.Record(b...)
		},
	}
}

// givenField is the field of one figure; unit belongs behind a torque.
func givenField(d *Desk, i int, f engine.GivenField, text *string, unit string) field {
	id := fmt.Sprintf("given.%d", i)
	switch f.Kind {
	case engine.GivenNumber:
		return decimalOf(id, f.Why, text)
	case engine.GivenFigure:
		x := wordsOf(id, f.Why, mostName, text)
		x.wide, x.behind = 12, unit
		return x
	default:
		return lengthTextOf(id, f.Why, d, text)
	}
}

// lengthTextOf is a field of a length kept as text with its unit.
func lengthTextOf(id, why string, d *Desk, text *string) field {
	unit := d.Session.Unit()
	x := field{
		id: id, kind: numberField, wide: 12, unit: unit, why: why,
		get: func() string {
			w, err := readLength(*text, unit)
			if err != nil {
				return *text
			}
			return showLength(w, unit)
		},
	}
	x.set = func(t string) error {
		w, err := readLength(t, unit)
		if err != nil {
			return err
		}
		*text = ""
		if t != "" {
			*text = w.String()
		}
		return nil
	}
	return x
}
