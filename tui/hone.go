package tui

import (
	"fmt"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/fit"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// hone counts the honing of a bore down while it is honed: strokes and size are
// keyed, and it shows what is left. Nothing of it is an event until the bore is
// said to be honed.
type hone struct {
	st     *Station
	desk   *Desk
	bore   plan.Feature
	target length.Exact
	// place is where the bore is smallest: there the size is read.
	place  plan.Place
	passes []fit.Pass
	// asks is what is keyed next, strokes those keyed for the size to come.
	asks    honeAsks
	strokes int
	warmer  float64
	keyed   numberText
	held    *gauge.Result
	w, h    int
}

// honeAsks is what is keyed next.
type honeAsks uint8

// What the countdown asks for.
const (
	askStrokes honeAsks = iota
	askSize
	askWarm
)

// newHone begins at the smallest place of a bore as it is read; without a
// target it counts to the bore's own.
func newHone(st *Station, d *Desk, bore plan.Feature, target length.Exact) *hone {
	s := &hone{st: st, desk: d, bore: bore, target: target}
	if !target.Measured() {
		s.target = d.Session.HoneTarget(bore)
	}
	var least length.Exact
	for _, p := range d.Session.Plan().Places(bore) {
		size := d.Session.Figure(p, d.Session.Stage(bore))
		if s.place.IsZero() || size.Measured() && (!least.Measured() || size.Cmp(least) < 0) {
			s.place, least = p, size
		}
	}
	if least.Measured() {
		s.passes = []fit.Pass{{Size: least}}
	} else {
		s.asks = askSize
	}
	return s
}

// Init needs nothing.
func (s *hone) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *hone) Resize(w, h int) { s.w, s.h = w, h }

// Title names the bore.
func (s *hone) Title() string { return "honing " + s.desk.Session.Name(s.bore) }

// Typing takes digits, point and signs.
func (s *hone) Typing() Typing { return Numbers }

// Update takes what is keyed.
func (s *hone) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case term.Token:
		s.key(msg)
	case honed:
		s.st.Pop(goTo{of: s.bore})
	}
	return nil
}

// honed tells the countdown that the work is recorded.
type honed struct{}

// Actions are the keys of the countdown.
func (s *hone) Actions() []Action {
	none := ""
	if len(s.passes) < 2 {
		none = "no strokes were keyed yet"
	}
	return []Action{
		on("enter", "take it", s.enter).because("first the strokes since the last size, then the size as the gauge shows it"),
		{Keys: []string{"*"}, Help: s.starHelp(), Why: "says by how many °C the bore is warmer than the gauge's master; it holds until it is keyed again. A held size is kept as keyed"},
		{Keys: []string{"/"}, Help: "take back", Why: "clears what is being keyed, else takes the last size back"},
		on("h", "it is honed", s.ready).unless(none).
			because("records that the bore was honed, once you say so: then it is measured again, and what was read before is as found"),
	}
}

func (s *hone) starHelp() string {
	if s.held != nil {
		return "keep as keyed"
	}
	return "bore is warm"
}

// key takes a character of the keypad.
func (s *hone) key(t term.Token) {
	switch {
	case s.held != nil && t.Kind == term.Star:
		s.take(s.held.Meaning.At)
	case s.held != nil && t.Kind != term.Slash:
		s.refuse("it is held: * keeps it as keyed, / clears it")
	case t.Kind == term.Star && s.keyed.text == "":
		s.asks = askWarm
	case t.Kind == term.Slash && s.keyed.text == "":
		s.back()
	default:
		s.held = nil
		next, refused := s.keyed.key(t)
		if refused != "" {
			s.refuse(refused)
			return
		}
		s.st.Hush()
		s.keyed = next
	}
}

func (s *hone) refuse(why string) {
	s.st.Say(draw.Warn, why)
	s.st.Ring(2)
}

// back takes the last strokes or the last size back.
func (s *hone) back() {
	switch {
	case s.asks == askWarm || s.asks == askSize && len(s.passes) > 0:
		s.asks = askStrokes
	case len(s.passes) > 1:
		s.passes = s.passes[:len(s.passes)-1]
		s.st.Say(draw.Plain, "the last size is taken back")
	}
}

// enter takes what is keyed.
func (s *hone) enter() tea.Cmd {
	switch {
	case s.held != nil:
		s.refuse("it is held: * keeps it as keyed, / clears it")
	case s.keyed.text == "":
	case s.asks == askStrokes:
		s.takeStrokes()
	case s.asks == askWarm:
		s.takeWarmth()
	default:
		s.takeSize()
	}
	return nil
}

// mostStrokes is how many strokes are believed between two sizes.
const mostStrokes = 10_000

func (s *hone) takeStrokes() {
	n, err := strconv.Atoi(s.keyed.text)
	if err != nil || n < 1 || n > mostStrokes || !isNumber(s.keyed.text) {
		s.refuse(fmt.Sprintf("strokes are a whole number from 1 to %d, not %s", mostStrokes, s.keyed.text))
		return
	}
	s.strokes, s.asks, s.keyed = n, askSize, numberText{}
}

func (s *hone) takeWarmth() {
	if err := gauge.CheckTemperature(s.keyed.text); err != nil {
		s.refuse(err.Error())
		return
	}
	d, err := length.ParseDecimal(s.keyed.text)
	if err != nil {
		s.refuse(err.Error())
		return
	}
	s.warmer, _ = strconv.ParseFloat(d.String(), 64)
	s.keyed, s.asks = numberText{}, askStrokes
	if n := len(s.passes); n > 1 {
		s.passes[n-1].Warmer = s.warmer
	}
}

// takeSize reads a size as the bore's gauge shows it.
func (s *hone) takeSize() {
	c, err := s.desk.reads(s.place)
	if err != nil {
		w, err := length.Parse(s.keyed.text, s.desk.Session.Unit())
		if err != nil {
			s.refuse(err.Error())
			return
		}
		s.take(w.Length)
		return
	}
	switch r := gauge.Read(s.keyed.text, c); r.Kind {
	case gauge.Taken:
		s.take(r.Meaning.At)
	case gauge.Held:
		s.held = &r
		s.st.Say(draw.Warn, "HELD: "+r.Reason+prefixedBy("; probably meant: ", r.Likely))
		s.st.Ring(2)
	default:
		s.refuse(r.Reason)
	}
}

func prefixedBy(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

// take takes a size.
func (s *hone) take(size length.Length) {
	s.passes = append(s.passes, fit.Pass{Strokes: s.strokes, Size: length.Of(size), Warmer: s.warmer})
	s.held, s.keyed, s.strokes, s.asks = nil, numberText{}, 0, askStrokes
	s.st.Hush()
	s.st.Ring(1)
}

// count is where the countdown stands.
func (s *hone) count() fit.Countdown {
	return s.desk.Session.HoneCount(s.bore, s.target, s.passes)
}

// ready asks whether the bore is to be recorded as honed.
func (s *hone) ready() tea.Cmd {
	session := s.desk.Session
	work := session.WorkOf(engine.Change{Did: engine.Hone, Of: s.bore, Size: session.Written(s.target)})
	if !s.target.Measured() {
		work.Amount = ""
	}
	lines := []string{draw.Clean(session.Name(s.bore)) + " is honed; it is measured again now"}
	for _, f := range work.Changes[1:] {
		lines = append(lines, draw.Clean(session.Name(f))+" is read again: the bore under it changed")
	}
	s.st.Push(&sure{st: s.st, title: "honed", asks: "Record this work?", lines: lines, done: honed{}, do: func() error {
		return s.desk.Record(record.Body(work))
	}})
	return nil
}
