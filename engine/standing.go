package engine

import (
	"borewright/engine/plan"
	"borewright/engine/record"
)

// standing is what of a place's readings stands in one stage. It is kept up with
// every event, so that no figure walks a place's whole past: in a session of
// 100,000 events Enter took 139 ms with the walk and takes 1.3 ms without.
type standing struct {
	// counting are the readings since the last one that began the list afresh,
	// blind all blind repeats of the stage.
	counting, blind []Taken
}

// stand adds the newest reading to what stands in its stage.
func (s *spot) stand(t Taken, stage int) {
	for len(s.stages) <= stage {
		s.stages = append(s.stages, standing{})
	}
	x := &s.stages[stage]
	switch {
	case t.Blind:
		x.blind = append(x.blind, t)
	case t.As == record.Repeat:
		x.counting = append(x.counting, t)
	default:
		x.counting = []Taken{t}
	}
}

// restand works out anew what stands at a place.
func (st *state) restand(p plan.Place) {
	s := st.spotAt(p)
	s.stages = nil
	for _, n := range s.readings {
		s.stand(st.taken(n, p), st.stageOf(p.Of, n))
	}
}

// restandAll is restand of every place of a feature.
func (st *state) restandAll(f plan.Feature) {
	for p := range st.spots {
		if p.Of == f {
			st.restand(p)
		}
	}
}

// standing returns what stands at a place in a stage.
func (s *Session) standing(p plan.Place, stage int) standing { return s.spots[p].standing(stage) }

func (s *spot) standing(stage int) standing {
	if s != nil && stage >= 0 && stage < len(s.stages) {
		return s.stages[stage]
	}
	return standing{}
}

// spotsOf returns the spots of a feature's places in the plan's order, nil where
// nothing happened. What asks many things of a feature looks them up once: that was
// a tenth of a full assessment.
func (s *Session) spotsOf(f plan.Feature) []*spot {
	g, _ := s.plan.Group(f.Family)
	out := make([]*spot, 0, len(g.Levels)*len(g.Directions))
	for p := range s.plan.Each(f) {
		out = append(out, s.spots[p])
	}
	return out
}

// At returns the live readings that count at a place in a stage: those since
// the last one that began its list afresh. Blind repeats are kept apart.
func (s *Session) At(p plan.Place, stage int) []Taken { return s.spots[p].at(stage) }

func (s *spot) at(stage int) []Taken {
	list := s.standing(stage).counting
	return list[:len(list):len(list)]
}
