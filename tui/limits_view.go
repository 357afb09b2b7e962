package tui

import (
	"fmt"
	"strings"

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
