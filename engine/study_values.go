package engine

import (
	"errors"
	"fmt"

	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/record"
)

// ErrTolerance is wrapped by the error for a tolerance that is none.
var ErrTolerance = errors.New("tolerance")

// studyValues are the values of a study as lengths.
type studyValues struct {
	observations []doubt.Observation
	// unit is that of the first value, NoUnit where no value states one.
	unit length.Unit
}

// scale is what numbers are counted in: their unit, or millimetres for numbers
// without one, which leaves them nine decimals.
func (v studyValues) scale() length.Unit {
	if v.unit == length.NoUnit {
		return length.MM
	}
	return v.unit
}

// valuesOf reads the values of a study. Either all of them state a unit or none
// does. The error names the value by its row as a table counts them, the heading
// being row 1.
func valuesOf(rows []record.StudyRow) (studyValues, error) {
	var out studyValues
	for i, row := range rows {
		w, err := length.Parse(row.Value, length.NoUnit)
		bare := err != nil
		if bare {
			w, err = length.Parse(row.Value, length.MM)
		}
		stated := w.Unit
		if bare {
			stated = length.NoUnit
		}
		if i == 0 {
			out.unit = stated
		}
		switch {
		case err != nil:
			return studyValues{}, fmt.Errorf("row %d, column value: %w", i+2, err)
		case (stated == length.NoUnit) != (out.unit == length.NoUnit):
			return studyValues{}, fmt.Errorf("row %d, column value: %q: either every value states its unit or none does", i+2, row.Value)
		}
		out.observations = append(out.observations, doubt.Observation{
			Operator: row.Operator, Part: row.Part, Trial: row.Trial, Value: w.Length,
		})
	}
	return out, nil
}

// tolerance reads a tolerance, which takes the values' unit where it states
// none; 0 for none.
func (v studyValues) tolerance(text string) (length.Length, error) {
	if text == "" {
		return 0, nil
	}
	w, err := length.Parse(text, v.scale())
	switch {
	case err != nil:
		return 0, fmt.Errorf("%w %w", ErrTolerance, err)
	case w.Length <= 0:
		return 0, fmt.Errorf("%w %q: it is not above zero", ErrTolerance, text)
	}
	return w.Length, nil
}
