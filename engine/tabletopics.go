package engine

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// TableTopic is a table that may be given for the fits of a session.
type TableTopic struct {
	// Name is that of the table: shells, a ladder or locks; Of its family.
	Name string
	Of   plan.Family
	// Title says what it holds, Why how it is filled in.
	Title, Why string
	// Columns are those of its rows, in the order in which they are filled in. Of
	// shells told by their walls there is a wall in place of the undersize.
	Columns []string
}

// TableTopics returns the tables that the fits of a session work with.
func (s *Session) TableTopics() []TableTopic {
	var out []TableTopic
	for _, x := range []struct{ bearing, shell plan.Family }{{plan.MainBearing, plan.ShellMain}, {plan.RodBearing, plan.ShellRod}} {
		if s.planned(x.bearing) || s.planned(x.shell) {
			out = append(out, TableTopic{
				record.Shells, x.shell, "shells on hand, " + x.bearing.Plural(), "the sizes on hand and how many halves of each; below zero is extra clearance",
				[]string{ColumnName, s.shellColumn(x.shell), ColumnHalf, ColumnCount},
			})
		}
	}
	for _, x := range []struct {
		of         plan.Family
		title, why string
	}{
		{plan.Bore, "oversizes of bores", "by how much larger than standard, diametral"},
		{plan.MainJournal, "undersizes of main journals", "by how much smaller than standard, diametral"},
		{plan.RodJournal, "undersizes of rod journals", "by how much smaller than standard, diametral"},
		{plan.EndPlay, "thrust washers", "by how much thicker than those that are in"},
	} {
		if s.planned(x.of) {
			out = append(out, TableTopic{record.Ladder, x.of, x.title, x.why, []string{ColumnName, ColumnStep}})
		}
	}
	if s.planned(plan.Bore) {
		out = append(out, TableTopic{record.Ladder, plan.Piston, "sizes of pistons by bore", "the bores from low to high that each size is for", []string{ColumnName, ColumnLow, ColumnHigh}})
	}
	for _, part := range s.Arranged() {
		out = append(out, TableTopic{
			record.Locks, part, "where " + part.Plural() + " may be",
			"the part, and the one position where it stays or those where alone it may be; none is where it sits",
			[]string{ColumnPart, ColumnOnly},
		})
	}
	return out
}

// shellColumn is by which column the shells on hand of a family are told.
func (s *Session) shellColumn(shell plan.Family) string {
	if s.onHand(shell).byWall {
		return ColumnWall
	}
	return ColumnUndersize
}

// TableRows returns copies of the rows of a table. Locks to one position have it
// among those where alone the part may be, and positions are labels.
func (s *Session) TableRows(t TableTopic) []map[string]string {
	table := s.tables[tableKey{t.Name, string(t.Of)}]
	var out []map[string]string
	for _, r := range table.Rows {
		row := maps.Clone(r)
		if t.Name == record.Locks {
			row[ColumnPart] = s.labelsOf(t.Of, r[ColumnPart])
			row[ColumnOnly] = s.labelsOf(t.Of, r[ColumnOnly]+" "+r[ColumnAt])
			delete(row, ColumnAt)
		}
		out = append(out, row)
	}
	return out
}

// labelsOf writes positions by their labels.
func (s *Session) labelsOf(f plan.Family, positions string) string {
	var out []string
	for _, at := range numbers(positions) {
		if at > 0 {
			out = append(out, s.layout.Label(plan.Feature{Family: f, At: at}))
		}
	}
	return strings.Join(out, " ")
}

// TableBody returns what is recorded for a table to have these rows; those of
// which nothing is filled in are left out. The error names a row that says
// something that cannot be.
func (s *Session) TableBody(t TableTopic, rows []map[string]string) (record.Body, error) {
	b := record.Table{Name: t.Name, Of: string(t.Of), Source: "keyed at the bench"}
	for _, r := range rows {
		row := map[string]string{}
		for column, text := range r {
			if text = strings.TrimSpace(text); text != "" {
				row[column] = text
			}
		}
		if len(row) == 0 {
			continue
		}
		if t.Name == record.Locks {
			if err := s.lockRow(t.Of, row); err != nil {
				return nil, err
			}
		}
		b.Rows = append(b.Rows, row)
	}
	return b, s.checkRows(t, b)
}

// lockRow turns labels back into positions.
func (s *Session) lockRow(f plan.Family, row map[string]string) error {
	for _, column := range []string{ColumnPart, ColumnOnly} {
		var at []string
		for _, label := range strings.FieldsFunc(row[column], func(r rune) bool { return r == ' ' || r == ',' }) {
			x, ok := s.layout.ByLabel(f, label)
			if !ok {
				return &RowError{"there is no " + f.Noun() + " " + label}
			}
			at = append(at, strconv.Itoa(x.At))
		}
		switch {
		case column == ColumnPart && len(at) != 1:
			return &RowError{"a row says of which one " + f.Noun() + " it is"}
		case len(at) == 1 && column == ColumnOnly:
			delete(row, column)
			row[ColumnAt] = at[0]
		case len(at) > 0:
			row[column] = strings.Join(at, " ")
		}
	}
	return nil
}

// RowError says what is wrong with a row of a table.
type RowError struct{ Text string }

func (e *RowError) Error() string { return e.Text }

// checkRows says what the fits could not read in a table.
func (s *Session) checkRows(t TableTopic, b record.Table) error {
	var bad []string
	x := stock{byWall: slices.Contains(t.Columns, ColumnWall)}
	for _, r := range s.rowsOf(b, &bad) {
		for _, column := range t.Columns {
			if slices.Contains([]string{ColumnStep, ColumnLow, ColumnHigh}, column) {
				r.length(column)
			}
		}
		if t.Name == record.Shells {
			x.shell(r)
		}
	}
	if len(bad) > 0 {
		return &RowError{bad[0]}
	}
	return nil
}

// TableText says what stands in a table, "" for nothing.
func (s *Session) TableText(t TableTopic) string {
	var out []string
	for _, r := range s.TableRows(t) {
		text := r[t.Columns[0]]
		if text == "" {
			text = r[t.Columns[1]]
		}
		switch {
		case t.Name == record.Locks && r[ColumnOnly] != "":
			text += " only at " + r[ColumnOnly]
		case t.Name == record.Locks:
			text += " stays"
		case r[ColumnCount] != "":
			text += " × " + r[ColumnCount]
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}
