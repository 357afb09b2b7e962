package engine

import (
	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Assessment is what a session's readings say: the figures of every feature
// and clearance, and the findings ranked worst first.
type Assessment struct {
	Head       record.Head
	Features   []Measured
	Clearances []Fit
	// Findings are all that was judged, worst first.
	Findings []Finding
	// Ready is where the prep stands.
	Ready Ready
	// Cylinders and Mains rank the members of the two lines, worst first.
	Cylinders, Mains []Ranking
	remedies         []Remedy // once they were asked for
}

// Measured is one feature's figures.
type Measured struct {
	Of      plan.Feature
	Name    string
	Stage   string
	Planned int
	Read    int
	LeftOut int
	// Grid is every figure read; Figures are of the directions that count for
	// the family (of a bearing only those square to the parting line).
	Grid    form.Grid
	Figures form.Figures
	AsFound form.Figures // of the stage before any work, where there was work
	Worked  bool
	// Suspect says that its sizes rest on a gauge whose zero cannot be believed.
	Suspect bool
	// Notes are what stays on its figures: see Session.Notes.
	Notes    []string
	Places   int // decimals the figures are shown with
	findings []Finding

	judgedGrid form.Grid
}

// Assess computes everything from the replayed state.
func Assess(s *Session) *Assessment {
	features, pairs := s.plan.Features(s.layout), s.pairs()
	a := &Assessment{Head: s.Head(), Features: make([]Measured, 0, len(features)), Clearances: make([]Fit, 0, len(pairs))}
	for _, f := range features {
		a.Features = append(a.Features, s.measure(f))
	}
	for _, p := range pairs {
		a.Clearances = append(a.Clearances, s.fit(a, p))
	}
	a.rank(s)
	a.Ready = s.ready()
	return a
}

// Again returns the assessment after an event that touched some features: only
// they and what they take part in are computed anew. It equals Assess.
func (a *Assessment) Again(s *Session, t Touched) *Assessment {
	if t.All {
		return Assess(s)
	}
	next := *a
	next.Head, next.Ready, next.remedies = s.Head(), s.ready(), nil
	if len(t.Features) == 0 {
		return &next
	}
	next.Features = append([]Measured(nil), a.Features...)
	next.Clearances = append([]Fit(nil), a.Clearances...)
	for _, f := range t.Features {
		next.measureAgain(s, f)
	}
	next.rank(s)
	return &next
}

func (a *Assessment) measureAgain(s *Session, f plan.Feature) {
	for i := range a.Features {
		if a.Features[i].Of == f {
			a.Features[i] = s.measure(f)
		}
	}
	for i := range a.Clearances {
		if p := a.Clearances[i].pair; p.touches(f) {
			a.Clearances[i] = s.fit(a, p)
		}
	}
}

// Feature returns a feature's figures; ok is false when it is not planned.
func (a *Assessment) Feature(f plan.Feature) (m Measured, ok bool) {
	return find(a.Features, func(m *Measured) bool { return m.Of == f })
}

// ClearancesOf returns the clearances a feature takes part in.
func (a *Assessment) ClearancesOf(f plan.Feature) []Fit {
	var out []Fit
	for _, c := range a.Clearances {
		if c.pair.touches(f) {
			out = append(out, c)
		}
	}
	return out
}

// measure computes one feature's figures and what is judged of them.
func (s *Session) measure(f plan.Feature) Measured {
	stage := s.Stage(f)
	m := Measured{Of: f, Name: s.Name(f), Stage: s.StageName(f, stage), Worked: stage > 0}
	m.Grid = s.grid(f, stage)
	m.Places = s.decimals(f)
	see := s.sees(f.Family)
	m.judgedGrid = judgedOnly(f.Family, m.Grid)
	m.Figures = form.Measure(m.judgedGrid, see)
	m.Planned, m.Read = count(m.Grid)
	if m.Worked {
		m.AsFound = form.Measure(judgedOnly(f.Family, s.grid(f, 0)), see)
	}
	for p := range s.plan.Each(f) {
		if s.IsLeftOut(p) {
			m.LeftOut++
		}
	}
	m.Suspect, m.Notes = s.suspect(f), s.Notes(f)
	m.findings = s.judge(m)
	return m
}

// grid lays a feature's figures of one stage out by level and direction.
func (s *Session) grid(f plan.Feature, stage int) form.Grid {
	g := s.values(f, stage)
	g.TwoContact = s.twoContact(f, stage)
	return g
}

// values is a grid but for what it was read with.
func (s *Session) values(f plan.Feature, stage int) form.Grid {
	group, _ := s.plan.Group(f.Family)
	rows, columns := len(group.Levels), len(group.Directions)
	g := form.Grid{
		Names: group.Directions, Angles: make([]int, 0, columns), Depths: make([]length.Exact, 0, rows),
		LevelNames: make([]string, 0, rows), Values: make([][]length.Exact, 0, rows),
	}
	for _, d := range group.Directions {
		deg, _ := plan.Angle(f.Family, d)
		g.Angles = append(g.Angles, deg)
	}
	for _, l := range group.Levels {
		g.Depths = append(g.Depths, l.Depth.Exact())
		g.LevelNames = append(g.LevelNames, l.Called())
		row := make([]length.Exact, columns)
		for i, d := range group.Directions {
			row[i] = s.Figure(plan.Place{Of: f, Level: l.ID, Dir: d}, stage)
		}
		g.Values = append(g.Values, row)
	}
	return g
}

// judgedOnly returns the part of a grid in the direction that alone counts for
// the family. Most families count them all.
func judgedOnly(f plan.Family, g form.Grid) form.Grid {
	t, _ := f.Traits()
	if t.Judged == "" {
		return g
	}
	return columns(g, t.Judged)
}

// count returns how many places a grid has and how many of them were read.
func count(g form.Grid) (planned, read int) {
	for _, row := range g.Values {
		for _, v := range row {
			planned++
			if v.Measured() {
				read++
			}
		}
	}
	return planned, read
}

// twoContact reports whether every reading of the feature came from a gauge
// with two contacts. A reading with no set is taken to be one.
func (s *Session) twoContact(f plan.Feature, stage int) bool {
	for p := range s.plan.Each(f) {
		for _, t := range s.At(p, stage) {
			if s.instrumentOf(t.Set).Contacts == 3 {
				return false
			}
		}
	}
	return true
}

// decimals returns how many decimals a feature's figures are shown with: the
// unit's usual, or one more when it was read finer, in this unit or another.
func (s *Session) decimals(f plan.Feature) int {
	u := s.Unit()
	places := u.Decimals()
	for p := range s.plan.Each(f) {
		for _, t := range s.Now(p) {
			if t.Size.Unit == u {
				places = max(places, t.Size.Places)
			}
			places = max(places, placesFor(t.Size, u), placesFor(t.Dev, u))
		}
	}
	return min(places, u.Decimals()+1)
}
