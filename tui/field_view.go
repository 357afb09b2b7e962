package tui

import (
	"fmt"

	"borewright/tui/draw"
)

// said is what a form has to say beside a field: what is wrong with it, or
// what is doubtful.
type said struct {
	text string
	tone draw.Tone
}

// labelWide is how many cells the label of a row usually takes.
const labelWide = 24

// view draws as many rows as there is room for, the one in focus among them
// and the heading above it where it can be. says tells what is to be said of a
// field.
func (f *form) view(st *Station, w, h int, says func(id string) said) []string {
	f.list.at = max(0, f.at-1)
	f.list.window(len(f.rows), h)
	f.list.at = f.at
	first, last := f.list.window(len(f.rows), h)
	var lines []string
	for i := first; i < last; i++ {
		lines = append(lines, f.line(st, f.rows[i], w, says))
	}
	return lines
}

// scrolled says which of the rows are in view.
func (f *form) scrolled(h int) string {
	if len(f.rows) <= h {
		return ""
	}
	return fmt.Sprintf(" lines %d to %d of %d ", f.list.top+1, min(len(f.rows), f.list.top+h), len(f.rows))
}

func (f *form) line(st *Station, r row, w int, says func(id string) said) string {
	p := &st.Palette
	if r.heading != "" {
		return p.Paint(draw.Title, draw.Rule(st.Signs.Text(r.heading), w, st.ASCII))
	}
	wide := r.labelWide
	if wide == 0 {
		wide = labelWide
	}
	line := "  " + draw.Fit(st.Signs.Text(r.label), wide)
	for _, x := range r.fields {
		line += f.cell(st, x, w-draw.Width(line), says(x.id))
	}
	note := f.note(st, r, says)
	if room := w - draw.Width(line) - 2; room > 0 && note.text != "" {
		line += "  " + p.Paint(note.tone, draw.Cut(st.Signs.Text(note.text), room))
	}
	return line
}

// cell draws a field: the mark of the focus, its value, and a sign where
// something is to be said of it. It takes wide+2 cells, or room of them.
func (f *form) cell(st *Station, x field, room int, s said) string {
	wide := x.wide
	if wide == 0 || wide > room-2 {
		wide = max(0, room-2)
	}
	here, sign, tone := " ", " ", draw.Value
	if x.id == f.focus && f.pending() {
		s = said{}
	}
	if s.text != "" {
		tone, sign = s.tone, "!"
		if s.tone == draw.Warn {
			sign = "?"
		}
	}
	if x.id == f.focus {
		here, tone = st.Signs.Here, draw.Marked
	}
	p := &st.Palette
	value := p.Paint(tone, draw.Fit(f.value(st, x, wide), wide))
	return p.Paint(draw.Marked, here) + value + p.Paint(s.tone, sign)
}

// value is the text of a field as it is shown.
func (f *form) value(st *Station, x field, wide int) string {
	focused := x.id == f.focus
	switch {
	case x.kind == buttonField:
		return "[ " + st.Signs.Text(x.get()) + " ]"
	case x.kind == choiceField && focused:
		return st.Signs.Text(x.get()) + "  < >"
	case x.kind == wordsField && focused:
		return f.words.view(wide, cursorMark(st))
	case x.kind == numberField && focused && f.number.typed:
		return tail(f.number.text+"_", wide)
	case x.kind == numberField && focused:
		return tail(f.text(x)+"_", wide)
	}
	if text := draw.Clean(f.text(x)); text != "" {
		return st.Signs.Text(text)
	}
	return st.Signs.Dash
}

// tail keeps the end of a text that is too long, where it is being keyed, and
// says that it is cut.
func tail(s string, wide int) string {
	if draw.Width(s) <= wide {
		return s
	}
	for draw.Width(s) > wide-1 && s != "" {
		s = string([]rune(s)[1:])
	}
	return "~" + s
}

// cursorMark is where the next letter goes.
func cursorMark(st *Station) string {
	if st.ASCII {
		return "|"
	}
	return "▏"
}

// note is what stands behind the fields of a row: what is being keyed in one,
// else the first thing that is to be said of one, else the row's own note.
func (f *form) note(st *Station, r row, says func(id string) said) said {
	for _, x := range r.fields {
		if x.id != f.focus || x.kind != numberField || !f.number.typed {
			continue
		}
		if echo := echoLength(f.number.text, x.unit); echo != "" {
			return said{st.Signs.Arrow + " " + echo, draw.Plain}
		}
		return said{}
	}
	for _, x := range r.fields {
		if s := says(x.id); s.text != "" {
			return s
		}
	}
	return said{r.note, draw.Dim}
}
