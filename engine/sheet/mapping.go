package sheet

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Mapping says how the columns of a table are to be understood.
type Mapping struct {
	// Columns gives a column another name, by its heading as it stands in the
	// table: one that ReadCSV knows, or a direction.
	Columns map[string]string
	// Of is the family of features that are named by their number or label
	// alone, Unit the unit of numbers without one.
	Of   plan.Family
	Unit length.Unit
	// Stage takes the rows of that stage only, where the table has stages.
	Stage string
	// Separator stands between the cells: a comma when it is zero.
	Separator rune
}

// maxMapping is how many bytes a file of a mapping has at most.
const maxMapping = 64 << 10

// mappingFile is a mapping as it is written in a file.
type mappingFile struct {
	Columns   map[string]string `json:"columns"`
	Of        string            `json:"of"`
	Units     string            `json:"units"`
	Stage     string            `json:"stage"`
	Separator string            `json:"separator"`
}

// ReadMapping reads a mapping from JSON, such as
//
//	{"columns": {"Cyl": "feature", "Thrust": "across"}, "of": "bore", "units": "mm"}
//
// stage and separator may be given too. The error is a *record.FieldError.
func ReadMapping(r io.Reader) (Mapping, error) {
	in := &io.LimitedReader{R: r, N: maxMapping + 1}
	read := json.NewDecoder(in)
	read.DisallowUnknownFields()
	var file mappingFile
	err := read.Decode(&file)
	if err == nil {
		if _, err = read.Token(); errors.Is(err, io.EOF) {
			err = nil
		} else if err == nil {
			err = errors.New("something stands behind it")
		}
	}
	switch {
	case in.N <= 0:
		return Mapping{}, &record.FieldError{Reason: fmt.Sprintf("a mapping has at most %d bytes", maxMapping)}
	case err != nil:
		return Mapping{}, &record.FieldError{Reason: "this is no mapping in JSON: " + err.Error(), Err: err}
	}
	return file.mapping()
}

func (f mappingFile) mapping() (m Mapping, err error) {
	m = Mapping{Columns: f.Columns, Stage: f.Stage}
	if f.Of != "" {
		if m.Of, err = plan.FamilyOf(f.Of); err != nil {
			return m, &record.FieldError{Path: "of", Value: f.Of, Reason: err.Error(), Err: err}
		}
	}
	if f.Units != "" {
		if m.Unit, err = length.ParseUnit(f.Units); err != nil {
			return m, &record.FieldError{Path: "units", Value: f.Units, Reason: err.Error(), Err: err}
		}
	}
	if m.Separator, err = ParseSeparator(f.Separator); err != nil {
		return m, &record.FieldError{Path: "separator", Value: f.Separator, Reason: err.Error(), Err: err}
	}
	return m, nil
}

// ErrSeparator says that nothing is separated so.
var ErrSeparator = errors.New("a separator is a comma, a semicolon or tab")

// ParseSeparator reads what stands between cells: ",", ";", "tab" or a tab
// itself. Nothing is zero, which is a comma.
func ParseSeparator(text string) (rune, error) {
	switch text {
	case "":
		return 0, nil
	case ",", ";":
		return rune(text[0]), nil
	case "tab", "\t":
		return '\t', nil
	default:
		return 0, ErrSeparator
	}
}
