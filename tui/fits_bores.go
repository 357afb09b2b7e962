package tui

import (
	"strings"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// makeBores lists the bores: their clearance as it is and with a hone size
// tried, what there is to take at each level and where to dwell.
func (s *fits) makeBores() fitsPage {
	p := fitsPage{
		name: boresPage, as: "as it is", best2: "to hone to",
		asks: func(r fitsRow) string { return "key the size to hone " + r.name + " to" },
		read: func(r fitsRow, text string) ([]engine.Change, error) {
			w, err := s.readSize(plan.Bore, text)
			return []engine.Change{{Did: engine.Hone, Of: r.of, Size: w}}, err
		},
	}
	now := s.now()
	for _, m := range s.desk.Now.Features {
		if m.Of.Family != plan.Bore {
			continue
		}
		row := fitsRow{name: m.Name, of: m.Of, asIs: s.boreCell(s.desk.Now, m.Of), tried: s.boreCell(now.a, m.Of)}
		row.best = s.remedyFor(m.Of)
		if len(row.best) > 0 {
			row.finer = fitsCell{part: row.best[0].Size.Number()}
		}
		p.best = append(p.best, row.best...)
		row.about = s.boreAbout(m.Of)
		p.rows = append(p.rows, row)
	}
	return p
}

// boreCell is a bore's sizes, its clearance, and whichever of its findings is
// the worst.
func (s *fits) boreCell(a *engine.Assessment, of plan.Feature) fitsCell {
	m, _ := a.Feature(of)
	u := s.desk.Session.Unit()
	part := m.Figures.Smallest.Format(u, u.Decimals())
	if m.Figures.Smallest != m.Figures.Largest {
		part += "-" + lastDigits(m.Figures.Largest.Format(u, u.Decimals()))
	}
	return fitsCell{part, worstOf(a, of, limit.Clearance).Value, worstOf(a, of)}
}

// lastDigits are the last three decimals of a figure, beside one in full.
func lastDigits(text string) string {
	if _, after, ok := strings.Cut(text, "."); ok && len(after) > 3 {
		return after[len(after)-3:]
	}
	return text
}

// boreAbout says what there is to take and where to dwell, or what is missing.
func (s *fits) boreAbout(of plan.Feature) []string {
	session := s.desk.Session
	target := s.target
	if aim := s.aimOf(of); aim.Measured() {
		target = aim
	}
	text, missing := session.HoneText(s.desk.Now, of, target)
	out := []string{text}
	if f := worstOf(s.now().a, of); f.Text != "" {
		out = append(out, "worst of it: "+f.Text)
	}
	out = append(out, missing...)
	if fits, ok := session.Sizes(plan.Piston, meanOf(s.now().a, of)); ok {
		out = append(out, "piston sizes: "+fits.String())
	}
	return out
}

func meanOf(a *engine.Assessment, of plan.Feature) length.Exact {
	m, _ := a.Feature(of)
	return m.Figures.Mean
}
