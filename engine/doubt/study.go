package doubt

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
)

// Observation is one value of a study.
type Observation struct {
	Operator, Part string
	// Trial counts an operator's readings of one part, from 1.
	Trial int
	Value length.Length
}

// Study is a gauge in the hands of operators who read the same parts several
// times. See NewStudy.
type Study struct {
	// Operators and Parts are all that were named, in the order they came in.
	Operators, Parts []string
	// Trials is the most values that any operator has of any part.
	Trials int
	// Missing says, in sentences, which values are not there.
	Missing []string

	cells map[cellKey][]length.Length
	// whole are the operators and parts of which no value is missing.
	wholeOperators, wholeParts []string
}

// cellKey is one operator with one part.
type cellKey struct{ operator, part string }

// StudyError says which value cannot be part of a study.
type StudyError struct {
	Observation
	Reason string
}

// Error names the value.
func (e *StudyError) Error() string {
	return fmt.Sprintf("operator %q, part %q, trial %d: %s", e.Operator, e.Part, e.Trial, e.Reason)
}

// Errors of a study as a whole.
var (
	// ErrNoValues is returned for a study without values.
	ErrNoValues = errors.New("the study holds no values")
	// ErrSparse is returned for a study of so many operators and parts that
	// hardly any of them meet.
	ErrSparse = errors.New("the study names so many operators and parts that hardly any operator has read a part")
)

// mostCells is how many operators times parts are looked at.
const mostCells = 200_000

// NewStudy gathers the values of a study, in any order. Where some are missing
// it is analysed over what has none missing, the larger of two choices: the
// parts that every operator read in full, or the operators who read every part
// in full. The error is ErrNoValues, ErrSparse, or a *StudyError for a trial that
// is below 1 or there twice.
func NewStudy(values []Observation) (Study, error) {
	if len(values) == 0 {
		return Study{}, ErrNoValues
	}
	s := Study{cells: map[cellKey][]length.Length{}}
	values = slices.Clone(values)
	operators, parts := map[string]bool{}, map[string]bool{}
	for _, v := range values {
		if v.Trial < 1 {
			return Study{}, &StudyError{v, "trials count from 1"}
		}
		s.Operators, s.Parts = named(s.Operators, operators, v.Operator), named(s.Parts, parts, v.Part)
	}
	if len(s.Operators) > mostCells/len(s.Parts) {
		return Study{}, ErrSparse
	}
	slices.SortStableFunc(values, func(a, b Observation) int { return cmp.Compare(a.Trial, b.Trial) })
	seen := map[Observation]bool{}
	for _, v := range values {
		key := Observation{v.Operator, v.Part, v.Trial, 0}
		if seen[key] {
			return Study{}, &StudyError{v, "this trial is there twice"}
		}
		seen[key] = true
		at := cellKey{v.Operator, v.Part}
		s.cells[at] = append(s.cells[at], v.Value)
		s.Trials = max(s.Trials, len(s.cells[at]))
	}
	s.choose()
	return s, nil
}

// named adds a name that was not there yet.
func named(list []string, seen map[string]bool, name string) []string {
	if seen[name] {
		return list
	}
	seen[name] = true
	return append(list, name)
}

// choose finds what is whole, and says what is missing.
func (s *Study) choose() {
	parts := slices.DeleteFunc(slices.Clone(s.Parts), func(p string) bool { return !s.whole(s.Operators, []string{p}) })
	operators := slices.DeleteFunc(slices.Clone(s.Operators), func(o string) bool { return !s.whole([]string{o}, s.Parts) })
	if len(s.Operators)*len(parts) >= len(operators)*len(s.Parts) {
		s.wholeOperators, s.wholeParts = s.Operators, parts
	} else {
		s.wholeOperators, s.wholeParts = operators, s.Parts
	}
	if len(s.wholeOperators) == 0 || len(s.wholeParts) == 0 {
		s.wholeOperators, s.wholeParts = nil, nil
	}
	for _, o := range s.Operators {
		for _, p := range s.Parts {
			if n := len(s.cells[cellKey{o, p}]); n < s.Trials {
				s.Missing = append(s.Missing, fmt.Sprintf("operator %s has %d of %d values of part %s", o, n, s.Trials, p))
			}
		}
	}
}

// whole reports whether these operators have all trials of these parts.
func (s *Study) whole(operators, parts []string) bool {
	for _, o := range operators {
		for _, p := range parts {
			if len(s.cells[cellKey{o, p}]) != s.Trials {
				return false
			}
		}
	}
	return true
}

// Repeatability returns the repeatability pooled over every operator and part,
// whether a value is missing or not.
func (s Study) Repeatability() Estimate { return Pool(Estimate{}, s.groups(s.Operators, s.Parts)...) }

// groups returns the values of each operator and part.
func (s Study) groups(operators, parts []string) [][]length.Length {
	var out [][]length.Length
	for _, o := range operators {
		for _, p := range parts {
			if g := s.cells[cellKey{o, p}]; len(g) > 0 {
				out = append(out, g)
			}
		}
	}
	return out
}

// LeftOut says in a sentence what the analysis leaves out because values are
// missing, "" where none are.
func (s Study) LeftOut() string {
	parts, operators := except(s.Parts, s.wholeParts), except(s.Operators, s.wholeOperators)
	switch {
	case len(s.Missing) == 0:
		return ""
	case len(s.wholeParts) == 0:
		return "no part was read in full by every operator and no operator read every part in full, " +
			"so that only the repeatability is left to compute"
	case len(parts) > 0:
		return "left out, values missing: part " + strings.Join(parts, ", ")
	default:
		return "left out, values missing: operator " + strings.Join(operators, ", ")
	}
}

// except returns what is in list and not in other.
func except(list, other []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return slices.Contains(other, s) })
}

// Beyond says in sentences which operator's readings of which part range further
// than those of all usually do (three standard deviations): a slip, or a hand
// that differs.
func (s Study) Beyond() []string {
	groups := s.groups(s.wholeOperators, s.wholeParts)
	chart, ok := ChartOf(groups...)
	if !ok {
		return nil
	}
	var out []string
	for i, g := range groups {
		if span(shifted(g, g[0])) > chart.RangeHigh {
			o, p := s.wholeOperators[i/len(s.wholeParts)], s.wholeParts[i%len(s.wholeParts)]
			out = append(out, fmt.Sprintf("operator %s, part %s: the values range further than the rest; look for a slip", o, p))
		}
	}
	return out
}
