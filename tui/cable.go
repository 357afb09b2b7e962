package tui

import (
	"errors"
	"io"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// Cable is where a serial gauge comes in. Read returns nothing and no error
// after a silence, and an error while the cable is away: it is read on, until
// io.EOF says that it was closed for good.
type Cable struct {
	Name string
	io.ReadCloser
}

// cableLine is a line that the gauge sent.
type cableLine term.Line

// cableState says whether the cable is there, and why not.
type cableState struct{ away error }

// pump reads the cable until it is closed, and gives what it hears to send.
func (c *Cable) pump(send func(msg any)) {
	var e ear
	buf := make([]byte, 4*term.LongestLine)
	for {
		n, err := c.Read(buf)
		for _, msg := range e.hear(buf[:n], err) {
			send(msg)
		}
		if errors.Is(err, io.EOF) {
			return
		}
	}
}

// ear turns what is read from a cable into messages. The zero value is ready.
type ear struct {
	lines term.Lines
	known bool  // it was said whether the cable is there
	away  error // as it was said last
}

// hear takes one read. That the cable is there is said before what it sent, that
// it is away after.
func (e *ear) hear(read []byte, err error) []any {
	got := e.lines.Take(read)
	if len(read) == 0 {
		got = append(got, e.lines.Silence()...)
	}
	var lines []any
	for _, l := range got {
		lines = append(lines, cableLine(l))
	}
	switch {
	case errors.Is(err, io.EOF):
		return lines
	case err != nil:
		e.lines = term.Lines{}
		return append(lines, e.state(err)...)
	case e.known || len(read) == 0:
		return append(e.state(nil), lines...)
	default:
		return lines
	}
}

// state says whether the cable is there, where that changed.
func (e *ear) state(away error) []any {
	if e.known && (away == nil) == (e.away == nil) {
		return nil
	}
	e.known, e.away = true, away
	return []any{cableState{away}}
}

// cabled is a screen that takes what a gauge sends, and reports whether it did.
type cabled interface{ cable(text string) bool }

// hearLine gives a line of the cable to the top screen, or says why it is
// nothing.
func (st *Station) hearLine(l cableLine, top Screen) {
	hurried := l.Fault == term.LineHurried && st.cableTook
	st.cableTook = false
	text, err := gauge.Sent(l.Text)
	screen, takes := top.(cabled)
	switch {
	case l.Fault != term.LineWhole && l.Fault != term.LineHurried:
		st.ignore(l.Text, lineFaults[l.Fault])
	case err != nil:
		st.ignore(l.Text, err.Error())
	case hurried:
		st.cableTook = true // what comes straight after this one is no better
		st.ignore(text, "it came straight after another")
	case !takes:
		st.ignore(text, "readings are taken on the measure screen")
	default:
		st.cableTook = screen.cable(text)
	}
}

// lineFaults say what is wrong with a line as a whole.
var lineFaults = map[term.LineFault]string{
	term.LineUnheard: "its beginning may be missing",
	term.LineBroken:  "it broke off",
	term.LineLong:    "longer than any reading",
}

// ignore shows what the cable sent and why it is not taken.
func (st *Station) ignore(text, why string) {
	st.Say(draw.Warn, "cable: "+plan.Quote(text)+" not taken: "+why)
	st.Ring(2)
}

// hearState says that the cable went away or came back.
func (st *Station) hearState(s cableState) {
	was := st.cableAway
	st.cableAway, st.cableKnown = s.away, true
	switch {
	case s.away != nil:
		st.Say(draw.Bad, "cable "+st.Cable.Name+" is away: "+s.away.Error()+"; the keypad goes on")
		st.Ring(2)
	case was != nil:
		st.Say(draw.Good, "cable "+st.Cable.Name+" is back")
	}
}

// cableText says in the header whether the cable is there.
func (st *Station) cableText() (string, draw.Tone) {
	switch {
	case st.Cable == nil || !st.cableKnown:
		return "", draw.Dim
	case st.cableAway != nil:
		return "cable away: " + draw.Clean(st.cableAway.Error()), draw.Bad
	default:
		return "cable on", draw.Dim
	}
}

// cable takes a value that the gauge in the hand sent, as its instrument says
// what it is.
func (m *measure) cable(text string) bool {
	if why := m.noCable(); why != "" {
		m.st.ignore(text, why)
		return false
	}
	next, effects := keying.Arrive(m.keys, text, m.view(), keying.AskZero, askStale)
	m.keys = next
	took := false
	for _, e := range effects {
		switch e.(type) {
		case keying.Take, keying.Answer:
			took = true
		}
		m.do(e)
	}
	return took
}

// noCable says why nothing that a cable sends can be taken here, or "".
func (m *measure) noCable() string {
	if m.place.IsZero() {
		return "the plan is empty"
	}
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	switch {
	case err != nil:
		return err.Error()
	case h.Instrument.Sends == "":
		return "g, then e, says what this gauge sends"
	default:
		return ""
	}
}
