package tui

import (
	"slices"

	"borewright/engine"
	"borewright/engine/plan"
)

// broughtTo are the families whose figure is brought to a size, in their order.
var broughtTo = []plan.Family{plan.RingGap, plan.EndPlay, plan.RodSide, plan.Liner, plan.Deck}

// makeGaps lists the ring gaps and whatever else is brought to a figure.
func (s *fits) makeGaps() fitsPage {
	p := fitsPage{
		name: gapsPage, as: "as it is", best2: "to bring to",
		asks: func(r fitsRow) string { return "key the figure to bring " + r.name + " to" },
		read: func(r fitsRow, text string) ([]engine.Change, error) {
			w, err := s.readSize(r.of.Family, text)
			did := engine.Bring
			if r.of.Family == plan.RingGap {
				did = engine.File
			}
			return []engine.Change{{Did: did, Of: r.of, Size: w}}, err
		},
	}
	for _, m := range s.desk.Now.Features {
		if !slices.Contains(broughtTo, m.Of.Family) || m.Read == 0 {
			continue
		}
		row := fitsRow{name: m.Name, of: m.Of, asIs: s.gapCell(s.desk.Now, m.Of), tried: s.gapCell(s.now().a, m.Of)}
		if row.best = s.remedyFor(m.Of); len(row.best) > 0 {
			row.finer = fitsCell{part: row.best[0].Size.Number()}
		}
		p.best = append(p.best, row.best...)
		row.about = s.gapAbout(m.Of)
		p.rows = append(p.rows, row)
	}
	return p
}

// gapCell is a figure and its worst finding.
func (s *fits) gapCell(a *engine.Assessment, of plan.Feature) fitsCell {
	return fitsCell{"", meanOf(a, of), worstOf(a, of)}
}

// gapAbout says what is judged and, of a ring, what its gap is where it is
// smallest and what it should be.
func (s *fits) gapAbout(of plan.Feature) []string {
	now := s.now()
	var out []string
	if f := worstOf(now.a, of); f.Text != "" {
		out = append(out, f.Text)
	}
	if of.Family != plan.RingGap {
		return out
	}
	r := now.s.Ring(now.a, of)
	u := s.desk.Session.Unit()
	if r.Corrected {
		out = append(out, "judged as it is at the smallest place of its travel: "+r.Gap.Format(u, u.Decimals()+1)+" "+u.String()+" there")
	}
	if r.Target.Measured() {
		out = append(out, r.Target.Format(u, u.Decimals()+1)+" "+u.String()+" by the given factor")
	}
	return append(out, r.Missing...)
}
