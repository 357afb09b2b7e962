package record

import (
	"encoding/json"
	"maps"
	"slices"

	"borewright/engine/plan"
)

// PlainRow is what was read on one feature, by direction.
//
// A direction holds a list with a cell for each level, in their order. A row
// that names its level, by id or by its number from 1, holds in each direction
// the cell of that level: a number, or a list of repeats.
type PlainRow struct {
	Of    plan.Feature `json:"of,omitzero"`
	Level Number       `json:"level,omitempty"`
	// Stage is AsFound or AfterWork; rows of a file with work are after it if
	// they do not say otherwise.
	Stage string `json:"stage,omitempty"`
	// Values are by direction, as the file names it.
	Values map[string]Column `json:"-" others:"directions"`
}

// rowHead is a row without its directions.
type rowHead PlainRow

// UnmarshalJSON reads the row; a key that is no field is a direction.
func (r *PlainRow) UnmarshalJSON(data []byte) error {
	var head rowHead
	if err := json.Unmarshal(data, &head); err != nil {
		return err
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(data, &all); err != nil {
		return err
	}
	for key, value := range all {
		if key == "of" || key == "level" || key == "stage" {
			continue
		}
		var c Column
		if err := json.Unmarshal(value, &c); err != nil {
			return err
		}
		if head.Values == nil {
			head.Values = map[string]Column{}
		}
		head.Values[key] = c
	}
	*r = PlainRow(head)
	return nil
}

// MarshalJSON writes the row with its directions in the order of their names.
func (r PlainRow) MarshalJSON() ([]byte, error) {
	out, err := json.Marshal(rowHead(r))
	if err != nil || len(r.Values) == 0 {
		return out, err
	}
	values, err := json.Marshal(r.Values)
	if err != nil {
		return nil, err
	}
	if out = out[:len(out)-1]; len(out) > 1 {
		out = append(out, ',')
	}
	return append(out, values[1:]...), nil
}

// directions returns the names of the row's directions in one certain order.
func (r PlainRow) directions() []string { return slices.Sorted(maps.Keys(r.Values)) }

// canonical returns the row's name for each of its directions, by the name that
// is usual; at is where the row stands.
func (r PlainRow) canonical(at string) (map[string]string, error) {
	names := map[string]string{}
	for _, key := range r.directions() {
		dir, err := plan.ParseDirection(r.Of.Family, key)
		if err != nil {
			return nil, textError(at, key, err)
		}
		if other, twice := names[dir]; twice {
			return nil, wrong(at+"."+key, "", "this is the same direction as "+other)
		}
		names[dir] = key
	}
	return names, nil
}

// cells returns the cells of a column that goes over so many levels.
func (r PlainRow) cells(c Column) []Cell {
	if r.Level == "" || c.Alone {
		return c.Cells
	}
	// The list is of repeats at the one level that the row names.
	var repeats Cell
	for _, cell := range c.Cells {
		if len(cell) != 1 {
			return c.Cells
		}
		repeats = append(repeats, cell[0])
	}
	return []Cell{repeats}
}
