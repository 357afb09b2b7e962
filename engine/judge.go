package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Finding is one characteristic of one feature as judged.
type Finding struct {
	Of plan.Feature
	// With is the other feature of a clearance, else none.
	With plan.Feature
	On   limit.Characteristic
	By   limit.Definition
	// Value is what was judged, not measured when nothing was read.
	Value length.Exact
	// AsRead is the figure as it was read where Value is what it comes to
	// elsewhere: a ring's end gap at the smallest place of its travel. It is not
	// measured where Value is as read.
	AsRead length.Exact
	// Level and Dir are where it is worst, "" when it is of the whole feature.
	Level, Dir string
	Bound      bool // a bound, made from different levels
	Judgement  limit.Judgement
	Limits     *limit.Limits // not to be changed
	// Notes are what stays on its figure: see Session.Notes.
	Notes []string
	// Text is the finding as a sentence, with its notes.
	Text string
	// Doubt is how well the value is known, and what would settle the verdict.
	Doubt Doubt
	at    []int // positions in the summary line
}

// candidate is one value that a limit may be put to, and where it stands.
type candidate struct {
	value      length.Exact
	level, dir int // −1 for none
	bound      bool
}

// judge puts every limit of a feature to its figures.
func (s *Session) judge(a *Assessment, m *Measured) []Finding {
	limits := s.limitsOf(m.Of, func(on limit.Characteristic) bool {
		return on != limit.Clearance && on != limit.Step && (on != limit.OutOfRound || m.roundJudged())
	})
	out := make([]Finding, len(limits))
	for i, l := range limits {
		out[i] = s.judgeOne(a, m, l)
		out[i].Judgement.Suspect = m.Suspect && out[i].Value.Measured()
		s.note(&out[i], m.Of)
	}
	return out
}

// judgeOne puts one limit of a feature to its figures.
func (s *Session) judgeOne(a *Assessment, m *Measured, l *limit.Limits) Finding {
	by := s.definition(l)
	if l.On == limit.EndGap {
		return s.judgeGap(a, m, l, by)
	}
	var room [candidates]candidate
	return s.worstOf(put{m.Of, m.judgedGrid.Names, m.Places, l, by, func(c candidate) doubt.Figure {
		return s.figureOf(m, l, by, c)
	}}, candidatesOf(room[:0], m, l, by))
}

// roundJudged reports whether out-of-round may be judged: shells are eccentric
// by design.
func (m *Measured) roundJudged() bool {
	t, _ := m.Of.Family.Traits()
	return t.Judged == ""
}

// limitsOf returns the limits on some characteristics that hold for a feature: its
// own, and those of its family that its own do not replace. They are not to be
// changed.
func (s *Session) limitsOf(f plan.Feature, on func(limit.Characteristic) bool) []*limit.Limits {
	var out []*limit.Limits
	name := f.String()
	for i := range s.limits {
		l := &s.limits[i]
		if on(l.On) && (l.Of == name || l.Of == string(f.Family) && !s.replaced(l, name)) {
			out = append(out, l)
		}
	}
	return out
}

// replaced reports whether the feature of that name has the limits for itself.
func (s *Session) replaced(l *limit.Limits, name string) bool {
	return entry(s.limits, func(x *limit.Limits) bool { return x.Of == name && x.On == l.On && x.By == l.By }) != nil
}

// definition returns by which definition a limit is judged: its own, the
// session's, or the usual one.
func (s *Session) definition(l *limit.Limits) limit.Definition {
	switch {
	case l.By != "":
		return l.By
	case l.On == limit.Clearance && s.rules.Clearance != "":
		return s.rules.Clearance
	case s.rules.Definitions[string(l.On)] != "":
		return limit.Definition(s.rules.Definitions[string(l.On)])
	default:
		return limit.Usual(l.On)
	}
}

// put is a limit put to the figures of one feature or clearance.
type put struct {
	of     plan.Feature
	dirs   []string // names of the directions that candidates count
	places int
	limits *limit.Limits
	by     limit.Definition
	// figure is the candidate as a sum of readings.
	figure func(candidate) doubt.Figure
}

// worstOf judges every candidate and keeps the worst, with its doubt.
func (s *Session) worstOf(x put, cs []candidate) Finding {
	best := Finding{Of: x.of, On: x.limits.On, By: x.by, Limits: effective(x.limits), at: s.lineAt(x.of)}
	subject := limit.Subject{Kind: limit.KindOf(x.limits.On), Shape: x.of.Family.Shape(), Judge: s.rules.Judge}
	best.Judgement = best.Limits.Judge(length.Exact{}, subject)
	subject.Guard = s.rules.Decision == record.Guarded
	worst := -1
	for i, c := range cs {
		if subject.Guard {
			subject.Doubt = s.doubtOf(x.figure(c)).Expanded
		}
		j := best.Limits.Judge(c.value, subject)
		if worst >= 0 && limit.Compare(j, best.Judgement) >= 0 {
			continue
		}
		worst, best.Judgement, best.Value, best.Bound = i, j, c.value, c.bound
	}
	if worst >= 0 {
		best.Level, best.Dir = s.whereOf(x.of, x.dirs, cs[worst])
		s.weigh(&best, x.figure(cs[worst]), subject)
	}
	best.Text = s.sentence(&best, x.places)
	return best
}

// effective returns limits with those per length made plain. Those that are plain are
// not copied: it was a third of a finding.
func effective(l *limit.Limits) *limit.Limits {
	if l.Per.IsZero() && l.Travel.IsZero() {
		return l
	}
	made := l.Effective()
	return &made
}

func (s *Session) whereOf(f plan.Feature, dirs []string, c candidate) (level, dir string) {
	g, _ := s.plan.Group(f.Family)
	if c.level >= 0 && c.level < len(g.Levels) {
		level = g.Levels[c.level].ID
	}
	if c.dir >= 0 && c.dir < len(dirs) {
		dir = dirs[c.dir]
	}
	return level, dir
}

// candidates is how many candidates are judged on the stack; few features have more.
// In lists they were a fortieth of what a full assessment allocated.
const candidates = 32

// candidatesOf adds to a list the values of a feature that a limit is put to.
func candidatesOf(cs []candidate, m *Measured, l *limit.Limits, by limit.Definition) []candidate {
	f := &m.Figures
	if t, _ := m.Of.Family.Traits(); t.Figure == string(l.On) {
		return readingsOf(cs, m, by)
	}
	switch l.On {
	case limit.Size:
		return sizes(cs, m, by)
	case limit.OutOfRound:
		return withMeasured(cs, candidate{f.OutOfRound, f.OutOfRoundLevel, -1, false})
	case limit.OverallSpread:
		return withMeasured(cs, candidate{f.Overall, -1, -1, false})
	case limit.Taper:
		return tapers(cs, f, by, l.Signed())
	default:
		return cs
	}
}

// withMeasured adds a candidate that is measured.
func withMeasured(cs []candidate, c candidate) []candidate {
	if !c.value.Measured() {
		return cs
	}
	return append(cs, c)
}

func sizes(cs []candidate, m *Measured, by limit.Definition) []candidate {
	if by == limit.Average {
		return withMeasured(cs, candidate{m.Figures.Mean, -1, -1, false})
	}
	for i, row := range m.judgedGrid.Values {
		for k, v := range row {
			cs = withMeasured(cs, candidate{v, i, k, false})
		}
	}
	return cs
}

// readingsOf adds what a limit is put to where a reading is the figure.
func readingsOf(cs []candidate, m *Measured, by limit.Definition) []candidate {
	if by != limit.TotalReading {
		return sizes(cs, m, by)
	}
	if m.Read == 1 {
		return withMeasured(cs, candidate{m.Figures.Mean.Abs(), -1, -1, false})
	}
	return withMeasured(cs, candidate{m.Figures.Overall, -1, -1, false})
}

func tapers(cs []candidate, f *form.Figures, by limit.Definition, signed bool) []candidate {
	if by == limit.Spread {
		return withMeasured(cs, candidate{f.Spread, -1, f.SpreadDir, false})
	}
	if by == limit.Slope {
		return withMeasured(cs, candidate{f.SlopeTaper, -1, f.SlopeDir, false})
	}
	if !signed {
		return withMeasured(cs, candidate{f.EndToEnd.Abs(), -1, f.EndToEndDir, false})
	}
	for i, d := range f.Directions {
		cs = withMeasured(cs, candidate{d.EndToEnd, -1, i, false})
	}
	return cs
}
