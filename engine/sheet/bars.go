package sheet

import (
	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// bar is one clearance with the limits that judge it.
type bar struct {
	fit       *engine.Fit
	low, high length.Exact
	tone      Tone
}

// bars are pictures of clearances against their limits, one of each family of
// holes, which share a scale.
func bars(v view) []Picture {
	var order []plan.Family
	rows := map[plan.Family][]bar{}
	for _, c := range v.a.Clearances {
		if !c.Clearance.Tightest.Measured() {
			continue
		}
		f := c.Hole.Family
		if rows[f] == nil {
			order = append(order, f)
		}
		rows[f] = append(rows[f], v.barOf(c))
	}
	var out []Picture
	for _, f := range order {
		out = append(out, v.barPicture(f, rows[f]))
	}
	return out
}

func (v view) barOf(c *engine.Fit) bar {
	b := bar{fit: c}
	for _, f := range v.a.Findings {
		if f.On == limit.Clearance && f.Of == c.Hole && f.With == c.Shaft {
			b.low, b.high, b.tone = f.Judgement.Low, f.Judgement.High, toneOf(f.Judgement)
			break
		}
	}
	return b
}

// axis places figures between two ends.
type axis struct{ from, to, x, w float64 }

func (a axis) at(e length.Exact) float64 {
	if a.to <= a.from {
		return a.x
	}
	return a.x + a.w*(e.Float()-a.from)/(a.to-a.from)
}

// axisOf returns the axis that holds all of the bars and their limits.
func axisOf(bars []bar, x, w float64) axis {
	var all []length.Exact
	for _, b := range bars {
		for _, e := range []length.Exact{b.fit.Clearance.Tightest, b.fit.Clearance.Loosest, b.low, b.high} {
			if e.Measured() {
				all = append(all, e)
			}
		}
	}
	from, to := length.Min(all...).Float(), length.Max(all...).Float()
	pad := (to - from) / 12
	return axis{from - pad, to + pad, x, w}
}

func (v view) barPicture(f plan.Family, bars []bar) Picture {
	const left, right, step = 130.0, 150.0, 20.0
	p := Picture{
		Caption: "Clearances of " + f.Plural() + " against their limits: the pale band is what is allowed, the bar goes from tightest to loosest, the stroke is the mean",
		W:       wide, H: step*float64(len(bars)) + 8,
	}
	a := axisOf(bars, left, wide-left-right)
	for i, b := range bars {
		y := step*float64(i) + 4
		p.bar(a, y, b)
		c := b.fit.Clearance
		p.Words = append(p.Words,
			Word{X: 0, Y: y + 11, Size: 8, Text: v.s.Name(b.fit.Hole)},
			Word{X: wide - right + 10, Y: y + 11, Size: 8, Text: v.figure(c.Tightest) + " to " + v.figure(c.Loosest) + " " + v.u.String()})
	}
	return p
}

func (p *Picture) bar(a axis, y float64, b bar) {
	from, to := a.x, a.x+a.w
	p.Boxes = append(p.Boxes, Box{from, y, a.w, 15, Pale})
	if b.low.Measured() {
		from = a.at(b.low)
	}
	if b.high.Measured() {
		to = a.at(b.high)
	}
	if b.low.Measured() || b.high.Measured() {
		p.Boxes = append(p.Boxes, Box{from, y, to - from, 15, PaleGood})
	}
	for _, e := range []length.Exact{b.low, b.high} {
		if e.Measured() {
			p.Lines = append(p.Lines, Line{[][2]float64{{a.at(e), y}, {a.at(e), y + 15}}, Grey, false, 1})
		}
	}
	ink := Blue
	if b.tone == Bad {
		ink = Rust
	}
	c := b.fit.Clearance
	p.Boxes = append(p.Boxes, Box{a.at(c.Tightest) - 0.5, y + 5, a.at(c.Loosest) - a.at(c.Tightest) + 1, 5, ink})
	if c.Mean.Measured() {
		p.Lines = append(p.Lines, Line{[][2]float64{{a.at(c.Mean), y + 2}, {a.at(c.Mean), y + 13}}, Black, false, 1})
	}
}
