package record

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// maxStudy is how many values a study may have.
const maxStudy = 100_000

// The columns of a study's table.
const (
	columnOperator = "operator"
	columnPart     = "part"
	columnTrial    = "trial"
	columnValue    = "value"
)

// studyColumns are the columns, each once, in any order. Published tables call
// an operator an appraiser.
var studyColumns = map[string]string{
	columnOperator: columnOperator, "appraiser": columnOperator,
	columnPart: columnPart, columnTrial: columnTrial, columnValue: columnValue,
}

// ReadStudyCSV reads the values of a study as comma-separated text (RFC 4180):
// a heading that names the columns operator, part, trial and value in any order,
// then a row for each value. A value is a number, with its unit or without; a
// trial counts from 1. Empty lines are passed over. The error is ErrTooLarge, or
// a *FieldError that names the row, the heading being row 1, and the column.
func ReadStudyCSV(r io.Reader) ([]StudyRow, error) {
	in := &io.LimitedReader{R: r, N: MaxFile + 1}
	table := csv.NewReader(withoutMark(in))
	rows, err := studyRows(table)
	if in.N <= 0 {
		return nil, ErrTooLarge
	}
	return rows, err
}

func studyRows(table *csv.Reader) ([]StudyRow, error) {
	heading, err := table.Read()
	if errors.Is(err, io.EOF) {
		return nil, wrong("row 1", "", "there is no heading operator,part,trial,value")
	}
	if err != nil {
		return nil, csvError(err)
	}
	at, err := columnsOf(heading)
	if err != nil {
		return nil, err
	}
	var rows []StudyRow
	for {
		cells, err := table.Read()
		switch {
		case errors.Is(err, io.EOF) && len(rows) == 0:
			return nil, wrong("row 2", "", "there are no values below the heading")
		case errors.Is(err, io.EOF):
			return rows, nil
		case err != nil:
			return nil, csvError(err)
		}
		line, _ := table.FieldPos(0)
		row, err := studyRow(at, cells)
		if err == nil && len(rows) == maxStudy {
			err = wrong(columnValue, "", fmt.Sprintf("a study has at most %d values", maxStudy))
		}
		if err != nil {
			return nil, inRow(line, err)
		}
		rows = append(rows, row)
	}
}

// inRow names the row of an error that names the column.
func inRow(line int, err error) error {
	var f *FieldError
	if errors.As(err, &f) {
		f.Path = fmt.Sprintf("row %d, column %s", line, f.Path)
	}
	return err
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

// columnsOf returns where each column stands.
func columnsOf(heading []string) (map[string]int, error) {
	at := map[string]int{}
	for i, cell := range heading {
		column, ok := studyColumns[strings.ToLower(strings.TrimSpace(cell))]
		_, twice := at[column]
		switch {
		case !ok && strings.Contains(cell, ";"):
			return nil, wrong("row 1", cell, "columns are set apart by commas, not by semicolons")
		case !ok:
			return nil, wrong(fmt.Sprintf("row 1, column %d", i+1), cell, "a study's columns are operator, part, trial and value")
		case twice:
			return nil, wrong(fmt.Sprintf("row 1, column %d", i+1), cell, "this column is there twice")
		}
		at[column] = i
	}
	for _, column := range []string{columnOperator, columnPart, columnTrial, columnValue} {
		if _, ok := at[column]; !ok {
			return nil, wrong("row 1", strings.Join(heading, ","), "the column "+column+" is missing")
		}
	}
	return at, nil
}

// studyRow reads one row.
func studyRow(at map[string]int, cells []string) (StudyRow, error) {
	cell := func(column string) string { return strings.TrimSpace(cells[at[column]]) }
	trial, err := strconv.Atoi(cell(columnTrial))
	if err != nil {
		return StudyRow{}, wrong(columnTrial, cell(columnTrial), "not a whole number")
	}
	row := StudyRow{Operator: cell(columnOperator), Part: cell(columnPart), Trial: trial, Value: cell(columnValue)}
	return row, row.validate()
}

// csvReasons says in our words what is wrong with a row as a row.
var csvReasons = []struct {
	err   error
	words string
}{
	{csv.ErrFieldCount, "it has not as many columns as the heading; a number with a decimal comma stands in quotation marks"},
	{csv.ErrQuote, "a text in quotation marks does not end with one, or one inside it is not written twice"},
	{csv.ErrBareQuote, "a text with a quotation mark in it stands in quotation marks itself"},
}

func csvError(err error) error {
	out := &FieldError{Reason: "it cannot be read: " + err.Error(), Err: err}
	var p *csv.ParseError
	if !errors.As(err, &p) {
		return out
	}
	out.Path = fmt.Sprintf("row %d", p.StartLine)
	for _, r := range csvReasons {
		if errors.Is(p.Err, r.err) {
			out.Reason = r.words
		}
	}
	return out
}

// WriteStudyCSV writes the values of a study as ReadStudyCSV reads them.
func WriteStudyCSV(w io.Writer, rows []StudyRow) error {
	table := csv.NewWriter(w)
	lines := [][]string{{columnOperator, columnPart, columnTrial, columnValue}}
	for _, r := range rows {
		lines = append(lines, []string{r.Operator, r.Part, strconv.Itoa(r.Trial), r.Value})
	}
	return table.WriteAll(lines)
}
