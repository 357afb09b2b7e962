package tui

import (
	"fmt"
	"strconv"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// kinds are the keypad's names for the border's tokens.
var kinds = map[term.Kind]keying.Kind{
	term.Digit: keying.Digit, term.Point: keying.Point, term.Plus: keying.Plus, term.Minus: keying.Minus,
	term.Star: keying.Star, term.Slash: keying.Slash, term.Text: keying.Text, term.Enter: keying.Enter,
	term.Erase: keying.Erase, term.Navigation: keying.Navigation, term.Escape: keying.Escape, term.Control: keying.Control,
}

// step gives one token to the keypad's machine and does what it says.
func (m *measure) step(t term.Token) {
	if m.place.IsZero() {
		m.refuse("the plan is empty: s opens the setup")
		return
	}
	next, effects := keying.Step(m.keys, keying.Token{Kind: kinds[t.Kind], Rune: t.Rune, Burst: t.Burst}, m.view())
	m.keys = next
	for _, e := range effects {
		m.do(e)
	}
}

// view is what the machine may know just now.
func (m *measure) view() keying.View {
	s := m.desk.Session
	v := keying.View{Signed: m.signed(), JustTaken: !m.justTaken.IsZero(), Read: m.read, Off: m.off()}
	if now := s.Now(m.place); len(now) > 0 && !m.blind() {
		v.HasReading = true
		v.Reading = m.figureText(m.place)
	}
	return v
}

// figureText is the figure that stands at a place.
func (m *measure) figureText(p plan.Place) string {
	s := m.desk.Session
	x, _ := m.desk.Now.Feature(p.Of)
	return s.Figure(p, s.Stage(p.Of)).Format(s.Unit(), x.Places)
}

// signed reports whether a reading may have a sign: what counts from zero has,
// and a cable may put a plus before a size.
func (m *measure) signed() bool {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	t, _ := m.place.Of.Family.Traits()
	return err == nil && (t.Signed || h.Instrument.Kind == gauge.Comparator || h.Instrument.Sends != "")
}

// off says why items of the menu are off.
func (m *measure) off() map[keying.Item]string {
	off := map[keying.Item]string{}
	if _, err := m.desk.Session.Hand(m.place.Of.Family); err != nil {
		off[keying.CheckZero], off[keying.KeyTemperature] = err.Error(), err.Error()
	}
	if m.desk.Session.LastAct() == 0 {
		off[keying.WithdrawLast] = "there is nothing to withdraw"
	}
	if len(m.desk.Session.Instruments()) == 0 {
		off[keying.ChooseGauge] = "no gauge is set up: s opens the setup"
	}
	return off
}

// read says what a text means: as a reading at the place, or as the answer to
// what is asked.
func (m *measure) read(text string, cable bool) gauge.Result {
	if m.keys.Asking.What != "" {
		return m.readAnswer(text, cable)
	}
	c, err := m.desk.reads(m.place)
	if err != nil {
		return gauge.Result{Kind: gauge.Refused, Reason: err.Error()}
	}
	c.Cable = cable && c.Instrument.Sends != ""
	return gauge.Read(text, c)
}

// do does one effect.
func (m *measure) do(e keying.Effect) {
	switch e := e.(type) {
	case keying.Take:
		m.take(e)
	case keying.Answer:
		m.answer(e)
	case keying.AskFor:
		m.ask(e.What)
	case keying.Cancel:
		switch e.What {
		case askStale:
			m.skipStale()
		case askGaugeTemp:
			m.askStale(m.st.look())
		}
	case keying.Hold:
		m.st.Hush()
	case keying.Refuse:
		m.st.Say(draw.Warn, e.Reason)
	case keying.Bell:
		m.st.Ring(e.Times)
	case keying.NumLockOff:
		m.st.Say(draw.Warn, "NumLock looks off: the keypad sends arrows, not digits")
	default:
		m.walk(e)
	}
}

// walk does the effects that change the place.
func (m *measure) walk(e keying.Effect) {
	s := m.desk.Session
	switch e.(type) {
	case keying.GoRepeat:
		m.repeatLast()
	case keying.LeaveOut:
		m.leaveOut()
	case keying.Forward:
		m.move(s.Step(m.place, 1))
	case keying.Back:
		m.move(s.Step(m.place, -1))
	case keying.NextFeature:
		m.move(s.NextFeature(m.place.Of))
	case keying.Withdraw:
		m.withdraw()
	}
}

// The questions that follow another one.
const (
	askMaster    = "size of the master"
	askGaugeTemp = "temperature of the gauge"
)

// ask puts the bench's words to a question of the menu.
func (m *measure) ask(what string) {
	a := keying.Asking{What: what, Title: m.keys.Asking.Title, Signed: m.keys.Asking.Signed}
	s := m.desk.Session
	h, _ := s.Hand(m.place.Of.Family)
	switch what {
	case keying.AskZero:
		a.Title = "zero check: what does " + h.Instrument.Name + " read on its master, in graduations?"
	case keying.AskGauge:
		a.Title = "which gauge is in the hand for " + m.place.Of.Family.Plural() + "?"
		for _, i := range s.Instruments() {
			a.Options = append(a.Options, i.Name)
		}
	case keying.AskTemperature:
		a.Title = "temperature of the part, in °C?"
	case keying.AskGoTo:
		a.Title = "go to which " + m.place.Of.Family.Noun() + "? " + keypadList(s.Layout(), m.place.Of.Family) + "With a point, first the family:"
		for i, g := range s.Plan().Families {
			a.Options = append(a.Options, fmt.Sprintf("%s: %d.1, %d.2 ...", g.Family.Plural(), i+1, i+1))
		}
	case keying.AskWork:
		a.Title = "what was done to " + s.Name(m.place.Of) + "?"
		for _, w := range works {
			a.Options = append(a.Options, w.did)
		}
	}
	m.keys = keying.Ask(m.keys, a)
}

// readAnswer says whether an answer can be one; what it means is for answer.
func (m *measure) readAnswer(text string, cable bool) gauge.Result {
	switch m.keys.Asking.What {
	case keying.AskZero, askStale:
		h, _ := m.desk.Session.Hand(m.place.Of.Family)
		return gauge.ReadZero(text, h.Instrument, cable)
	case askMaster:
		w, err := length.Parse(text, m.chosen.Unit)
		if err != nil {
			return refusedAnswer(err.Error())
		}
		if w.Length <= 0 {
			return refusedAnswer(text + " is not the size of a master")
		}
		x := gauge.Setting{ID: "it", Instrument: m.chosen.ID, On: gauge.OnRing, Size: w}
		if err := x.ValidateFor(m.chosen); err != nil {
			return refusedAnswer(err.Error())
		}
	case keying.AskTemperature, askGaugeTemp:
		if err := gauge.CheckTemperature(text); err != nil {
			return refusedAnswer(err.Error())
		}
	case askMixup, askRezero:
		if text != "1" && text != "2" {
			return refusedAnswer("key 1 or 2, not " + text)
		}
	case keying.AskGauge:
		if n, err := strconv.Atoi(text); err != nil || n < 1 || n > len(m.desk.Session.Instruments()) {
			return refusedAnswer(fmt.Sprintf("there are gauges 1 to %d, not %s", len(m.desk.Session.Instruments()), text))
		}
	}
	return gauge.Result{Kind: gauge.Taken}
}

func refusedAnswer(why string) gauge.Result { return gauge.Result{Kind: gauge.Refused, Reason: why} }

// answer does what a question was asked for, or asks the next one.
func (m *measure) answer(a keying.Answer) {
	m.st.Hush()
	switch a.What {
	case keying.AskZero, askStale:
		m.zeroCheck(a.Text, a.Result)
	case keying.AskGoTo:
		m.goTo(a.Text)
	case keying.AskWork:
		m.work(a.Text)
	case keying.AskTemperature:
		if m.temperature(a.Text, func(t *gauge.Temperatures, v string) { t.Part = v }) {
			m.keys = keying.Ask(m.keys, keying.Asking{What: askGaugeTemp, Title: "and of the gauge, in °C? / leaves it", Signed: true})
		}
	case askGaugeTemp:
		if m.temperature(a.Text, func(t *gauge.Temperatures, v string) { t.Gauge = v }) {
			m.askStale(m.st.look())
		}
	case keying.AskGauge:
		m.pickGauge(a.Text)
	case askMixup:
		m.settleMixup(a.Text)
	case askRezero:
		m.settleRezero(a.Text)
	case askMaster:
		if w, err := length.Parse(a.Text, m.chosen.Unit); err == nil {
			m.chooseGauge(m.chosen, w)
		}
	}
}

// pickGauge takes up an instrument by its number: as it was zeroed last, or,
// when it is in the hand already, zeroed anew. A comparator then needs the size
// of its master.
func (m *measure) pickGauge(text string) {
	n, _ := strconv.Atoi(text)
	m.chosen = m.desk.Session.Instruments()[n-1]
	if m.takeUp(m.chosen) {
		return
	}
	if m.chosen.Kind != gauge.Comparator {
		m.chooseGauge(m.chosen, length.Written{})
		return
	}
	m.keys = keying.Ask(m.keys, keying.Asking{
		What:  askMaster,
		Title: "size of the ring or micrometer it is zeroed on (" + m.chosen.Unit.String() + ")?",
	})
}
