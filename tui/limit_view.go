package tui

import (
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// limitFoot are the lines below the rows: a rule, two for what the field in
// focus is for, and three for what is doubtful, or whether all is well.
const limitFoot = 6

// room is how many rows are in view.
func (x *limitForm) room() int { return max(1, x.h-limitFoot) }

// View draws the fields and what is to be said of the one in focus.
func (x *limitForm) View() []string {
	about := x.about()
	says := func(id string) said { return about[id] }
	lines := draw.Box(x.form.view(x.st, x.w, x.room(), says), x.w, x.room())
	lines = append(lines, x.st.Palette.Paint(draw.Frame, draw.Rule(x.form.scrolled(), x.w, x.st.ASCII)))
	lines = append(lines, draw.Box(wrapped(x.st, x.w, draw.Dim, x.form.here().purpose(), 2), x.w, 2)...)
	return append(lines, draw.Box(x.stands(), x.w, limitFoot-3)...)
}

// about is what is to be said beside each field: what could not be taken in,
// or what is doubtful and what was likely meant.
func (x *limitForm) about() map[string]said {
	out := map[string]said{}
	for id, b := range x.form.bad {
		out[id] = said{b.why, draw.Bad}
	}
	for _, d := range x.doubts(x.now) {
		id := string(d.Field)
		if _, taken := out[id]; !taken {
			out[id] = said{shortDoubt(d), draw.Warn}
		}
	}
	return out
}

// shortDoubt is a doubt as it stands beside its field: the likely value, or why
// it is doubted.
func shortDoubt(d limit.Doubt) string {
	if len(d.Likely) > 0 {
		return "likely " + d.Likely[0].Text
	}
	return d.Reason.String()
}

// stands says what is wrong with the limits, what is doubtful, first of the
// field in focus, or that they can be kept.
func (x *limitForm) stands() []string {
	if x.form.pending() {
		return wrapped(x.st, x.w, draw.Dim, "Enter takes it in, Esc takes it back", 1)
	}
	if b, bad := x.form.bad[x.form.focus]; bad {
		return wrapped(x.st, x.w, draw.Bad, b.why, 3)
	}
	var out, others []string
	here, _ := fieldOf(x.form.focus)
	for _, d := range x.doubts(x.now) {
		if d.Field == here {
			out = append(out, wrapped(x.st, x.w, draw.Warn, "? "+d.String(), 3)...)
			continue
		}
		others = append(others, wrapped(x.st, x.w, draw.Warn, "? "+fieldWords[d.Field]+": "+d.String(), 3)...)
	}
	if why := x.wrong(); why != "" {
		out = append(out, wrapped(x.st, x.w, draw.Warn, "not yet: "+why, 3)...)
	}
	if out = append(out, others...); len(out) > 0 {
		return out
	}
	text := "F2 keeps the limits; nothing is recorded before"
	if effect := inEffect(x.now); effect != "" {
		text = "in effect " + effect + "; " + text
	}
	return wrapped(x.st, x.w, draw.Good, text, 2)
}
