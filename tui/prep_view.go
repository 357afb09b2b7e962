package tui

import (
	"fmt"
	"strings"

	"borewright/engine/prep"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// prepLayout is how the sign-off shares its body: a pure function of its size.
type prepLayout struct {
	left, right int // widths of the list and of the step
	rows        int // height of both
	big         int // rows of the large digits
}

// prepFoot are the lines below: a rule, the tallies, and two for what is not
// ready.
const prepFoot = 4

func layoutPrep(w, h int) prepLayout {
	l := prepLayout{left: 32, rows: h - prepFoot, big: max(5, h/5)}
	if w >= 100 {
		l.left = min(44, w*2/5)
	}
	l.right = w - l.left - 2
	return l
}

// View draws the list, the step in hand, and what is not ready.
func (p *prepScreen) View() []string {
	if len(p.steps()) == 0 {
		return nil
	}
	l := layoutPrep(p.w, p.h)
	return append(draw.Beside(2,
		draw.Box(p.stepList(l), l.left, l.rows),
		draw.Box(p.panel(l), l.right, l.rows)), p.foot()...)
}

// stepList lists the steps around the one in hand.
func (p *prepScreen) stepList(l prepLayout) []string {
	p.list.at = p.at
	first, last := p.list.window(len(p.steps()), l.rows)
	var lines []string
	for i := first; i < last; i++ {
		lines = append(lines, p.stepLine(i, l.left))
	}
	return lines
}

// stepLine is one step: its sign, its number, its name, and how far it is.
func (p *prepScreen) stepLine(i, w int) string {
	s := p.steps()[i]
	tone, right := p.standing(s)
	mark, name := "  ", draw.Plain
	if i == p.at {
		mark, name = p.st.Signs.Here+" ", draw.Marked
	}
	if right != "" {
		right = " " + right
	}
	palette := &p.st.Palette
	head := palette.Paint(draw.Marked, mark) + palette.Paint(tone, p.st.Signs.For(tone)) + draw.FitRight(fmt.Sprint(i+1), 3) + " "
	return head + palette.Paint(name, draw.Fit(draw.Clean(s.Name), w-7-draw.Width(right))) + palette.Paint(tone, right)
}

// standing is the tone of a step, and in a word how far it is where it is not
// simply done or open.
func (p *prepScreen) standing(s prep.Step) (draw.Tone, string) {
	state := p.state()
	ticked, all := state.Spots(s)
	switch {
	case state.Done(s.ID) && state.ForcedAt(s) != "":
		return draw.Good, "forced"
	case state.Done(s.ID):
		return draw.Good, ""
	case state.LossOf(s, p.desk.Session.Layout()) != "":
		return draw.Bad, "again"
	case s.Way == prep.In && ticked > 0:
		t, _ := state.Tally(s.Tally)
		return draw.Warn, fmt.Sprintf("%d/%d", t.In+t.Accounted, t.Need)
	case ticked > 0:
		return draw.Warn, fmt.Sprintf("%d/%d", ticked, all)
	default:
		return draw.Dim, ""
	}
}

// foot says the tallies and what is not ready: always in sight.
func (p *prepScreen) foot() []string {
	palette, ready := &p.st.Palette, p.desk.Now.Ready
	tone, tally := draw.Plain, ready.Tally()
	for _, t := range ready.Tallies {
		if t.Wrong() != "" {
			tone = draw.Warn
		}
	}
	if tally == "" {
		tone, tally = draw.Dim, "nothing is counted out in this list"
	}
	title := fmt.Sprintf("%d of %d steps done", ready.Done, ready.Steps)
	lines := []string{
		palette.Paint(draw.Frame, draw.Rule(title, p.w, p.st.ASCII)),
		" " + palette.Paint(tone, draw.Cut(p.words(tally), p.w-1)),
	}
	return append(lines, draw.Box(p.st.readyLines(p.desk, p.w, 2), p.w, 2)...)
}

// readyLines say what is not ready, or that all is, in so many lines at most;
// none without a prep list.
func (st *Station) readyLines(d *Desk, w, most int) []string {
	ready := d.Now.Ready
	if !ready.Listed() {
		return nil
	}
	tone, text := draw.Bad, ready.NotReady()
	if text == "" {
		tone, text = draw.Good, fmt.Sprintf("prep ready: all %d steps done", ready.Steps)
	}
	return st.notReadyLines(tone, text, w, most)
}

// notReadyLines wraps a line on readiness into so many lines at most.
func (st *Station) notReadyLines(tone draw.Tone, text string, w, most int) []string {
	lines := draw.SomeClauses(st.Signs.For(tone)+" "+st.Signs.Text(draw.Clean(text)), w-2, most)
	for i := range lines {
		lines[i] = " " + st.Palette.Paint(tone, lines[i])
	}
	return lines
}

// words makes a sentence drawable.
func (p *prepScreen) words(text string) string { return p.st.Signs.Text(draw.Clean(text)) }

// wrapped breaks a sentence into lines of one tone.
func (p *prepScreen) wrapped(tone draw.Tone, text string, w int) []string {
	var out []string
	for _, line := range draw.Wrap(p.words(text), w) {
		out = append(out, p.st.Palette.Paint(tone, line))
	}
	return out
}

// panel is the step in hand: its name, what to do, the count or the place in
// large digits, what stands there, its places, and what can hurt.
func (p *prepScreen) panel(l prepLayout) []string {
	s := p.step()
	lines := []string{p.st.Palette.Paint(draw.Title, p.heading(s, l.right))}
	if p.menu {
		return append(lines, p.menuLines()...)
	}
	lines = append(lines, p.wrapped(draw.Plain, s.Text, l.right)...)
	text, tone := p.shown(s)
	big := draw.BigIn(text, l.right, l.big, p.st.ASCII)
	for i := range big {
		big[i] = p.st.Palette.Paint(tone, big[i])
	}
	blocks := [][]string{lines, big, p.meaning(s, l.right)}
	if p.keys.At != keying.Held && !p.asks() {
		grid := p.grid(s, l.right)
		used := len(lines) + len(big) + len(blocks[2]) + len(grid)
		blocks = append(blocks, grid, p.cautions(s, l.right, l.rows-used), p.values(s, l.right), p.wrapped(draw.Dim, "source: "+s.Source, l.right))
	}
	return spacedBlocks(blocks, l.rows)
}

// spacedBlocks puts blocks beneath each other: the first five always, with a
// blank line between where there is room for it, the others as long as they fit
// whole.
func spacedBlocks(blocks [][]string, rows int) []string {
	const always = 5
	least := -1
	for _, b := range blocks[:min(always, len(blocks))] {
		if len(b) > 0 {
			least += len(b) + 1
		}
	}
	var out []string
	for i, b := range blocks {
		if len(b) > 0 && len(out) > 0 && least <= rows {
			b = append([]string{""}, b...)
		}
		if i < always || len(out)+len(b) <= rows {
			out = append(out, b...)
		}
	}
	return out
}

// heading is the name of a step in spaced capitals where there is room, so that
// it can be read from afar.
func (p *prepScreen) heading(s prep.Step, w int) string {
	name := strings.ToUpper(draw.Clean(s.Name))
	if spaced := strings.Join(strings.Split(name, ""), " "); draw.Width(spaced) <= w {
		return spaced
	}
	return draw.Cut(name, w)
}

func (p *prepScreen) menuLines() []string {
	palette := &p.st.Palette
	lines := []string{""}
	for _, i := range prepMenu {
		text := i.name
		if i.off != nil && i.off(p) != "" {
			text = palette.Paint(draw.Dim, i.name+" (off)")
		}
		lines = append(lines, " "+palette.Paint(draw.Key, draw.Fit(i.key, 3))+" "+text)
	}
	return lines
}

// cautions tell what can hurt at a step, as far as there are rows for whole
// ones, and at least the first.
func (p *prepScreen) cautions(s prep.Step, w, rows int) []string {
	if len(s.Cautions) == 0 {
		return nil
	}
	var out []string
	for _, c := range s.Cautions {
		next := p.wrapped(draw.Warn, s.Caution(c), w)
		if len(out) > 0 && len(out)+len(next)+1 > rows {
			break
		}
		out = append(out, next...)
	}
	return append(out, p.st.Palette.Paint(draw.Dim, draw.Cut(p.words(prep.Defer), w)))
}
