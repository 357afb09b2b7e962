package tui

import "borewright/tui/draw"

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
