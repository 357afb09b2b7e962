package engine

import (
	"slices"

	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Assessment is what a session's readings say: the figures of every feature
// and clearance, and the findings ranked worst first. What it points to is never
// changed: an assessment shares with the one before it what was not touched.
type Assessment struct {
	Head       record.Head
	Features   []*Measured
	Clearances []*Fit
	// Findings are all that was judged, worst first.
	Findings []*Finding
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
	AsFound *form.Figures // of the stage before any work; nil where there was none
	Worked  bool
	// Suspect says that its sizes rest on a gauge whose zero cannot be believed.
	Suspect bool
	// Notes are what stays on its figures: see Session.Notes.
	Notes    []string
	Places   int // decimals the figures are shown with
	findings []Finding

	judgedGrid *form.Grid // Grid itself where all directions count
	belief     belief
}

// Assess computes everything from the replayed state.
func Assess(s *Session) *Assessment {
	features, pairs := s.plan.Features(s.layout), s.pairs()
	a := &Assessment{Head: s.Head(), Features: make([]*Measured, len(features)), Clearances: make([]*Fit, len(pairs))}
	var x measurer
	for i, f := range features {
		a.Features[i] = s.measure(f, &x)
	}
	for _, m := range a.Features {
		m.findings = s.judge(a, m)
	}
	for i, p := range pairs {
		a.Clearances[i] = s.fit(a, p)
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
	next.Features = slices.Clone(a.Features)
	next.Clearances = slices.Clone(a.Clearances)
	next.measureAgain(s, t.Features)
	next.rank(s)
	return &next
}

func (a *Assessment) measureAgain(s *Session, touched []plan.Feature) {
	var x measurer
	for i, m := range a.Features {
		if slices.Contains(touched, m.Of) {
			a.Features[i] = s.measure(m.Of, &x)
		}
	}
	for _, m := range a.Features {
		if slices.Contains(touched, m.Of) {
			m.findings = s.judge(a, m)
		}
	}
	for i, c := range a.Clearances {
		if slices.ContainsFunc(touched, c.pair.touches) {
			a.Clearances[i] = s.fit(a, c.pair)
		}
	}
}

// Feature returns a feature's figures; ok is false when it is not planned.
func (a *Assessment) Feature(f plan.Feature) (m Measured, ok bool) {
	x := a.feature(f)
	return *x, x != &unplanned
}

// feature is Feature where it stands, and unplanned when it is not planned.
func (a *Assessment) feature(f plan.Feature) *Measured {
	for _, m := range a.Features {
		if m.Of == f {
			return m
		}
	}
	return &unplanned
}

// unplanned stands for every feature that is not planned.
var unplanned = Measured{judgedGrid: &form.Grid{}}

// ClearancesOf returns the clearances a feature takes part in.
func (a *Assessment) ClearancesOf(f plan.Feature) []*Fit {
	var out []*Fit
	for _, c := range a.Clearances {
		if c.pair.touches(f) {
			out = append(out, c)
		}
	}
	return out
}

// measurer is for the features of one session, one after another.
type measurer struct {
	form.Meter
	family plan.Family
	frame  form.Grid // that of the family
	sizes  []length.Exact
}

// frameOf returns the grid of a group without figures. The features of a family, which
// come one after another, share it: a thirtieth of what a full assessment allocated.
func (x *measurer) frameOf(group *plan.Group) form.Grid {
	if x.family == group.Family {
		return x.frame
	}
	g := form.Grid{Names: group.Directions}
	for _, d := range group.Directions {
		deg, _ := plan.Angle(group.Family, d)
		g.Angles = append(g.Angles, deg)
	}
	for i := range group.Levels {
		l := &group.Levels[i]
		g.Depths, g.LevelNames = append(g.Depths, l.Depth.Exact()), append(g.LevelNames, l.Called())
	}
	x.family, x.frame = group.Family, g
	return g
}

// meanOf is the exact mean of readings. They share one list: with one for each place it
// was a tenth of what a repeat allocated after thousands of them.
func (x *measurer) meanOf(s *Session, list []Taken) length.Exact {
	x.sizes = s.sizesOf(x.sizes[:0], list)
	return length.MeanOf(x.sizes...)
}

// measure computes one feature's figures.
func (s *Session) measure(f plan.Feature, x *measurer) *Measured {
	stage := s.Stage(f)
	m := &Measured{Of: f, Name: s.Name(f), Stage: s.StageName(f, stage), Worked: stage > 0}
	spots := s.spotsOf(f)
	m.Grid = s.grid(x, f, stage, spots)
	m.Places = s.decimals(stage, spots)
	see := s.sees(f.Family)
	m.judgedGrid = judgedOnly(f.Family, &m.Grid)
	m.Figures = x.Measure(*m.judgedGrid, see)
	m.Planned, m.Read = count(m.Grid)
	if m.Worked {
		found := s.grid(x, f, 0, spots)
		figures := x.Measure(*judgedOnly(f.Family, &found), see)
		m.AsFound = &figures
	}
	for _, sp := range spots {
		if s.leftOut(f, sp) {
			m.LeftOut++
		}
	}
	m.belief = s.believe(f, stage, spots)
	m.Suspect, m.Notes = s.suspects(f, m.belief), s.Notes(f)
	return m
}

// grid lays a feature's figures of one stage out by level and direction.
func (s *Session) grid(x *measurer, f plan.Feature, stage int, spots []*spot) form.Grid {
	group, _ := s.plan.Group(f.Family)
	rows, columns := len(group.Levels), len(group.Directions)
	all := make([]length.Exact, rows*columns)
	g := x.frameOf(&group)
	g.TwoContact, g.Values = s.twoContact(stage, spots), make([][]length.Exact, rows)
	for i := range g.Values {
		row := all[i*columns : (i+1)*columns : (i+1)*columns]
		for k := range row {
			row[k] = x.meanOf(s, spots[s.plan.Nth(group, i, k)].at(stage))
		}
		g.Values[i] = row
	}
	return g
}

// judgedOnly returns the part of a grid in the direction that alone counts for
// the family. Most families count them all.
func judgedOnly(f plan.Family, g *form.Grid) *form.Grid {
	t, _ := f.Traits()
	if t.Judged == "" {
		return g
	}
	judged := columns(*g, t.Judged)
	return &judged
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
func (s *Session) twoContact(stage int, spots []*spot) bool {
	for _, sp := range spots {
		for _, t := range sp.at(stage) {
			if s.instrumentOf(t.Set).Contacts == 3 {
				return false
			}
		}
	}
	return true
}

// decimals returns how many decimals a feature's figures are shown with: the
// unit's usual, or one more when it was read finer, in this unit or another.
func (s *Session) decimals(stage int, spots []*spot) int {
	u := s.Unit()
	places := u.Decimals()
	for _, sp := range spots {
		for _, t := range sp.at(stage) {
			if t.Size.Unit == u {
				places = max(places, t.Size.Places)
			}
			places = max(places, placesFor(t.Size, u), placesFor(t.Dev, u))
		}
	}
	return min(places, u.Decimals()+1)
}
