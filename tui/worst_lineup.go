package tui

import (
	"slices"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// lineup is one line of the summary side by side, in the order of its
// positions: of each member its form, its clearance and the margin used.
type lineup struct {
	family  plan.Family
	group   plan.Group
	form    draw.Profiles
	about   length.Exact // the size that the forms are compared with
	by      string       // the definition of the clearances, "" without any
	members []member
}

// member is one of a lineup.
type member struct {
	engine.Ranking
	// clearance is its clearance, and tone that of the verdict on it, Plain where
	// none is judged; size is the mean size of what is drawn.
	clearance string
	tone      draw.Tone
	size      string
	marked    bool // the marked finding is one of its own
}

// lineups returns what there is to draw of the two lines: those of which a
// diameter is measured.
func (s *worst) lineups() []lineup {
	layout := s.desk.Session.Layout()
	var out []lineup
	for _, x := range []struct {
		line plan.Line
		of   []engine.Ranking
		n    int
	}{
		{plan.CylinderLine, s.desk.Now.Cylinders, layout.Cylinders},
		{plan.CrankLine, s.desk.Now.Mains, layout.Mains},
	} {
		if l, ok := s.lineup(x.line, x.of, x.n); ok {
			out = append(out, l)
		}
	}
	return out
}

// lineup lines up the members of a line by position, what has none last.
func (s *worst) lineup(line plan.Line, rs []engine.Ranking, n int) (l lineup, ok bool) {
	if l.group, ok = s.pictured(line, n); !ok {
		return l, false
	}
	l.family = l.group.Family
	rs = slices.Clone(rs)
	slices.SortStableFunc(rs, func(a, b engine.Ranking) int { return (a.At+n)%(n+1) - (b.At+n)%(n+1) })
	l.form = draw.Profiles{Kind: sectionKind(l.family), ASCII: s.st.ASCII, Palette: &s.st.Palette}
	for i := range l.group.Levels {
		l.form.Depths = append(l.form.Depths, depthOf(i, len(l.group.Levels)))
	}
	l.about = s.reference(l.group)
	for _, r := range rs {
		m := member{Ranking: r, marked: s.marks(r)}
		if r.At > 0 {
			f := s.desk.Session.FeatureAt(l.family, "", r.At)
			l.form.Of = append(l.form.Of, s.profile(l, r, f))
			s.clearance(&l, &m, f)
			if x, _ := s.desk.Now.Feature(f); x.Read > 0 {
				m.size = x.Figures.Mean.Format(s.desk.Session.Unit(), x.Places)
			}
		}
		l.members = append(l.members, m)
	}
	return l, true
}

// pictured returns what is drawn of a line of n members: the first family with
// a diameter, of which each member has one.
func (s *worst) pictured(line plan.Line, n int) (plan.Group, bool) {
	for _, t := range plan.Families() {
		drawn := t.Line == line && t.Shape != plan.NoShape && t.Figure == ""
		if g, ok := s.desk.Session.Plan().Group(t.Family); ok && drawn && t.Count(s.desk.Session.Layout()) == n {
			return g, true
		}
	}
	return plan.Group{}, false
}

// reference is the size that all forms of a family are compared with: the
// nominal, or the mean of what was read.
func (s *worst) reference(g plan.Group) length.Exact {
	if !g.Nominal.IsZero() {
		return g.Nominal.Exact()
	}
	var means []length.Exact
	for _, m := range s.desk.Now.Features {
		if m.Of.Family == g.Family {
			means = append(means, m.Figures.Mean)
		}
	}
	return length.MeanOf(means...)
}

// profile is the form of one feature, with a sign where its member is worst
// when that is not inside.
func (s *worst) profile(l lineup, r engine.Ranking, of plan.Feature) draw.Profile {
	var p draw.Profile
	m, ok := s.desk.Now.Feature(of)
	if !ok {
		return p
	}
	part := func(x length.Exact) float64 { return x.Sub(l.about).Float() / l.about.Float() }
	for _, x := range m.Figures.Levels {
		var span draw.Span
		if x.Smallest.Measured() && l.about.Sign() > 0 {
			span = draw.Span{Least: part(x.Smallest), Most: part(x.Largest), Measured: true}
		}
		p.Levels = append(p.Levels, span)
	}
	worst, ok := r.Worst()
	at := slices.IndexFunc(l.group.Levels, func(x plan.Level) bool { return x.ID == worst.Level })
	tone := verdictTone(worst.Judgement)
	if ok && worst.Of == of && at >= 0 && (tone == draw.Bad || tone == draw.Warn) {
		p.At, p.Tone, p.Sign = at, tone, s.st.Signs.For(tone)
	}
	return p
}

// clearance puts the clearance that a feature takes part in into its member.
func (s *worst) clearance(l *lineup, m *member, of plan.Feature) {
	for _, c := range s.desk.Now.ClearancesOf(of) {
		if c.Hole != of && c.Shaft != of {
			continue
		}
		l.by = string(c.Clearance.By)
		if !c.Clearance.Judged.Measured() {
			continue // it may be known from parts
		}
		m.clearance = c.Clearance.Judged.Format(s.desk.Session.Unit(), c.Places)
		for _, f := range m.Findings {
			if f.On == limit.Clearance && f.Of == c.Hole && f.With == c.Shaft && f.Value.Measured() {
				m.tone = verdictTone(f.Judgement)
				return
			}
		}
		return
	}
}

// marks reports whether the marked finding is one of a member's.
func (s *worst) marks(r engine.Ranking) bool {
	fs := s.findings()
	if s.list.at >= len(fs) {
		return false
	}
	at := fs[s.list.at]
	return slices.ContainsFunc(r.Findings, func(f *engine.Finding) bool {
		return f.Of == at.Of && f.With == at.With && f.On == at.On && f.By == at.By
	})
}

// used is the finding by which a member's margin is shown: the worst that is
// measured.
func (m member) used() (engine.Finding, bool) {
	i := slices.IndexFunc(m.Findings, func(f *engine.Finding) bool { return f.Judgement.Verdict != limit.NotMeasured })
	if i < 0 {
		return engine.Finding{}, false
	}
	return *m.Findings[i], true
}
