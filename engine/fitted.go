package engine

import (
	"fmt"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// seated is where a loose part sits, and the event that said so.
type seated struct {
	at plan.Feature
	n  int64
}

// setFitted folds in where a loose part sits.
func (st *state) setFitted(n int64, f record.Fitted) error {
	t, _ := f.Part.Family.Traits()
	if t.Seat == "" {
		return fmt.Errorf("%s are no loose parts", t.Plural)
	}
	if f.At.Family != t.Seat {
		return fmt.Errorf("%s sit at a %s, not at %s", t.Plural, t.Seat.Noun(), f.At)
	}
	for _, x := range []plan.Feature{f.Part, f.At} {
		if err := st.layout.Has(x); err != nil {
			return err
		}
	}
	if st.fitted == nil {
		st.fitted = map[plan.Feature]seated{}
	}
	st.fitted[f.Part] = seated{f.At, n}
	return nil
}

// partOf returns the loose part that a feature belongs to; ok is false for
// what is cut into block or crank.
func partOf(f plan.Feature) (part plan.Feature, ok bool) {
	t, _ := f.Family.Traits()
	switch t.Loose {
	case "":
		return plan.Feature{}, false
	case f.Family:
		return f, true
	default:
		return plan.Feature{Family: t.Loose, At: f.At}, true
	}
}

// Seat returns the position where a feature is: its own, or where the loose
// part that it belongs to sits; 0 when that part was put aside for another.
func (s *Session) Seat(f plan.Feature) int {
	part, loose := partOf(f)
	if !loose {
		return f.At
	}
	at := f.At
	if x, ok := s.fitted[part]; ok {
		at = x.at.At
	}
	if s.partAt(part, at) != part {
		return 0
	}
	return at
}

// partAt returns the part of like's kind that sits at a position: the one last
// put there, else the one of that number while it sits nowhere else. It is
// none when that one was moved away.
func (s *Session) partAt(like plan.Feature, at int) plan.Feature {
	var best plan.Feature
	var last int64
	for part, x := range s.fitted {
		if part.Family == like.Family && part.Part == like.Part && x.at.At == at && x.n > last {
			best, last = part, x.n
		}
	}
	if last > 0 {
		return best
	}
	own := plan.Feature{Family: like.Family, At: at, Part: like.Part}
	if _, moved := s.fitted[own]; moved {
		return plan.Feature{}
	}
	return own
}

// FeatureAt returns the family's feature that is at a position: for what
// belongs to a loose part, that of the part which sits there. It is none when
// no part does.
func (s *Session) FeatureAt(family plan.Family, part string, at int) plan.Feature {
	f := plan.Feature{Family: family, At: at, Part: part}
	like, loose := partOf(f)
	if !loose {
		return f
	}
	sits := s.partAt(like, at)
	if sits.IsZero() {
		return plan.Feature{}
	}
	f.At = sits.At
	return f
}

// lineAt returns the positions of the summary line that a feature counts for:
// two cylinders for a shared rod journal, 0 for the thrust.
func (s *Session) lineAt(f plan.Feature) []int {
	switch f.Family {
	case plan.RodJournal, plan.RodSide:
		return s.layout.CylindersOn(f.At)
	case plan.EndPlay:
		return []int{0}
	default:
		return []int{s.Seat(f)}
	}
}
