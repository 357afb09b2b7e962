package tui

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// limitsFoot are the lines below the rows: a rule, and what is to be said of
// the marked ones. limitsTop is the line that names the columns.
const limitsFoot, limitsTop = 7, 1

// The widths of a row: what is limited, and each of its five lengths. From
// limitWide on there is room for which figure it is and where it comes from.
const limitName, limitValue, limitWide = 20, 9, 100

func (s *limitsScreen) room() int { return max(1, s.h-limitsFoot-limitsTop) }

// View draws the rows around the marked one, and that one in full below them.
func (s *limitsScreen) View() []string {
	p := &s.st.Palette
	lines := []string{p.Paint(draw.Dim, draw.Fit(s.columns(), s.w))}
	lines = draw.Box(append(lines, s.table()...), s.w, s.room()+limitsTop)
	lines = append(lines, p.Paint(draw.Frame, draw.Rule("", s.w, s.st.ASCII)))
	return append(lines, draw.Box(s.foot(), s.w, limitsFoot-1)...)
}

func (s *limitsScreen) columns() string {
	text := draw.Fit("", limitName+3)
	for _, c := range []string{"new low", "high", "wear low", "high", "target"} {
		text += draw.FitRight(c, limitValue)
	}
	text += "  unit  by"
	if s.w < limitWide {
		return text
	}
	return text + "     which figure; where it comes from"
}

// table is as many lines as there is room for: the rows, and a heading above
// those of each family.
func (s *limitsScreen) table() []string {
	type line struct {
		row  int // -1 for a heading
		text string
	}
	var lines []line
	at := 0
	for i, r := range s.all() {
		if i == 0 || s.rows[i-1].family != r.family {
			lines = append(lines, line{-1, s.heading(r)})
		}
		if i == s.list.at {
			at = len(lines)
		}
		lines = append(lines, line{i, ""})
	}
	view := list{at: max(0, at-1), top: s.list.top}
	view.window(len(lines), s.room())
	view.at = at
	first, last := view.window(len(lines), s.room())
	s.list.top = view.top
	var out []string
	for _, l := range lines[min(first, len(lines)):last] {
		if l.row >= 0 {
			l.text = s.line(s.rows[l.row], l.row == s.list.at)
		}
		out = append(out, l.text)
	}
	if len(lines) == 0 {
		out = append(out, s.st.Palette.Paint(draw.Dim, "  nothing is planned: s opens the setup"))
	}
	return out
}

func (s *limitsScreen) heading(r limitRow) string {
	text := capital(r.family.Plural())
	if n := nominalOf(s.desk.Session, r.family); !n.IsZero() {
		text += ", nominal " + n.String()
	}
	if t, _ := r.family.Traits(); t.Figure == "" {
		text += ", diametral"
	}
	return s.st.Palette.Paint(draw.Title, draw.Rule(text, s.w, s.st.ASCII))
}

// line is one row: a mark, what the verdict is by it, what is limited, and to
// what.
func (s *limitsScreen) line(r limitRow, here bool) string {
	p := &s.st.Palette
	mark, tone := " ", draw.Plain
	switch {
	case here:
		mark, tone = s.st.Signs.Here, draw.Marked
	case !r.given():
		tone = draw.Dim
	}
	sign, verdict := " ", draw.Plain
	if f, ok := s.worstBy(r.limits); ok {
		verdict = verdictTone(f.Judgement)
		sign = s.st.Signs.For(verdict)
	}
	text := "not limited: " + joined(r.open)
	if r.given() {
		text = draw.Fit(s.st.Signs.Text(s.name(r)), limitName-1) + s.doubtSign(r) + s.values(r.limits)
	}
	return p.Paint(tone, mark) + p.Paint(verdict, sign) + " " + p.Paint(tone, draw.Fit(text, s.w-3))
}

// name says what is limited: under its family, or of one feature.
func (s *limitsScreen) name(r limitRow) string {
	name := string(r.limits.On)
	if f := r.of(); !f.IsZero() {
		name = "  " + draw.Clean(s.desk.Session.Name(f))
		if r.limits.On != limit.Size {
			name += " " + string(r.limits.On)
		}
	}
	if r.limits.By != "" {
		name += ", " + string(r.limits.By)
	}
	return name
}

func joined(all []limit.Characteristic) string {
	var out []string
	for _, on := range all {
		out = append(out, string(on))
	}
	return strings.Join(out, ", ")
}

func (s *limitsScreen) doubtSign(r limitRow) string {
	if len(r.doubts) > 0 {
		return "?"
	}
	return " "
}

// values are the five lengths, the unit they are written in, how they judge,
// and what else there is room for.
func (s *limitsScreen) values(l limit.Limits) string {
	u := limitUnit(l, length.NoUnit)
	unit, text := u.String(), ""
	for _, f := range limit.Fields() {
		v := s.st.Signs.Dash
		if w := l.At(f); !w.IsZero() {
			v = showLength(w, u)
		}
		text += " " + draw.FitRight(v, limitValue-1)
	}
	judge := l.JudgedBy(s.desk.Session.Rules().Judge)
	more := string(s.definition(l))
	if !l.Per.IsZero() {
		unit += "/" + l.Per.Unit.String()
		more += fmt.Sprintf(", per %s over %s", l.Per, l.Travel)
	}
	text += "  " + draw.Fit(unit, 6) + judge
	if s.w < limitWide {
		return text
	}
	return draw.Fit(text, draw.Width(text)-len(judge)+7) + more + "; " + draw.Clean(l.Source)
}

// worstBy returns the worst finding that limits made; one that is not measured
// only where nothing is.
func (s *limitsScreen) worstBy(l limit.Limits) (worst engine.Finding, ok bool) {
	for _, f := range s.findingsBy(l) {
		if !ok || worst.Judgement.Verdict == limit.NotMeasured {
			worst, ok = f, true
		}
	}
	return worst, ok
}

// findingsBy returns the findings that limits made, the worst first.
func (s *limitsScreen) findingsBy(l limit.Limits) []engine.Finding {
	var out []engine.Finding
	for _, f := range s.desk.Now.Findings {
		if f.On == l.On && f.Limits.Of == l.Of && f.Limits.By == l.By {
			out = append(out, f)
		}
	}
	return out
}

// foot says of the marked limits what the verdict is by them, by which
// definition, how they judge, where they come from, and what is doubtful.
func (s *limitsScreen) foot() []string {
	r, ok := s.marked()
	if !ok {
		return nil
	}
	if !r.given() {
		return s.say(draw.Dim, "Nothing limits this of "+r.family.Plural()+": "+joined(r.open)+". Enter gives limits.", 2)
	}
	var out []string
	for _, d := range r.doubts {
		out = append(out, s.say(draw.Warn, "? "+d.String(), 3)...)
	}
	if f, ok := s.worstBy(r.limits); ok {
		tone := verdictTone(f.Judgement)
		out = append(out, s.say(tone, s.st.Signs.For(tone)+" "+f.Judgement.Verdict.String()+": "+f.Text+s.among(r.limits), 2)...)
	}
	out = append(out, s.say(draw.Plain, s.terms(r.limits), 2)...)
	return append(out, s.say(draw.Dim, "from: "+r.limits.Source, 3)...)
}

// among says how many the limits judge, and how many of them are measured.
func (s *limitsScreen) among(l limit.Limits) string {
	all := s.findingsBy(l)
	measured := 0
	for _, f := range all {
		if f.Judgement.Verdict != limit.NotMeasured {
			measured++
		}
	}
	if len(all) < 2 || measured == 0 {
		return ""
	}
	return fmt.Sprintf("; the worst of %d measured, of %d", measured, len(all))
}

// definition is the one that limits judge by in this session.
func (s *limitsScreen) definition(l limit.Limits) limit.Definition {
	if f, ok := s.worstBy(l); ok {
		return f.By
	}
	return l.Definition("")
}

// terms say by which definition, in effect how much, and by which side limits
// judge.
func (s *limitsScreen) terms(l limit.Limits) string {
	chosen := func(by string) string {
		if by == "" {
			return ""
		}
		return ", chosen here"
	}
	out := []string{limitTitle(s.desk.Session, l) + " is " + string(s.definition(l)) + chosen(string(l.By))}
	if text := inEffect(l); text != "" {
		out = append(out, fmt.Sprintf("per %s over %s: %s", l.Per, l.Travel, text))
	}
	by := "judged by " + l.JudgedBy(s.desk.Session.Rules().Judge) + chosen(l.JudgeBy)
	return strings.Join(append(out, by), "; ")
}

func (s *limitsScreen) say(tone draw.Tone, text string, most int) []string {
	return wrapped(s.st, s.w, tone, text, most)
}

// wrapped is a sentence in so many lines at most, a cell in from either side.
func wrapped(st *Station, w int, tone draw.Tone, text string, most int) []string {
	lines := draw.Wrap(st.Signs.Text(draw.Clean(text)), w-2)
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], draw.Cut(lines[most-1]+" "+lines[most], w-2))
	}
	for i := range lines {
		lines[i] = " " + st.Palette.Paint(tone, lines[i])
	}
	return lines
}

// limitTitle names what is limited: "taper of bores", "size of bore 4".
func limitTitle(s *engine.Session, l limit.Limits) string {
	return string(l.On) + " of " + s.NameOf(l.Of)
}

// inEffect says what limits per length come to, or "" for plain ones and ones
// that come to nothing.
func inEffect(l limit.Limits) string {
	if l.Per.IsZero() || l.Travel.IsZero() {
		return ""
	}
	e := l.Effective()
	var out []string
	for _, f := range limit.Fields() {
		if w := e.At(f); !w.IsZero() {
			out = append(out, string(f)+" "+w.String())
		}
	}
	return strings.Join(out, ", ")
}
