package tui

import (
	"fmt"
	"strconv"

	"borewright/tui/draw"
)

// View draws what is left, large, what it rests on, and every pass.
func (s *hone) View() []string {
	p := &s.st.Palette
	c := s.count()
	session := s.desk.Session
	u := session.Unit()
	rows := max(5, s.h/3)
	lines := []string{p.Paint(draw.Title, draw.Fit(s.head(), s.w)), ""}
	text, tone := s.large()
	big := draw.BigIn(text, s.w-2, rows, s.st.ASCII)
	for i := range big {
		big[i] = " " + p.Paint(tone, big[i])
	}
	lines = append(append(lines, draw.Box(big, s.w, rows)...), "")
	text, tone = session.CountText(c), draw.Value
	if !s.target.Measured() {
		text, tone = noTarget, draw.Warn
	}
	lines = append(lines, wrapped(s.st, s.w, tone, text, 3)...)
	lines = append(lines, wrapped(s.st, s.w, draw.Marked, s.question(), 2)...)
	stock, missing := session.HoneText(s.desk.Now, s.bore, s.target)
	lines = append(lines, wrapped(s.st, s.w, draw.Dim, "as last measured: "+stock, 3)...)
	for _, m := range missing {
		lines = append(lines, wrapped(s.st, s.w, draw.Dim, m, 1)...)
	}
	lines = append(lines, draw.Rule("strokes, size as read, °C warm, latest first", s.w, s.st.ASCII))
	for i := len(s.passes) - 1; i >= 0 && len(lines) < s.h; i-- {
		pass := s.passes[i]
		strokes := "as found"
		if i > 0 {
			strokes = strconv.Itoa(pass.Strokes)
		}
		warm := ""
		if pass.Warmer != 0 {
			warm = strconv.FormatFloat(pass.Warmer, 'f', -1, 64)
		}
		lines = append(lines, "  "+draw.Row([]string{strokes, pass.Size.Format(u, u.Decimals()+1), warm}, []int{-9, -10, -8}))
	}
	return lines[:min(len(lines), max(s.h, 0))]
}

// noTarget says how a countdown comes by its target.
const noTarget = "to count down: Esc, key the size to hone to, Enter, then c again; o there gives one for all bores"

// head names the place and the target.
func (s *hone) head() string {
	session := s.desk.Session
	u := session.Unit()
	text := " " + draw.Clean(session.PlaceName(s.place))
	if s.target.Measured() {
		return text + fmt.Sprintf(", to %s %s diametral", s.target.Format(u, u.Decimals()), u)
	}
	return text + ", no target is given"
}

// large is what stands in large digits: what is keyed, else what is left.
func (s *hone) large() (string, draw.Tone) {
	c := s.count()
	u := s.desk.Session.Unit()
	switch {
	case s.held != nil:
		return s.keyed.text, draw.Warn
	case s.keyed.text != "":
		return s.keyed.text, draw.Value
	case !c.Left.Measured():
		return "", draw.Dim
	case c.Left.Sign() < 0:
		return c.Left.Format(u, u.Decimals()), draw.Bad
	case c.Wait || c.ToGo == 0:
		return c.Left.Format(u, u.Decimals()), draw.Warn
	default:
		return c.Left.Format(u, u.Decimals()), draw.Good
	}
}

// question says what to key.
func (s *hone) question() string {
	switch s.asks {
	case askStrokes:
		return "key the strokes since the last size"
	case askWarm:
		return "by how many °C is the bore warmer than the gauge's master?"
	default:
		text := "key the size at " + draw.Clean(s.desk.Session.PlaceName(s.place))
		if s.strokes > 0 {
			text += fmt.Sprintf(" after %d strokes", s.strokes)
		}
		return text + s.how()
	}
}

// how says as what the size is keyed.
func (s *hone) how() string {
	h, err := s.desk.Session.Hand(s.bore.Family)
	if err != nil {
		return ", in full"
	}
	if !h.Setting.Size.IsZero() {
		return ", graduations from " + h.Setting.Size.String()
	}
	return ", with " + h.Instrument.Name
}
