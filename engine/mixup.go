package engine

import (
	"math"
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Mixup is what the readings of a finished feature look like when they were
// taken in another one, or in another order of its levels.
type Mixup struct {
	// Of is the feature they were keyed for, As the one they look like: the same
	// one when only the order of the levels is mirrored.
	Of, As plan.Feature
	// Text asks about it in a sentence, Moved puts it right.
	Text  string
	Moved record.Moved
}

// Mixup compares a finished feature's present readings with its own earlier
// ones and with those of its sisters. It reports one when they fit a sister's,
// or the mirror of their own, better than their own by more than the gauge's
// noise. A feature that was read only once has nothing to be compared with.
func (s *Session) Mixup(f plan.Feature) (m Mixup, ok bool) {
	places := s.plan.Places(f)
	for _, p := range places {
		if len(s.Now(p)) == 0 {
			return Mixup{}, false
		}
	}
	own, known := s.misfit(places, places)
	if !known {
		return Mixup{}, false
	}
	best, as := own-s.mixNoise(f), []plan.Place(nil)
	for _, other := range s.looksLike(f) {
		if d, known := s.misfit(places, other); known && d < best {
			best, as = d, other
		}
	}
	if as == nil {
		return Mixup{}, false
	}
	return s.mixup(f, places, as), true
}

// looksLike returns the places that a feature's could be mistaken for, in the
// order of its own: those of each sister, and its own from the other end.
func (s *Session) looksLike(f plan.Feature) [][]plan.Place {
	out := [][]plan.Place{s.mirrored(f)}
	for _, g := range s.plan.Features(s.layout) {
		if g.Family == f.Family && g.Part == f.Part && g != f {
			out = append(out, s.plan.Places(g))
		}
	}
	return out
}

// mirrored returns a feature's places with its levels in the opposite order.
func (s *Session) mirrored(f plan.Feature) []plan.Place {
	g, _ := s.plan.Group(f.Family)
	places := slices.Clone(s.plan.Places(f))
	for i, p := range places {
		at := slices.IndexFunc(g.Levels, func(l plan.Level) bool { return l.ID == p.Level })
		places[i].Level = g.Levels[len(g.Levels)-1-at].ID
	}
	return places
}

// misfit is by how much, in picometres and as a root mean square, the present
// readings at places differ from the earlier ones at others; known is false
// when fewer than three of them were read earlier.
func (s *Session) misfit(places, earlier []plan.Place) (d float64, known bool) {
	var sum float64
	n := 0
	for i, p := range places {
		before := s.before(earlier[i], p.Of)
		if !before.Measured() {
			continue
		}
		x := s.Figure(p, s.Stage(p.Of)).Sub(before).Float()
		sum, n = sum+x*x, n+1
	}
	if n < 3 || n < len(places) {
		return 0, false
	}
	return math.Sqrt(sum / float64(n)), true
}

// before returns a place's earlier figure: of its own feature what was replaced
// or read before the last work, of a sister what stands there.
func (s *Session) before(p plan.Place, present plan.Feature) length.Exact {
	stage := s.Stage(p.Of)
	if p.Of != present {
		return s.Figure(p, stage)
	}
	if x := s.replacedFigure(p, stage); x.Measured() {
		return x
	}
	if stage == 0 {
		return length.Exact{}
	}
	return s.Figure(p, stage-1)
}

// replacedFigure is the figure that stood at a place before its list was begun
// afresh, in the same stage.
func (s *Session) replacedFigure(p plan.Place, stage int) length.Exact {
	sp := s.spots[p]
	now := s.At(p, stage)
	if sp == nil || len(now) == 0 {
		return length.Exact{}
	}
	before, _ := slices.BinarySearch(sp.readings, now[0].N)
	var list []length.Exact
	for _, n := range slices.Backward(sp.readings[:before]) { // from the end: a place can have a long past
		t := s.taken(n, p)
		if s.stageOf(p.Of, n) != stage {
			break
		}
		if t.Blind {
			continue
		}
		list = append(list, s.SizeOf(t))
		if t.As != record.Repeat {
			break
		}
	}
	return length.MeanOf(list...)
}

// mixNoise is the difference that says nothing: two reading steps, or three
// times the gauge's pooled repeatability. Common practice, no source.
func (s *Session) mixNoise(f plan.Feature) float64 {
	g, _ := s.plan.Group(f.Family)
	return max(2*float64(s.sees(f.Family)), 3*s.Repeatability(g.Instrument).S)
}

func (s *Session) mixup(f plan.Feature, places, as []plan.Place) Mixup {
	m := Mixup{Of: f, As: as[0].Of}
	for i, p := range places {
		for _, t := range s.Now(p) {
			m.Moved.Readings = append(m.Moved.Readings, t.N)
			m.Moved.Places = append(m.Moved.Places, as[i])
		}
	}
	m.Text = "what was keyed for " + s.Name(f) + " fits the earlier readings of " + s.Name(m.As) + " better"
	if m.As == f {
		m.Text = "what was keyed for " + s.Name(f) + " fits its earlier readings from the other end"
	}
	return m
}
