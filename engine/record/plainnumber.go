package record

import (
	"bytes"
	"encoding/json"
)

// Number is a number of a plain file as it was written, with or without a unit
// of its own. In JSON it may stand as a text, or as a number without an
// exponent, whose digits are kept as they are.
type Number string

// UnmarshalJSON reads a text or a number.
func (n *Number) UnmarshalJSON(data []byte) error {
	if len(data) > 0 && data[0] == '"' {
		return json.Unmarshal(data, (*string)(n))
	}
	var number json.Number
	if err := json.Unmarshal(data, &number); err != nil {
		return err
	}
	*n = Number(number)
	return nil
}

// Cell is what was read at one place: nothing when it was not measured, else
// the first reading and its repeats.
type Cell []Number

// UnmarshalJSON reads null, a number, or a list of numbers.
func (c *Cell) UnmarshalJSON(data []byte) error {
	switch {
	case bytes.Equal(data, []byte("null")):
		*c = nil
		return nil
	case bytes.HasPrefix(data, []byte("[")):
		return json.Unmarshal(data, (*[]Number)(c))
	default:
		*c = make(Cell, 1)
		return json.Unmarshal(data, &(*c)[0])
	}
}

// MarshalJSON writes null, one text, or a list of texts.
func (c Cell) MarshalJSON() ([]byte, error) {
	if len(c) == 1 {
		return json.Marshal(string(c[0]))
	}
	return json.Marshal([]Number(c))
}

// Column is what a row holds in one direction: a cell for each level, in their
// order, or one cell alone.
type Column struct {
	Cells []Cell
	// Alone says that the one cell stands without a list.
	Alone bool
}

// UnmarshalJSON reads a list of cells, or null or a number alone.
func (c *Column) UnmarshalJSON(data []byte) error {
	if bytes.HasPrefix(data, []byte("[")) {
		c.Alone = false
		return json.Unmarshal(data, &c.Cells)
	}
	*c = Column{Cells: make([]Cell, 1), Alone: true}
	return json.Unmarshal(data, &c.Cells[0])
}

// MarshalJSON writes what UnmarshalJSON reads.
func (c Column) MarshalJSON() ([]byte, error) {
	if c.Alone && len(c.Cells) == 1 {
		return json.Marshal(c.Cells[0])
	}
	return json.Marshal(c.Cells)
}
