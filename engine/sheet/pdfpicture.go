package sheet

import "codeberg.org/go-pdf/fpdf"

// picture draws a picture with its caption below, on one page.
func (p *printer) picture(x Picture) {
	p.space(4)
	p.room(p.high(x))
	for _, b := range x.Boxes {
		p.fill(b.Ink)
		p.f.Rect(edge+b.X, p.y+b.Y, b.W, b.H, "F")
	}
	for _, r := range x.Rounds {
		p.fill(r.Ink)
		p.pen(Black, 1)
		p.f.Circle(edge+r.X, p.y+r.Y, r.R, "FD")
	}
	for _, l := range x.Lines {
		p.line(l)
	}
	for _, w := range x.Words {
		p.label(w)
	}
	p.y += x.H
	p.paragraph(x.Caption, 7.5, Grey)
	p.space(4)
}

// high is the room that a picture takes with its caption.
func (p *printer) high(x Picture) float64 {
	p.font("", 7.5, Grey)
	caption := float64(len(p.wrap(x.Caption, wide))) * 10.5
	return min(x.H+caption+4, foot-120)
}

func (p *printer) line(l Line) {
	p.pen(l.Ink, l.Width)
	if l.Dashed {
		p.f.SetDashPattern([]float64{2, 2}, 0)
	}
	points := make([]fpdf.PointType, len(l.Points))
	for i, at := range l.Points {
		points[i] = fpdf.PointType{X: edge + at[0], Y: p.y + at[1]}
	}
	p.f.MoveTo(points[0].X, points[0].Y)
	for _, at := range points[1:] {
		p.f.LineTo(at.X, at.Y)
	}
	p.f.DrawPath("D")
	p.f.SetDashPattern(nil, 0)
}

func (p *printer) label(w Word) {
	p.font("", w.Size, w.Ink)
	text := drawable(w.Text)
	x := edge + w.X
	switch w.Align {
	case Left:
	case Middle:
		x -= p.f.GetStringWidth(text) / 2
	case Right:
		x -= p.f.GetStringWidth(text)
	}
	p.f.Text(x, p.y+w.Y, text)
}
