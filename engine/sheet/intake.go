package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Into returns the readings as events of a session, in which every place must
// be planned and not read yet in its present stage; a place that the table
// reads again is a repeat. The error is a *record.FieldError that names row and
// column.
func (in Intake) Into(s *engine.Session) ([]record.Body, error) {
	var out []record.Body
	first := map[plan.Place]int{}
	for _, r := range in.Readings {
		p, err := r.place(s)
		if err != nil {
			return nil, err
		}
		as := r.As
		switch before, again := first[p]; {
		case !again && len(s.Now(p)) > 0:
			return nil, r.wrong(colFeature, r.Of, s.PlaceName(p)+" is read in the session already")
		case again && as == record.First:
			return nil, r.wrong(colFeature, r.Of, fmt.Sprintf("%s is read in row %d already; a stage may be chosen", s.PlaceName(p), before))
		case again && as == "":
			as = record.Repeat
		case !again:
			first[p], as = r.Row, record.First
		}
		b := r.reading(p, as)
		if err := s.Check(b); err != nil {
			return nil, &record.FieldError{Path: r.path(), Value: r.Value, Reason: err.Error()}
		}
		if err := (record.Event{N: 1, V: record.Vocabulary, At: lastAt(s), Body: b}).Validate(); err != nil {
			return nil, &record.FieldError{Path: r.path(), Value: r.Value, Reason: err.Error()}
		}
		out = append(out, b)
	}
	return out, nil
}

// place finds the place of a reading in the plan of a session.
func (r RowReading) place(s *engine.Session) (plan.Place, error) {
	f, err := r.feature(s)
	if err != nil {
		return plan.Place{}, err
	}
	g, ok := s.Plan().Group(f.Family)
	if !ok {
		return plan.Place{}, r.wrong(colFeature, r.Of, f.Family.Plural()+" are not in the plan")
	}
	p := plan.Place{Of: f}
	if p.Level, ok = levelIn(g, r.Level); !ok {
		return plan.Place{}, r.wrong(colLevel, r.Level, "the plan of "+f.Family.Plural()+" has no such level")
	}
	if p.Dir, err = directionIn(g, r.Dir); err != nil {
		return plan.Place{}, r.wrong(colDirection, r.Dir, err.Error())
	}
	return p, nil
}

// feature finds the feature that a row names by its text or as a sentence does.
func (r RowReading) feature(s *engine.Session) (plan.Feature, error) {
	all := s.Plan().Features(s.Layout())
	f, err := plan.ParseFeature(r.Of)
	for _, x := range all {
		if x == f || strings.EqualFold(s.Name(x), r.Of) {
			return x, nil
		}
	}
	if family, label, ok := strings.Cut(r.Of, "/"); ok && err != nil {
		if x, found := s.Layout().ByLabel(plan.Family(family), label); found {
			return x, nil
		}
	}
	if err == nil {
		return plan.Feature{}, r.wrong(colFeature, r.Of, "it is not in the plan of the session")
	}
	return plan.Feature{}, r.wrong(colFeature, r.Of, `it is no feature, such as "bore/3"`)
}

// levelIn finds a level by its id, its name or its number from 1; the only one
// needs no name.
func levelIn(g plan.Group, text string) (id string, ok bool) {
	if text == "" && len(g.Levels) == 1 {
		return g.Levels[0].ID, true
	}
	if _, ok := g.Level(text); ok {
		return text, true
	}
	for i, l := range g.Levels {
		if text != "" && (strings.EqualFold(l.Called(), text) || strconv.Itoa(i+1) == text) {
			return l.ID, true
		}
	}
	return "", false
}

// directionIn finds a direction; the only one needs no name.
func directionIn(g plan.Group, text string) (string, error) {
	if text == "" && len(g.Directions) == 1 {
		return g.Directions[0], nil
	}
	dir, err := plan.ParseDirection(g.Family, text)
	if err != nil {
		return "", err
	}
	for _, d := range g.Directions {
		if d == dir {
			return d, nil
		}
	}
	return "", fmt.Errorf("the plan reads %s in other directions", g.Family.Plural())
}

// Summary says in lines what the readings are of.
func (in Intake) Summary() []string {
	var order []string
	count := map[string]int{}
	for _, r := range in.Readings {
		if count[r.Of]++; count[r.Of] == 1 {
			order = append(order, r.Of)
		}
	}
	lines := []string{fmt.Sprintf("%d rows, %d readings of %d features:", in.Rows, len(in.Readings), len(order))}
	for _, of := range order {
		lines = append(lines, fmt.Sprintf("  %s: %d", of, count[of]))
	}
	if len(in.Passed) > 0 {
		lines = append(lines, "Columns passed over: "+strings.Join(in.Passed, ", "))
	}
	return lines
}
