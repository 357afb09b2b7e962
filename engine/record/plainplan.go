package record

import (
	"fmt"
	"slices"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// length reads a number of the file; at is where it stands.
func (s *spread) length(at string, n Number) (length.Written, error) {
	if n == "" {
		return length.Written{}, nil
	}
	w, err := length.Parse(string(n), s.Unit)
	return w, textError(at, string(n), err)
}

// addLayout adds the layout of the file, or one just large enough.
func (s *spread) addLayout() error {
	l := plan.Layout{Form: plan.Inline, Cylinders: 1}
	if s.Layout != nil {
		l = *s.Layout
	} else {
		for _, row := range s.Readings {
			t, _ := row.Of.Family.Traits()
			need := row.Of.At
			if t.Line == plan.CrankLine {
				need-- // an inline crank has one main more than cylinders
			}
			l.Cylinders = max(l.Cylinders, need)
		}
	}
	s.layout = l.Filled()
	s.bodies = append(s.bodies, Layout{s.layout})
	return Layout{s.layout}.validate(0)
}

// addPlan adds the plan of the file, with what it leaves out.
func (s *spread) addPlan() error {
	groups := s.Plan
	if len(groups) == 0 {
		groups = s.groupsOfRows()
	}
	for i, g := range groups {
		made, err := s.group(fmt.Sprintf("plan[%d]", i), g)
		if err != nil {
			return err
		}
		s.groups = append(s.groups, made)
	}
	if len(s.groups) == 0 {
		return nil
	}
	p := plan.Plan{Families: s.groups}
	s.bodies = append(s.bodies, Plan{p})
	return Plan{p}.validate(0)
}

// groupsOfRows returns a bare group for each family that has rows.
func (s *spread) groupsOfRows() []PlainGroup {
	var out []PlainGroup
	for _, t := range plan.Families() {
		if slices.ContainsFunc(s.Readings, func(r PlainRow) bool { return r.Of.Family == t.Family }) {
			out = append(out, PlainGroup{Family: t.Family})
		}
	}
	return out
}

// group makes a group of the plan; at is where it stands.
func (s *spread) group(at string, g PlainGroup) (plan.Group, error) {
	t, ok := g.Family.Traits()
	if !ok {
		return plan.Group{}, wrong(at+".family", string(g.Family), "no family is called so")
	}
	nominal, err := s.length(at+".nominal", g.Nominal)
	if err != nil {
		return plan.Group{}, err
	}
	out := plan.Group{Family: g.Family, Nominal: nominal, Directions: slices.Clone(g.Directions)}
	for i, l := range g.Levels {
		depth, err := s.length(fmt.Sprintf("%s.levels[%d].depth", at, i), l.Depth)
		if err != nil {
			return plan.Group{}, err
		}
		if l.ID == "" {
			l.ID = string(rune('a' + i))
		}
		out.Levels = append(out.Levels, plan.Level{ID: l.ID, Name: l.Name, Depth: depth, Half: l.Half})
	}
	if len(out.Levels) == 0 {
		out.Levels = plan.Grid(g.Family, s.levelCount(t))
	}
	if len(out.Directions) == 0 {
		out.Directions, err = s.directionsOf(t)
	}
	return out, err
}

// levelCount returns how many values the longest column of the family has, 1 to
// 6, or the usual number of levels when it has no rows.
func (s *spread) levelCount(t plan.Traits) int {
	n := 0
	for _, row := range s.Readings {
		if row.Of.Family != t.Family || row.Level != "" {
			continue
		}
		for _, c := range row.Values {
			n = max(n, len(c.Cells))
		}
	}
	switch {
	case n > 0:
		return min(n, 6)
	case t.Family == plan.Bore:
		return 3
	case t.Family == plan.Piston:
		return 1
	default:
		return 2
	}
}

// directionsOf returns the shortest usual list of directions, of two at least
// but for pistons, that has all those of the family's rows; else those.
func (s *spread) directionsOf(t plan.Traits) ([]string, error) {
	var used []string
	for i, row := range s.Readings {
		if row.Of.Family != t.Family {
			continue
		}
		names, err := row.canonical(fmt.Sprintf("readings[%d]", i))
		if err != nil {
			return nil, err
		}
		for dir := range names {
			if !slices.Contains(used, dir) {
				used = append(used, dir)
			}
		}
	}
	least := 1
	if t.Family == plan.Piston {
		least = 0
	}
	for _, usual := range t.Usual[least:] {
		if !slices.ContainsFunc(used, func(d string) bool { return !slices.Contains(usual, d) }) {
			return slices.Clone(usual), nil
		}
	}
	slices.SortFunc(used, func(a, b string) int {
		x, _ := plan.Angle(t.Family, a)
		y, _ := plan.Angle(t.Family, b)
		return x - y
	})
	return used, nil
}

// addLimits adds the limits of the file.
func (s *spread) addLimits() error {
	for i, l := range s.Limits {
		made, err := s.limits(fmt.Sprintf("limits[%d]", i), l)
		if err != nil {
			return err
		}
		s.bodies = append(s.bodies, Limit{made})
	}
	return nil
}

// limits makes limits; at is where they stand.
func (s *spread) limits(at string, l PlainLimits) (limit.Limits, error) {
	out := limit.Limits{
		On: limit.Characteristic(l.On), Of: l.Of, By: limit.Definition(l.By), JudgeBy: l.Judge, Source: l.Source,
	}
	for _, n := range []struct {
		at   string
		from Number
		to   *length.Written
	}{
		{".new.low", l.New.Low, &out.New.Low},
		{".new.high", l.New.High, &out.New.High},
		{".wear.low", l.Wear.Low, &out.Wear.Low},
		{".wear.high", l.Wear.High, &out.Wear.High},
		{".target", l.Target, &out.Target},
		{".per", l.Per, &out.Per},
		{".travel", l.Travel, &out.Travel},
	} {
		w, err := s.length(at+n.at, n.from)
		if err != nil {
			return out, err
		}
		*n.to = w
	}
	return out, s.fact(at, l.Of, Limit{out}.validate(0))
}

// stands refuses a feature that the layout does not have.
func (s *spread) stands(at string, f plan.Feature) error {
	if err := first(when(f.IsZero(), wrong(at, "", "it names no feature")), feature(at, f)); err != nil {
		return err
	}
	t, _ := f.Family.Traits()
	if n := t.Count(s.layout); f.At > n {
		return wrong(at, f.String(), fmt.Sprintf("the layout has %d %s", n, t.Plural))
	}
	return nil
}
