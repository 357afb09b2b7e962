package sheet

import (
	"fmt"
	"math"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// How deep a drawn feature is and the pitch of rows of panels, in points, and
// how many panels a row has at most.
const (
	deep      = 62.0
	panelHigh = 100.0
	perRow    = 8
)

// panels is how the panels of a picture are laid out, in points: so many in a
// row, their pitch, the middle of one to the wall of the smallest size, and how
// far the largest stands further out.
type panels struct {
	row                int
	pitch, half, bulge float64
}

// panelsOf lays out so many panels in rows that are as full as one another.
func panelsOf(n int) panels {
	rows := (n + perRow - 1) / perRow
	row := (n + rows - 1) / rows
	pitch := wide / float64(max(row, 6))
	return panels{row, pitch, 0.23 * pitch, 0.18 * pitch}
}

var dirInks = [...]Ink{Blue, Rust, Black, Grey}

// drawn is one feature in one stage as it is drawn.
type drawn struct {
	of    plan.Feature
	stage int
}

// forms draws the shape of every feature of a family that is read at several
// levels, as found and now, on one scale.
func forms(v view, g plan.Group) []Picture {
	if len(g.Levels) < 2 {
		return nil
	}
	var all []drawn
	var sizes []length.Exact
	for _, m := range v.a.Features {
		if m.Of.Family != g.Family {
			continue
		}
		for _, stage := range stagesOf(v, m) {
			d := drawn{m.Of, stage}
			if seen := v.sizes(g, d); len(seen) > 0 {
				all, sizes = append(all, d), append(sizes, seen...)
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	return []Picture{v.formPicture(g, all, length.Min(sizes...), length.Max(sizes...))}
}

func stagesOf(v view, m *engine.Measured) []int {
	if now := v.s.Stage(m.Of); m.Worked && now > 0 {
		return []int{0, now}
	}
	return []int{v.s.Stage(m.Of)}
}

// sizes are the figures of a feature in a stage, those that are measured.
func (v view) sizes(g plan.Group, d drawn) []length.Exact {
	var out []length.Exact
	for _, l := range g.Levels {
		for _, dir := range g.Directions {
			if e := v.s.Figure(plan.Place{Of: d.of, Level: l.ID, Dir: dir}, d.stage); e.Measured() {
				out = append(out, e)
			}
		}
	}
	return out
}

func (v view) formPicture(g plan.Group, all []drawn, low, high length.Exact) Picture {
	at := panelsOf(len(all))
	p := Picture{W: wide, H: panelHigh*math.Ceil(float64(len(all))/float64(at.row)) + 14}
	scale := 0.0
	if span := high.Float() - low.Float(); span > 0 {
		scale = at.bulge / span
	}
	p.Caption = v.formCaption(g, low, scale, at.half)
	for i, d := range all {
		x, y := at.pitch*(float64(i%at.row)+0.5), panelHigh*float64(i/at.row)+6
		p.panel(v, g, d, panel{low, scale, x, y, at.half})
	}
	x := 0.0
	for i, dir := range g.Directions {
		y := p.H - 5
		p.Lines = append(p.Lines, Line{[][2]float64{{x, y - 3}, {x + 14, y - 3}}, dirInks[i], false, 1.4})
		p.Words = append(p.Words, Word{X: x + 18, Y: y, Size: 7.5, Text: engine.DirName(dir), Ink: dirInks[i]})
		x += 80
	}
	return p
}

// formCaption says what is drawn and by how much it is exaggerated.
func (v view) formCaption(g plan.Group, low length.Exact, scale, half float64) string {
	text := fmt.Sprintf("Forms of %s, %s above: the thin lines are %s %s, the smallest of all",
		g.Family.Plural(), g.Levels[0].Called(), v.figure(low), v.u)
	if scale == 0 {
		return text + "; all are the same"
	}
	times := scale * low.Float() / (2 * half)
	return text + fmt.Sprintf("; each side shows the whole diametral difference, about %s times as large as it is", rough(times))
}

// rough writes a number with two significant digits, without decimals.
func rough(x float64) string {
	step := math.Pow(10, math.Max(0, math.Floor(math.Log10(math.Max(x, 1)))-1))
	return fmt.Sprintf("%.0f", math.Round(x/step)*step)
}

// panel is where one feature is drawn: its middle and top, half the smallest
// size, and how far a difference from it stands out.
type panel struct {
	low               length.Exact
	scale, x, y, half float64
}

func (p *Picture) panel(v view, g plan.Group, d drawn, at panel) {
	x, y := at.x, at.y
	p.Boxes = append(p.Boxes, Box{x - at.half, y, 2 * at.half, deep, Pale})
	for _, side := range []float64{-1, 1} {
		wall := x + side*at.half
		p.Lines = append(p.Lines, Line{[][2]float64{{wall, y}, {wall, y + deep}}, Grey, true, 0.4})
		for i, dir := range g.Directions {
			var points [][2]float64
			for j, l := range g.Levels {
				e := v.s.Figure(plan.Place{Of: d.of, Level: l.ID, Dir: dir}, d.stage)
				if e.Measured() {
					out := at.scale * (e.Float() - at.low.Float())
					points = append(points, [2]float64{wall + side*out, y + deep*float64(j)/float64(len(g.Levels)-1)})
				}
			}
			if len(points) > 1 {
				p.Lines = append(p.Lines, Line{points, dirInks[i], false, 1.2})
			}
		}
	}
	p.Words = append(p.Words,
		Word{X: x, Y: y + deep + 12, Size: 7.5, Text: v.s.Name(d.of), Align: Middle},
		Word{X: x, Y: y + deep + 21, Size: 7, Text: v.s.StageName(d.of, d.stage), Align: Middle, Ink: Grey})
}
