package record

import (
	"fmt"

	"borewright/engine/plan"
)

// addRules adds how the session judges, when the file says so.
func (s *spread) addRules() error {
	if s.Rules == nil {
		return nil
	}
	s.bodies = append(s.bodies, *s.Rules)
	return under("rules", s.Rules.validate(0))
}

// addGiven adds the figures that are stated.
func (s *spread) addGiven() error {
	for i, g := range s.Given {
		if err := s.fact(fmt.Sprintf("given[%d]", i), g.Of, g.validate(0)); err != nil {
			return err
		}
		s.bodies = append(s.bodies, g)
	}
	return nil
}

// addTables adds stock on hand and ladders.
func (s *spread) addTables() error {
	for i, t := range s.Tables {
		if err := s.fact(fmt.Sprintf("tables[%d]", i), t.Of, t.validate(0)); err != nil {
			return err
		}
		s.bodies = append(s.bodies, t)
	}
	return nil
}

// fact says what is wrong with what stands at a place and is of a family or of
// a feature, which the layout must have.
func (s *spread) fact(at, of string, err error) error {
	if err != nil {
		return under(at, err)
	}
	if f, err := plan.ParseFeature(of); err == nil {
		return s.stands(at+".of", f)
	}
	return nil
}
