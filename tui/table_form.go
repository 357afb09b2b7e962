package tui

import (
	"fmt"
	"maps"
	"slices"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// tableForm asks for the rows of a table: those there are, and an empty one.
type tableForm struct {
	st    *Station
	desk  *Desk
	topic engine.TableTopic
	rows  []map[string]string
	was   []map[string]string
}

// tableWide are the widths of the columns that are not lengths.
var tableWide = map[string]int{engine.ColumnName: 20, engine.ColumnCount: 7, engine.ColumnHalf: 12, engine.ColumnPart: 8, engine.ColumnOnly: 24}

func newTableForm(st *Station, d *Desk, t engine.TableTopic) *entry {
	s := &tableForm{st: st, desk: d, topic: t, rows: d.Session.TableRows(t)}
	for _, r := range s.rows {
		s.was = append(s.was, maps.Clone(r))
	}
	return &entry{
		filling: filling{st: st, form: newForm(s.fields)}, title: t.Title,
		wrong: s.wrong, changed: func() bool { return !s.same() },
		hint: func() string { return "an empty row is left out; the fits follow at once; " },
		keep: s.keep,
	}
}

// fields makes the rows of the form: what tells shells, the columns' names, and
// each row with an empty one at the end.
func (s *tableForm) fields() []row {
	var out []row
	if s.topic.Name == record.Shells {
		out = append(out, s.toldBy())
	}
	if n := len(s.rows); n == 0 || !blank(s.rows[n-1]) {
		s.rows = append(s.rows, map[string]string{})
	}
	out = append(out, row{label: s.head(), labelWide: 76})
	for i, r := range s.rows {
		x := row{label: fmt.Sprint(i + 1), labelWide: 3}
		for _, column := range s.topic.Columns {
			x.fields = append(x.fields, s.cell(fmt.Sprintf("%d.%s", i+1, column), column, r))
		}
		out = append(out, x)
	}
	return out
}

// head names the columns, each above its cells.
func (s *tableForm) head() string {
	text := draw.Fit("", 4)
	for _, column := range s.topic.Columns {
		wide, ok := tableWide[column]
		if !ok {
			wide = 12
		}
		name := map[string]string{
			engine.ColumnCount: "halves", engine.ColumnHalf: "for", engine.ColumnPart: s.topic.Of.Noun(), engine.ColumnOnly: "only at, else where it is",
		}[column]
		if name == "" {
			name = column
		}
		text += draw.Fit(name, wide+2)
	}
	return text
}

func blank(r map[string]string) bool {
	for _, text := range r {
		if text != "" {
			return false
		}
	}
	return true
}

// toldBy chooses whether shells are told by undersize or by wall.
func (s *tableForm) toldBy() row {
	columns := []string{engine.ColumnUndersize, engine.ColumnWall}
	at := 0
	if slices.Contains(s.topic.Columns, engine.ColumnWall) {
		at = 1
	}
	return row{label: "told by their", labelWide: 16, fields: []field{choiceOf("told", "all are told by how much undersize they are, or all by their walls as measured; changing it clears the sizes", columns, at, "", func(i int) {
		if i == at {
			return
		}
		for _, r := range s.rows {
			delete(r, columns[at])
		}
		s.topic.Columns = slices.Clone(s.topic.Columns)
		s.topic.Columns[slices.Index(s.topic.Columns, columns[at])] = columns[i]
	})}}
}

// cell is the field of one column of a row.
func (s *tableForm) cell(id, column string, r map[string]string) field {
	text := r[column]
	put := func(t string) {
		r[column] = t
		if t == "" {
			delete(r, column)
		}
	}
	switch column {
	case engine.ColumnHalf:
		halves := []string{"", plan.Upper, plan.Lower}
		x := choiceOf(id, "which half it serves as", []string{"either", "upper", "lower"}, max(0, slices.Index(halves, text)), "", func(i int) { put(halves[i]) })
		x.wide = tableWide[column]
		return x
	case engine.ColumnName, engine.ColumnPart, engine.ColumnOnly:
		why := s.topic.Why
		if column == engine.ColumnName {
			why = "what it is called; may stay empty: its size tells it. " + why
		}
		x := wordsOf(id, why, mostName, &text)
		x.get = func() string { return r[column] }
		x.set = func(t string) error {
			put(t)
			return nil
		}
		x.wide = tableWide[column]
		return x
	case engine.ColumnCount:
		x := decimalOf(id, "how many halves there are: a pair is two", &text)
		set := x.set
		x.get = func() string { return r[column] }
		x.set = func(t string) error {
			err := set(t)
			if err == nil {
				put(text)
			}
			return err
		}
		x.wide = tableWide[column]
		return x
	default:
		x := lengthTextOf(id, s.topic.Why, s.desk, &text)
		set := x.set
		x.set = func(t string) error {
			err := set(t)
			if err == nil {
				put(text)
			}
			return err
		}
		return x
	}
}

// filled are the rows in which something stands.
func (s *tableForm) filled() []map[string]string {
	return slices.DeleteFunc(slices.Clone(s.rows), blank)
}

func (s *tableForm) same() bool {
	return slices.EqualFunc(s.filled(), s.was, func(a, b map[string]string) bool { return maps.Equal(a, b) })
}

// wrong says why the table cannot be kept.
func (s *tableForm) wrong() string {
	b, err := s.desk.Session.TableBody(s.topic, s.rows)
	if err != nil {
		return err.Error()
	}
	return faultText(s.desk.Session.CheckAll(b))
}

func (s *tableForm) keep() error {
	b, err := s.desk.Session.TableBody(s.topic, s.rows)
	if err != nil || s.same() {
		return err
	}
	s.st.Say(draw.Plain, s.topic.Title+": kept")
	return s.desk.Record(b)
}
