package tui

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// mostLetters is how many letters lead elsewhere, the router's with them.
const mostLetters = 16

// Actions are the letters that lead elsewhere, and the keypad's keys as the
// machine has them just now.
func (m *measure) Actions() []Action {
	keys := keying.Keys(m.keys, m.view())
	out := make([]Action, 0, len(keys)+mostLetters)
	for _, k := range keys {
		value := strings.HasPrefix(k.Key, "0-9") || strings.HasPrefix(k.Key, "+") || k.Key == "Backspace"
		out = append(out, Action{Keys: []string{k.Key}, Help: k.Does, Off: k.Off, Quiet: value})
	}
	if m.Typing() == Words { // letters are those of a label
		return out
	}
	out = append(out,
		on("w", "worst", func() tea.Cmd {
			m.st.Push(newWorst(m.st, m.desk))
			return nil
		}).because("which cylinder and which main is worst, and every finding in order"),
		on("l", "log", func() tea.Cmd {
			m.st.Push(newLog(m.st, m.desk, m.place.Of))
			return nil
		}).because("every event as it happened"),
		on("s", "setup", func() tea.Cmd {
			m.st.Push(newSetup(m.st, m.desk))
			return nil
		}).because("what is measured, with which gauges, against which limits"),
		quiet(m.st.fitsKey(m.desk, func() plan.Feature { return m.place.Of })),
		m.st.prepKey(m.desk),
		quiet(m.st.sheetKey(m.desk)),
		m.st.limitsKey(m.desk, func() plan.Feature { return m.place.Of }),
	)
	out = append(out, m.doubtKeys()...)
	out = append(out, m.st.doubtKey(m.desk, func() (engine.Finding, bool) { return m.desk.worstOf(m.place.Of) }))
	if m.keys.Text == "" { // else the letter belongs to a unit that is being keyed
		out = append(out, m.st.unitKey(m.desk))
	}
	return out
}

// shown is what stands in large digits: what is keyed, else what stands at the
// place, else the feature's worst live figure, else what was just taken.
func (m *measure) shown() (text string, tone draw.Tone) {
	switch at := keying.Where(m.keys, m.view()); {
	case at == keying.Held:
		return m.keys.Text, draw.Warn
	case m.keys.Text != "":
		return m.keys.Text, draw.Value
	case at == keying.Asked:
		return "", draw.Dim
	case at == keying.Revisit || at == keying.Repeating && len(m.desk.Session.Now(m.place)) > 0:
		return m.standing(m.place), draw.Plain
	case m.blind():
		return "", draw.Dim
	case m.showsTaken():
		if _, _, chained := m.desk.Session.Chained(m.justTaken); chained {
			return m.standing(m.justTaken), draw.Plain
		}
		if f, ok := m.worstLive(m.justTaken.Of); ok {
			return f.Value, verdictTone(f.Judgement)
		}
		return m.figureText(m.justTaken), draw.Dim
	default:
		return "", draw.Dim
	}
}

// meaning says under the large digits what they are: two or three lines.
func (m *measure) meaning(l measureLayout) []string {
	p := &m.st.Palette
	v := m.view()
	line := func(tone draw.Tone, text string) []string {
		var out []string
		for _, s := range draw.Wrap(draw.Clean(m.st.Signs.Text(text)), l.right) {
			out = append(out, p.Paint(tone, s))
		}
		return out
	}
	switch at := keying.Where(m.keys, v); at {
	case keying.Held:
		return m.heldLines(line)
	case keying.Typing:
		if m.keys.Asking.What != "" {
			return line(draw.Marked, m.keys.Asking.Title)
		}
		if echo := m.echo(); echo != "" {
			return line(draw.Value, echo)
		}
		return line(draw.Dim, keying.Prompt(m.keys, v))
	case keying.Asked:
		return line(draw.Marked, m.keys.Asking.Title)
	case keying.Repeating:
		return line(draw.Marked, "key a repeat: it is added to "+v.Reading)
	case keying.Menu:
		return line(draw.Marked, "menu")
	case keying.Revisit:
		if m.suspectAt(m.place) {
			return line(draw.Warn, "stands here, SUSPECT"+m.standsAs()+": its gauge's zero could not be believed; a new number replaces it")
		}
		return append(m.chainLines(m.place, line), line(draw.Plain, "stands here"+m.standsAs()+": a new number replaces it")...)
	default:
		return m.invitation(l.right, line)
	}
}

func (m *measure) heldLines(line func(draw.Tone, string) []string) []string {
	out := line(draw.Warn, "HELD, not taken: "+m.keys.Held.Reason)
	if likely := m.keys.Held.Likely; likely != "" {
		out = append(out, line(draw.Plain, "probably meant: "+likely)...)
	}
	return append(out, line(draw.Dim, "/ clears it; * keeps it as keyed")...)
}

// invitation says in w cells what to key, and with what. While the same gauge
// stays in the hand its name gives way to what was just taken.
func (m *measure) invitation(w int, line func(draw.Tone, string) []string) []string {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		return line(draw.Warn, err.Error()+": /5 takes one up, s opens the setup")
	}
	what, with := "key the size"+m.keyedIn(), ", with "+h.Instrument.Name
	if h.Instrument.Kind == gauge.Comparator {
		what, with = "key graduations from "+m.masterText(h)+", + is larger", "; "+h.Instrument.Name
	}
	text := what + with
	if m.blind() {
		return append(line(draw.Marked, "read this place once more, as if it were new: its figure stays"), line(draw.Dim, text)...)
	}
	if !m.showsTaken() {
		return line(draw.Dim, text)
	}
	if same := m.justTaken.Of.Family == m.place.Of.Family; same && draw.Width(text) > w {
		text = what
	}
	return append(m.takenLines(line), line(draw.Dim, text)...)
}

// takenLines say what the large digits show, and what was just taken.
func (m *measure) takenLines(line func(draw.Tone, string) []string) []string {
	if out := m.chainLines(m.justTaken, line); out != nil {
		return append(out, line(draw.Dim, "just taken: "+m.desk.Session.PlaceName(m.justTaken))...)
	}
	f, ok := m.worstLive(m.justTaken.Of)
	if !ok {
		return line(draw.Dim, "just taken: "+m.desk.Session.PlaceName(m.justTaken))
	}
	out := line(verdictTone(f.Judgement), m.liveWords(m.justTaken.Of, f))
	return append(out, line(draw.Dim, "just taken: "+m.figureText(m.justTaken)+", "+m.desk.Session.PlaceName(m.justTaken))...)
}

// showsTaken reports whether the large digits may show what was just taken: of
// the feature in the hand, or of the one whose last reading led here.
func (m *measure) showsTaken() bool {
	here := m.justTaken.Of == m.place.Of || m.ledTo == m.place
	return here && len(m.desk.Session.Now(m.justTaken)) > 0
}

// echo says in full what Enter would take.
func (m *measure) echo() string {
	c, err := m.desk.reads(m.place)
	if err != nil {
		return ""
	}
	return gauge.Echo(m.keys.Text, c)
}

// meant is the size on the bar: what is being keyed means, else what stands
// here or was just taken.
func (m *measure) meant() (length.Exact, bool) {
	s := m.desk.Session
	if m.keys.Text != "" && m.keys.Asking.What == "" {
		c, err := m.desk.reads(m.place)
		if err != nil {
			return length.Exact{}, false
		}
		r := gauge.Read(m.keys.Text, c)
		return length.Of(r.Meaning.At), !r.Meaning.IsZero()
	}
	p := m.place
	if len(s.Now(p)) == 0 || m.blind() {
		p = m.justTaken
	}
	if p.Of != m.place.Of {
		return length.Exact{}, false
	}
	x := s.Figure(p, s.Stage(p.Of))
	return x, x.Measured()
}

// listed is the menu, or the choices of a question; nil when neither is open.
func (m *measure) listed() []string {
	p := &m.st.Palette
	v := m.view()
	var out []string
	switch keying.Where(m.keys, v) {
	case keying.Menu:
		for _, k := range keying.Keys(m.keys, v) {
			text := k.Does
			if k.Off != "" {
				text = p.Paint(draw.Dim, k.Does+" (off: "+k.Off+")")
			}
			out = append(out, " "+p.Paint(draw.Key, draw.Fit(k.Key, 8))+" "+text)
		}
		return out
	default:
		for i, o := range m.keys.Asking.Options {
			out = append(out, " "+p.Paint(draw.Key, draw.FitRight(strconv.Itoa(i+1), 3))+"  "+draw.Clean(o))
		}
		if m.keys.Asking.What != "" {
			return append(out, "", p.Paint(draw.Dim, " Enter answers, / cancels"))
		}
		return nil
	}
}
