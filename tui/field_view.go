package tui

import (
	"cmp"
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
	drawn := map[int][]string{}
	row := func(i int) []string {
		if drawn[i] == nil {
			drawn[i] = f.lines(st, f.rows[i], w, says)
		}
		return drawn[i]
	}
	high := func(i int) int { return len(row(i)) }
	f.list.at = max(0, f.at-1)
	f.list.windowTall(len(f.rows), h, high)
	f.list.at = f.at
	first, last := f.list.windowTall(len(f.rows), h, high)
	f.last = last
	var lines []string
	for i := first; i < last; i++ {
		lines = append(lines, row(i)...)
	}
	return lines
}

// scrolled says which of the rows were drawn last.
func (f *form) scrolled() string {
	if f.list.top == 0 && f.last >= len(f.rows) {
		return ""
	}
	return fmt.Sprintf(" lines %d to %d of %d ", f.list.top+1, f.last, len(f.rows))
}

// lines is one row: a heading, or a label, its fields and a note. What is too
// long for the line goes on below the fields.
func (f *form) lines(st *Station, r row, w int, says func(id string) said) []string {
	p := &st.Palette
	if r.heading != "" {
		return []string{p.Paint(draw.Title, draw.Rule(st.Signs.Text(r.heading), w, st.ASCII))}
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
	text := st.Signs.Text(draw.Clean(note.text))
	if room := w - draw.Width(line) - 2; text == "" || draw.Width(text) <= room {
		if text != "" {
			line += "  " + p.Paint(note.tone, text)
		}
		return append([]string{line}, f.below(st, r, wide, w)...)
	}
	lines := append([]string{line}, f.below(st, r, wide, w)...)
	for _, more := range draw.Wrap(text, w-wide-4) {
		lines = append(lines, draw.Fit("", wide+3)+p.Paint(note.tone, more))
	}
	return lines
}

// leastBelow is from how many cells on words that are too long for their field
// go on below it.
const leastBelow = 20

// below is the rest of the last field's words where they are too long for it:
// the whole of them, in the field's own column.
func (f *form) below(st *Station, r row, label, w int) []string {
	if len(r.fields) != 1 || r.fields[0].kind != wordsField || r.fields[0].id == f.focus {
		return nil
	}
	x, wide := r.fields[0], w-label-4
	_, lines := f.spread(st, x, min(cmp.Or(x.wide, wide), wide))
	for i, text := range lines {
		lines[i] = draw.Fit("", label+3) + st.Palette.Paint(draw.Value, text)
	}
	return lines
}

// spread is the words of a field in its width, and those that go on below.
func (f *form) spread(st *Station, x field, wide int) (first string, more []string) {
	text := f.value(st, x, wide)
	if wide < leastBelow || x.kind != wordsField || x.id == f.focus || draw.Width(text) <= wide {
		return text, nil
	}
	lines := draw.Wrap(text, wide)
	return lines[0], lines[1:]
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
	text, _ := f.spread(st, x, wide)
	value := p.Paint(tone, draw.Fit(text, wide))
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
		if x.id != f.focus {
			continue
		}
		if text := f.words.text(); x.kind == wordsField && f.words.typed && x.taken(text) != text {
			return said{st.Signs.Arrow + " " + cmp.Or(x.taken(text), "nothing"), draw.Plain}
		}
		if x.kind != numberField || !f.number.typed {
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
