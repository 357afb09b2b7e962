package record

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"borewright/engine/length"
)

// walker checks every text and every length in a value, and puts before the
// path of an error where in the value it stands.
type walker struct {
	text func(string) error
	size func(length.Written) error
}

var writtenType = reflect.TypeFor[length.Written]()

func (w walker) walk(v reflect.Value) error {
	if v.Type() == writtenType {
		size, _ := v.Interface().(length.Written)
		return w.size(size)
	}
	switch v.Kind() {
	case reflect.String:
		return w.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			if err := w.walk(v.Field(i)); err != nil {
				return under(fieldName(v.Type().Field(i)), err)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := w.walk(v.Index(i)); err != nil {
				return under(fmt.Sprintf("[%d]", i), err)
			}
		}
	case reflect.Map:
		return w.entries(v)
	default: // holds neither
	}
	return nil
}

// entries walks a map, keys too, in the order of its keys.
func (w walker) entries(v reflect.Value) error {
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	for _, key := range keys {
		if err := w.walk(key); err != nil {
			return err
		}
		if err := w.walk(v.MapIndex(key)); err != nil {
			var top *path
			return under(top.under(key.String()).String(), err)
		}
	}
	return nil
}

// fieldName returns the name of a field in stored bytes, empty for one whose
// fields stand among those around it.
func fieldName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}
