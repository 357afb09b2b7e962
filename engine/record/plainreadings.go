package record

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"borewright/engine/plan"
)

// addParts adds where loose parts sit.
func (s *spread) addParts() error {
	for i, p := range s.Parts {
		at := fmt.Sprintf("parts[%d]", i)
		if err := first(s.stands(at+".part", p.Part), s.stands(at+".at", p.At)); err != nil {
			return err
		}
		s.bodies = append(s.bodies, Fitted(p))
	}
	return nil
}

// addReadings adds the readings as found, the work, and the other readings.
func (s *spread) addReadings() error {
	found := taken{seen: map[plan.Place]string{}}
	after := taken{seen: map[plan.Place]string{}}
	for i, row := range s.Readings {
		at := fmt.Sprintf("readings[%d]", i)
		into, err := s.stageOf(at, row, &found, &after)
		if err != nil {
			return err
		}
		if err := s.row(at, row, into); err != nil {
			return err
		}
	}
	s.bodies = append(s.bodies, found.readings...)
	if err := s.addWork(); err != nil {
		return err
	}
	s.bodies = append(s.bodies, after.readings...)
	return nil
}

// stageOf returns which of the two a row belongs to.
func (s *spread) stageOf(at string, row PlainRow, found, after *taken) (*taken, error) {
	if err := one(at+".stage", row.Stage, "", AsFound, AfterWork); err != nil {
		return nil, err
	}
	switch {
	case row.Stage == AfterWork && len(s.Work) == 0:
		return nil, wrong(at+".stage", row.Stage, "the file lists no work")
	case row.Stage == AsFound || len(s.Work) == 0:
		return found, nil
	default:
		return after, nil
	}
}

// addWork adds the work.
func (s *spread) addWork() error {
	for i, w := range s.Work {
		at := fmt.Sprintf("work[%d]", i)
		for _, f := range append(slices.Clone(w.To), w.Changes...) {
			if err := s.stands(at, f); err != nil {
				return err
			}
		}
		changes := w.Changes
		if len(changes) == 0 {
			changes = w.To
		}
		b := Work{
			Did: w.Did, To: slices.Clone(w.To), Amount: string(w.Amount),
			Changes: slices.Clone(changes), Metal: w.Metal, Note: w.Note,
		}
		if err := b.validate(0); err != nil {
			return under(at, err)
		}
		s.bodies = append(s.bodies, b)
	}
	return nil
}

// taken is what was read in one stage, and where each place stood in the file.
type taken struct {
	readings []Body
	seen     map[plan.Place]string
}

// row adds the readings of one row, which stands at.
func (s *spread) row(at string, row PlainRow, into *taken) error {
	if err := s.stands(at+".of", row.Of); err != nil {
		return err
	}
	g, ok := plan.Plan{Families: s.groups}.Group(row.Of.Family)
	if !ok {
		return wrong(at+".of", row.Of.String(), "the plan measures no "+row.Of.Family.Plural())
	}
	levels, err := levelsOf(at, row, g)
	if err != nil {
		return err
	}
	names, err := row.canonical(at)
	if err != nil {
		return err
	}
	for _, dir := range slices.Sorted(maps.Keys(names)) {
		if !slices.Contains(g.Directions, dir) {
			return wrong(at+"."+names[dir], "", fmt.Sprintf("the plan reads %s in other directions", row.Of.Family.Plural()))
		}
	}
	for _, dir := range g.Directions {
		key, ok := names[dir]
		if !ok {
			continue
		}
		if err := s.column(at+"."+key, row, key, dir, levels, into); err != nil {
			return err
		}
	}
	return nil
}

// levelsOf returns the levels that the columns of a row go over.
func levelsOf(at string, row PlainRow, g plan.Group) ([]plan.Level, error) {
	if row.Level == "" {
		return g.Levels, nil
	}
	if l, ok := g.Level(string(row.Level)); ok {
		return []plan.Level{l}, nil
	}
	n, err := strconv.Atoi(string(row.Level))
	if err != nil || n < 1 || n > len(g.Levels) {
		return nil, wrong(at+".level", string(row.Level), fmt.Sprintf("neither the id of a level nor a number from 1 to %d", len(g.Levels)))
	}
	return g.Levels[n-1 : n], nil
}

// column adds the readings of a row in one direction.
func (s *spread) column(at string, row PlainRow, key, dir string, levels []plan.Level, into *taken) error {
	column := row.Values[key]
	cells := row.cells(column)
	if len(cells) != len(levels) {
		return wrong(at, "", fmt.Sprintf("%d values for %d levels; write null where nothing was measured", len(cells), len(levels)))
	}
	for i, cell := range cells {
		where := at
		if row.Level == "" && !column.Alone {
			where = fmt.Sprintf("%s[%d]", at, i)
		}
		if cell == nil {
			continue
		}
		p := plan.Place{Of: row.Of, Level: levels[i].ID, Dir: dir}
		if before, twice := into.seen[p]; twice {
			return wrong(where, "", fmt.Sprintf("%s is given twice: it stands at %s too; repeats go into a list in its place", called(p), before))
		}
		into.seen[p] = where
		if err := s.cell(where, p, cell, into); err != nil {
			return err
		}
	}
	return nil
}

// cell adds the readings of one place: the first and its repeats.
func (s *spread) cell(at string, p plan.Place, cell Cell, into *taken) error {
	if len(cell) == 0 {
		return wrong(at, "", "an empty list; write null where nothing was measured")
	}
	as := First
	for i, n := range cell {
		where := at
		if len(cell) > 1 {
			where = fmt.Sprintf("%s[%d]", at, i)
		}
		size, err := s.length(where, n)
		if err != nil {
			return fmt.Errorf("%w (%s)", err, called(p))
		}
		if n == "" {
			return wrong(where, "", "an empty text; write null where nothing was measured")
		}
		r := Reading{
			Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: string(n), Via: ViaFile, Size: size, As: as,
		}
		if err := r.validate(0); err != nil {
			return fmt.Errorf("%w (%s)", under(where, err), called(p))
		}
		into.readings, as = append(into.readings, r), Repeat
	}
	return nil
}

// called names a place in a sentence.
func called(p plan.Place) string {
	return fmt.Sprintf("%s, level %s, %s", p.Of, p.Level, p.Dir)
}
