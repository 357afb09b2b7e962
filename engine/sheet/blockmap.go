package sheet

import (
	"borewright/engine"
	"borewright/engine/plan"
)

// wide is how wide a picture may be: an A4 page less its margins.
const wide = 515.0

// blockMap is the map of the block: cylinders and mains where they are, front
// to the left, each by its worst.
func blockMap(v view) []Picture {
	l := v.s.Layout()
	if l.Cylinders == 0 {
		return nil
	}
	p := Picture{Caption: "The map of the block, seen from above, front to the left: each cylinder and main by the worst of it", W: wide}
	rows := max(1, l.Banks())
	each := (l.Cylinders + rows - 1) / rows
	pitch := min(78, (wide-70)/float64(max(each, l.Mains-1, 1)))
	r := min(24, pitch/2-3)
	y := r + 6
	verdicts := byPosition(v.a.Cylinders)
	for i := range l.Cylinders {
		row, col := i/each, i%each
		at := y + float64(row)*(2*r+26)
		label := l.Label(plan.Feature{Family: plan.Bore, At: i + 1})
		p.cylinder(50+pitch*(float64(col)+0.5), at, r, label, verdicts[i+1])
	}
	y += float64(rows)*(2*r+26) - r
	mains := byPosition(v.a.Mains)
	for i := range l.Mains {
		x := 50 + pitch*float64(each)*(float64(i)+0.5)/float64(l.Mains)
		p.main(x, y, l.Label(plan.Feature{Family: plan.MainJournal, At: i + 1}), mains[i+1])
	}
	p.Words = append(p.Words, Word{X: 0, Y: r + 10, Size: 8, Text: "cylinders", Ink: Grey}, Word{X: 0, Y: y + 12, Size: 8, Text: "mains", Ink: Grey})
	p.H = y + 34
	return []Picture{p}
}

// spot is how a position is.
type spot struct {
	tone Tone
	word string
}

func byPosition(rs []engine.Ranking) map[int]spot {
	out := map[int]spot{}
	for _, r := range rs {
		if f, ok := r.Worst(); ok {
			out[r.At] = spot{toneOf(f.Judgement), engine.VerdictText(f.Judgement)}
		}
	}
	return out
}

func (s spot) words() string {
	if s.word == "" {
		return "not judged"
	}
	return s.word
}

func (p *Picture) cylinder(x, y, r float64, label string, s spot) {
	p.Rounds = append(p.Rounds, Round{x, y, r, paleOf(s.tone)})
	p.Words = append(p.Words,
		Word{X: x, Y: y + 5, Size: 14, Text: label, Align: Middle},
		Word{X: x, Y: y + r + 10, Size: 7, Text: s.words(), Align: Middle})
}

func (p *Picture) main(x, y float64, label string, s spot) {
	p.Boxes = append(p.Boxes, Box{x - 13, y, 26, 18, paleOf(s.tone)})
	p.Words = append(p.Words,
		Word{X: x, Y: y + 13, Size: 10, Text: label, Align: Middle},
		Word{X: x, Y: y + 28, Size: 6.5, Text: s.words(), Align: Middle})
}
