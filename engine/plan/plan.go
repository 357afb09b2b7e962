package plan

import (
	"iter"
	"slices"
	"strconv"

	"borewright/engine/length"
)

// The orders in which the places of one feature are read.
const (
	// ByLevel reads every direction at a level before the next level.
	ByLevel = "level"
	// ByDirection reads every level in a direction before the gauge is turned.
	ByDirection = "direction"
)

// Level is how deep in a feature a reading is taken, measured from the head
// end or the front. Its id is never used again for another depth.
type Level struct {
	ID    string         `json:"id"`
	Name  string         `json:"name,omitempty"`
	Depth length.Written `json:"depth,omitzero"`
	// Half is the half of a shared rod journal: front, rear or both ("").
	Half string `json:"half,omitempty"`
}

// Called returns the name of the level, else its depth, such as "45 mm deep",
// else its id.
func (l Level) Called() string {
	switch {
	case l.Name != "":
		return l.Name
	case !l.Depth.IsZero():
		return l.Depth.String() + " deep"
	default:
		return l.ID
	}
}

// Group is what is measured of one family: the nominal chosen for it, the grid
// of 1 to 6 levels and 1 to 4 directions, and the instrument it is read with.
type Group struct {
	Family     Family         `json:"family"`
	Nominal    length.Written `json:"nominal,omitzero"`
	Levels     []Level        `json:"levels"`
	Directions []string       `json:"directions"`
	Instrument string         `json:"instrument,omitempty"`
}

// Plan is what is measured and in which order.
type Plan struct {
	Families []Group `json:"families"`
	// Order is ByLevel (also when empty) or ByDirection.
	Order string `json:"order,omitempty"`
}

// Group returns the group of a family; ok is false when it is not planned.
func (p Plan) Group(f Family) (g Group, ok bool) {
	for _, g := range p.Families {
		if g.Family == f {
			return g, true
		}
	}
	return Group{}, false
}

// Level returns the level with the id; ok is false when the group has none.
func (g Group) Level(id string) (l Level, ok bool) {
	for _, l := range g.Levels {
		if l.ID == id {
			return l, true
		}
	}
	return Level{}, false
}

// Grid proposes n levels (1 to 6) with ids a, b, c ... and usual names.
func Grid(f Family, n int) []Level {
	t, _ := f.Traits()
	levels := make([]Level, n)
	for i := range levels {
		levels[i] = Level{ID: string(rune('a' + i)), Name: levelName(t, i, n)}
	}
	return levels
}

func levelName(t Traits, i, n int) string {
	switch {
	case t.Figure != "" && n == 1:
		return ""
	case t.Figure != "" && n == 4 && t.Ends == frontToRear:
		return [4]string{"front left", "front right", "rear left", "rear right"}[i]
	case t.Figure != "" && (n != 2 || t.Ends[0] == ""):
		return "point " + strconv.Itoa(i+1)
	case n == 1 && t.Family != Piston:
		return "middle"
	case i == 0:
		return t.Ends[0]
	case i == n-1:
		return t.Ends[1]
	case n == 3:
		return "middle"
	default:
		return "level " + strconv.Itoa(i+1)
	}
}

// Features returns the features of the plan in its order.
func (p Plan) Features(l Layout) []Feature {
	n := 0
	for range p.every(l) {
		n++
	}
	return slices.AppendSeq(slices.Grow([]Feature(nil), n), p.every(l))
}

// every gives the features of the plan one by one.
func (p Plan) every(l Layout) iter.Seq[Feature] {
	return func(yield func(Feature) bool) {
		for _, g := range p.Families {
			t, _ := g.Family.Traits()
			for at := 1; t.Count != nil && at <= t.Count(l); at++ {
				for f := range t.at(at) {
					if !yield(f) {
						return
					}
				}
			}
		}
	}
}

// at gives the features of one position, its parts in their order.
func (t *Traits) at(at int) iter.Seq[Feature] {
	return func(yield func(Feature) bool) {
		if len(t.Parts) == 0 {
			yield(Feature{Family: t.Family, At: at})
			return
		}
		for _, part := range t.Parts {
			if !yield(Feature{t.Family, at, part}) {
				return
			}
		}
	}
}

// Places returns the places of one feature in the plan's order.
func (p Plan) Places(f Feature) []Place {
	g, _ := p.Group(f.Family)
	return slices.AppendSeq(make([]Place, 0, len(g.Levels)*len(g.Directions)), p.Each(f))
}

// Each gives the places that Places returns one by one. It makes no list: those
// were a sixth of what a full assessment allocated.
func (p Plan) Each(f Feature) iter.Seq[Place] {
	g, _ := p.Group(f.Family)
	outer, inner := len(g.Levels), len(g.Directions)
	if p.Order == ByDirection {
		outer, inner = inner, outer
	}
	return func(yield func(Place) bool) {
		for i := range outer {
			for j := range inner {
				level, direction := i, j
				if p.Order == ByDirection {
					level, direction = j, i
				}
				if !yield(Place{f, g.Levels[level].ID, g.Directions[direction]}) {
					return
				}
			}
		}
	}
}

// Nth returns which of the places that Each gives is the one at a level and in a
// direction of the group, counted from 0.
func (p Plan) Nth(g Group, level, direction int) int {
	if p.Order == ByDirection {
		return direction*len(g.Levels) + level
	}
	return level*len(g.Directions) + direction
}

// All returns every place of the plan in its order.
func (p Plan) All(l Layout) []Place {
	return slices.AppendSeq(make([]Place, 0, p.Count(l)), p.Every(l))
}

// Every gives the places that All returns one by one, and makes no list.
func (p Plan) Every(l Layout) iter.Seq[Place] {
	return func(yield func(Place) bool) {
		for f := range p.every(l) {
			for place := range p.Each(f) {
				if !yield(place) {
					return
				}
			}
		}
	}
}

// Count returns how many places the plan has.
func (p Plan) Count(l Layout) int {
	n := 0
	for f := range p.every(l) {
		g, _ := p.Group(f.Family)
		n += len(g.Levels) * len(g.Directions)
	}
	return n
}
