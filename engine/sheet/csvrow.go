package sheet

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// rowReadings are the readings of one row: one for every value in it.
func rowReadings(line int, columns []meaning, cells []string, how Mapping) ([]RowReading, error) {
	var common RowReading
	stage := ""
	for i, m := range columns {
		cell := strings.TrimSpace(cells[i])
		switch m.name {
		case colFeature:
			common.Of = featureText(cell, how.Of)
		case colLevel:
			common.Level = cell
		case colDirection:
			common.Dir = cell
		case colStage:
			stage = cell
		case colKeyed:
			common.Keyed = cell
		case colSet:
			common.Set = cell
		case colAs:
			common.As = cell
		case colDespite:
			common.Despite = cell
		case colBlind:
			common.Blind = strings.EqualFold(cell, "yes")
		}
	}
	if how.Stage != "" && !strings.EqualFold(stage, how.Stage) {
		return nil, nil
	}
	var out []RowReading
	for i, m := range columns {
		cell := strings.TrimSpace(cells[i])
		if !m.value || cell == "" {
			continue
		}
		r, err := valueOf(common, m, line, cell)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// valueOf reads one value of a row.
func valueOf(r RowReading, m meaning, line int, cell string) (RowReading, error) {
	r.Row, r.Column, r.Value = line, m.heading, cell
	w, err := length.Parse(cell, m.unit)
	if err != nil {
		return r, &record.FieldError{Path: r.path(), Reason: err.Error()}
	}
	if m.name == colDeviation {
		r.Dev = w
	} else {
		r.Size = w
	}
	if m.dir != "" {
		r.Dir = m.dir
	}
	if r.Keyed == "" {
		r.Keyed = cell
	}
	if !slices.Contains([]string{"", record.First, record.Repeat, record.Replace}, r.As) {
		return r, &record.FieldError{Path: fmt.Sprintf("row %d, column %s", line, colAs), Value: r.As, Reason: "it is first, repeat or replace"}
	}
	return r, nil
}

// path names the row and the column of a reading.
func (r RowReading) path() string { return fmt.Sprintf("row %d, column %s", r.Row, r.Column) }

// wrong names a row's own column in an error.
func (r RowReading) wrong(column, value, reason string) error {
	return &record.FieldError{Path: fmt.Sprintf("row %d, column %s", r.Row, column), Value: value, Reason: reason}
}

// featureText puts the family before a bare number or label.
func featureText(cell string, family plan.Family) string {
	if family == "" || cell == "" || strings.Contains(cell, "/") {
		return cell
	}
	return string(family) + "/" + cell
}

// reading makes the reading of a place.
func (r RowReading) reading(p plan.Place, as string) record.Reading {
	return record.Reading{
		Of: p.Of, Level: p.Level, Dir: p.Dir, Set: r.Set, Keyed: r.Keyed, Via: record.ViaFile,
		Size: r.Size, Dev: r.Dev, As: as, Blind: r.Blind, Despite: r.Despite,
	}
}
