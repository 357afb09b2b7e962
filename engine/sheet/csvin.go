package sheet

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// maxRows is how many rows of a table are read at most.
const maxRows = 100_000

// Intake is what was read in a table.
type Intake struct {
	Readings []RowReading
	// Rows counts the rows below the heading, Passed names the columns that
	// nothing was taken from.
	Rows   int
	Passed []string
}

// RowReading is a reading with where it stands: the heading is row 1. Of and
// Level are as the table names them, for [Intake.Into] and [Intake.Plain].
type RowReading struct {
	Row          int
	Column       string
	Of, Level    string
	Value        string
	Size, Dev    length.Written
	Dir          string
	Keyed, As    string
	Set, Despite string
	Blind        bool
}

// meaning is what a column of a table is.
type meaning struct {
	heading, name string
	unit          length.Unit
	value         bool // it holds readings
	dir           string
}

// ReadCSV reads readings from comma-separated text (RFC 4180) with a heading:
// a feature ("bore/3"), a level, and either a direction and what was read, or a
// column for every direction. ReadingsCSV writes such a table. The error is
// record.ErrTooLarge, or a *record.FieldError that names row and column.
func ReadCSV(r io.Reader, how Mapping) (Intake, error) {
	in := &io.LimitedReader{R: r, N: record.MaxFile + 1}
	table := csv.NewReader(withoutMark(in))
	if how.Separator != 0 {
		table.Comma = how.Separator
	}
	out, err := readTable(table, how)
	if in.N <= 0 {
		return Intake{}, record.ErrTooLarge
	}
	return out, err
}

func readTable(table *csv.Reader, how Mapping) (Intake, error) {
	heading, err := table.Read()
	if errors.Is(err, io.EOF) {
		return Intake{}, &record.FieldError{Path: "row 1", Reason: "there is no heading"}
	}
	if err != nil {
		return Intake{}, tableError(err)
	}
	columns, passed, err := meanings(heading, how)
	if err != nil {
		return Intake{}, err
	}
	out := Intake{Passed: passed}
	for {
		cells, err := table.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Intake{}, tableError(err)
		}
		if out.Rows++; out.Rows > maxRows {
			return Intake{}, &record.FieldError{Reason: fmt.Sprintf("a table has at most %d rows", maxRows)}
		}
		line, _ := table.FieldPos(0)
		rs, err := rowReadings(line, columns, cells, how)
		if err != nil {
			return Intake{}, err
		}
		out.Readings = append(out.Readings, rs...)
	}
	if len(out.Readings) == 0 {
		return Intake{}, &record.FieldError{Path: "row 2", Reason: "there are no readings below the heading"}
	}
	return out, nil
}

// withoutMark leaves out the mark of UTF-8 that some programs begin a file with.
func withoutMark(r io.Reader) io.Reader {
	const mark = "\ufeff"
	b := bufio.NewReader(r)
	if start, err := b.Peek(len(mark)); err == nil && string(start) == mark {
		_, _ = b.Discard(len(mark)) // they were there to be seen
	}
	return b
}

// tableError says in plain words what is wrong with a row as a row.
func tableError(err error) error {
	var p *csv.ParseError
	if !errors.As(err, &p) {
		return &record.FieldError{Reason: "the table cannot be read: " + err.Error(), Err: err}
	}
	out := &record.FieldError{Path: fmt.Sprintf("row %d", p.StartLine), Reason: "the row cannot be read: " + p.Err.Error(), Err: p.Err}
	switch {
	case errors.Is(p.Err, csv.ErrFieldCount):
		out.Reason = "it has not as many columns as the heading; a number with a decimal comma stands in quotation marks"
	case errors.Is(p.Err, csv.ErrQuote):
		out.Reason = "a text in quotation marks does not end with one, or one inside it is not written twice"
	case errors.Is(p.Err, csv.ErrBareQuote):
		out.Reason = "a text with a quotation mark in it stands in quotation marks itself"
	}
	return out
}

// known are the names of columns that are not values.
var known = []string{colFeature, colLevel, colDirection, colStage, colKeyed, colSet, colAs, colBlind, colDespite}

// meanings tells what every column is, by its heading, and which are passed
// over.
func meanings(heading []string, how Mapping) (out []meaning, passed []string, err error) {
	seen := map[string]bool{}
	mapped := map[string]bool{}
	for i, cell := range heading {
		m := meaningOf(cell, how, mapped)
		key := m.name + m.unit.String()
		if m.name != "" && seen[key] {
			return nil, nil, &record.FieldError{Path: fmt.Sprintf("row 1, column %d", i+1), Value: cell, Reason: "this column is there twice"}
		}
		seen[key] = true
		if m.name == "" {
			passed = append(passed, cell)
		}
		out = append(out, m)
	}
	for name := range how.Columns {
		if !mapped[name] {
			return nil, nil, &record.FieldError{Path: "row 1", Value: name, Reason: "there is no such column"}
		}
	}
	has := func(is func(meaning) bool) bool { return slices.ContainsFunc(out, is) }
	switch {
	case !has(func(m meaning) bool { return m.name == colFeature }):
		return nil, nil, &record.FieldError{Path: "row 1", Value: strings.Join(heading, ","), Reason: "no column names the feature"}
	case !has(func(m meaning) bool { return m.value }):
		return nil, nil, &record.FieldError{Path: "row 1", Value: strings.Join(heading, ","), Reason: "no column holds what was read"}
	}
	return out, passed, nil
}

// meaningOf tells what a column is: its name in the mapping, or its own, with
// the unit that stands behind it in brackets.
func meaningOf(cell string, how Mapping, mapped map[string]bool) meaning {
	name := strings.TrimSpace(cell)
	m := meaning{heading: name, unit: how.Unit}
	if as, ok := how.Columns[name]; ok {
		mapped[name] = true
		_, m.unit = bracketed(name, m.unit)
		name, m.unit = bracketed(as, m.unit)
	} else {
		name, m.unit = bracketed(name, m.unit)
	}
	name = strings.ToLower(name)
	switch {
	case slices.Contains(known, name):
		m.name, m.unit = name, length.NoUnit
	case name == colRead || name == colDeviation:
		m.name, m.value = name, true
	case isDirection(name):
		m.name, m.dir, m.value = name, name, true
	}
	return m
}

// bracketed cuts the unit in brackets off a heading.
func bracketed(name string, unit length.Unit) (string, length.Unit) {
	open := strings.LastIndex(name, "(")
	if open < 0 || !strings.HasSuffix(name, ")") {
		return name, unit
	}
	u, err := length.ParseUnit(strings.TrimSpace(name[open+1 : len(name)-1]))
	if err != nil {
		return name, unit
	}
	return strings.TrimSpace(name[:open]), u
}

// isDirection reports whether a heading names a direction of any family.
func isDirection(name string) bool {
	for _, t := range plan.Families() {
		if _, err := plan.ParseDirection(t.Family, name); err == nil && name != "" {
			return true
		}
	}
	return false
}
