package record

import (
	"encoding"
	"encoding/json"
	"reflect"
	"strings"
)

// token is a kind of JSON value; several joined are what a place allows.
type token uint8

const (
	isObject token = 1 << iota
	isList
	isText
	isNumber
	isFlag
	isNull
)

// tokenNames name the tokens in sentences.
var tokenNames = []struct {
	token token
	name  string
}{
	{isObject, "an object"},
	{isList, "a list"},
	{isText, "a text"},
	{isNumber, "a number"},
	{isFlag, "true or false"},
	{isNull, "null"},
}

// String returns the names of all tokens in it.
func (t token) String() string {
	var names []string
	for _, n := range tokenNames {
		if t&n.token != 0 {
			names = append(names, n.name)
		}
	}
	return strings.Join(names, " or ")
}

// shape is what a JSON value may look like, read off a type once.
type shape struct {
	allow token
	// fields are the keys of an object.
	fields map[string]*shape
	// rest is the shape under any other key, nil when there may be none; those
	// keys are written small when small is set.
	rest  *shape
	small bool
	// elem is the shape of the items of a list.
	elem *shape
	// bits is the size of a whole number; 0 takes any decimal number without
	// an exponent, or with one where exponent is set.
	bits     int
	exponent bool
	// text reads a text that has a form of its own.
	text reflect.Type
}

// anything is any value at all, for what is looked at later.
func anything() *shape {
	s := &shape{allow: isObject | isList | isText | isNumber | isFlag | isNull, exponent: true}
	s.rest, s.elem = s, s
	return s
}

// Shapes of the types that say themselves how they are read.
var (
	numberShape = &shape{allow: isText | isNumber}
	cellShape   = &shape{allow: isText | isNumber | isList | isNull, elem: numberShape}
	columnShape = &shape{allow: isText | isNumber | isList | isNull, elem: cellShape}
	ownShapes   = map[reflect.Type]*shape{
		reflect.TypeFor[json.RawMessage](): anything(),
		reflect.TypeFor[Number]():          numberShape,
		reflect.TypeFor[Cell]():            cellShape,
		reflect.TypeFor[Column]():          columnShape,
	}
	textType = reflect.TypeFor[encoding.TextUnmarshaler]()
)

// shapeOf returns the shape of an object that has the fields of all the struct
// types. It panics for a type that has no shape, which is a mistake in the type.
func shapeOf(types ...reflect.Type) *shape {
	s := &shape{allow: isObject, fields: map[string]*shape{}}
	for _, t := range types {
		s.addFields(t)
	}
	return s
}

// addFields adds the fields of a struct type as encoding/json names them. A
// map that is tagged others takes the keys that no field has.
func (s *shape) addFields(t reflect.Type) {
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Tag.Get("others") != "":
			s.rest, s.small = shapeFor(f.Type.Elem()), true
		case f.Anonymous && name == "":
			s.addFields(f.Type)
		case f.IsExported() && name != "-" && name != "":
			if s.fields[name] != nil {
				panic("record: two fields are called " + name)
			}
			s.fields[name] = shapeFor(f.Type)
		default:
			panic("record: a field has no name: " + t.String() + "." + f.Name)
		}
	}
}

// shapeFor returns the shape of a value of the type.
func shapeFor(t reflect.Type) *shape {
	if s := ownShapes[t]; s != nil {
		return s
	}
	if reflect.PointerTo(t).Implements(textType) {
		return &shape{allow: isText, text: t}
	}
	switch t.Kind() {
	case reflect.Struct:
		return shapeOf(t)
	case reflect.Pointer:
		return shapeFor(t.Elem())
	case reflect.Slice:
		return &shape{allow: isList, elem: shapeFor(t.Elem())}
	case reflect.Map:
		return &shape{allow: isObject, rest: shapeFor(t.Elem())}
	case reflect.String:
		return &shape{allow: isText}
	case reflect.Int, reflect.Int64:
		return &shape{allow: isNumber, bits: t.Bits()}
	case reflect.Bool:
		return &shape{allow: isFlag}
	default:
		panic("record: no shape for " + t.String())
	}
}
