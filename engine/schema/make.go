package schema

import (
	"reflect"
	"slices"
	"strings"
)

// Object is what a struct type does not say of its objects.
type Object struct {
	About string
	// Rows has one for each field of the type, in any order.
	Rows []Row
	// Rules are what one field asks of another.
	Rules []*Node
}

// Row is what a type does not say of one of its fields.
type Row struct {
	Name  string
	About string
	// Must says that it must be there.
	Must bool
	// As are the keywords beside those of its type.
	As *Node
	// Of is the definition of the objects in it, for a struct type or a list of
	// them.
	Of string
}

// Maker makes the definitions of a document out of types.
type Maker struct {
	// Own are the schemas of types that say themselves how they are written.
	Own map[reflect.Type]*Node
	// Objects are by the name of their definition.
	Objects map[string]Object

	defs Properties
}

// Define adds a definition that is no type's.
func (m *Maker) Define(name string, n *Node) { m.defs = append(m.defs, Property{name, n}) }

// Defs returns the definitions made so far, in the order of their names.
func (m *Maker) Defs() Properties {
	out := slices.Clone(m.defs)
	slices.SortStableFunc(out, func(a, b Property) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// Object defines the objects that have the fields of all the struct types, and
// returns a reference to the definition. No other field may be in them, unless
// a map that is tagged others takes it. It panics where types and table do not
// fit: a row that no field has, a field that no row has, a type that has no
// schema.
func (m *Maker) Object(name string, types ...reflect.Type) *Node {
	if m.defs.Get(name) != nil {
		return In(name)
	}
	o, ok := m.Objects[name]
	if !ok {
		panic("schema: nothing is said of " + name)
	}
	n := &Node{Description: o.About, Type: Types{"object"}, AdditionalProperties: Never(), AllOf: o.Rules}
	m.Define(name, n)
	b := builder{m, name, o.Rows, n}
	for _, t := range types {
		b.fields(t)
	}
	for _, row := range o.Rows {
		if n.Properties.Get(row.Name) == nil {
			panic("schema: " + name + " has no field " + row.Name)
		}
	}
	return In(name)
}

// builder makes one definition.
type builder struct {
	*Maker
	name string
	rows []Row
	node *Node
}

// fields adds the fields of a struct type as encoding/json names them.
func (b builder) fields(t reflect.Type) {
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Tag.Get("others") != "":
			b.node.AdditionalProperties = b.value(f.Type.Elem(), "")
		case f.Anonymous && name == "":
			b.fields(f.Type)
		default:
			b.field(name, f.Type)
		}
	}
}

// field adds one field.
func (b builder) field(name string, t reflect.Type) {
	i := slices.IndexFunc(b.rows, func(f Row) bool { return f.Name == name })
	if i < 0 || b.rows[i].About == "" {
		panic("schema: nothing is said of " + b.name + "." + name)
	}
	row := b.rows[i]
	n := b.value(t, row.Of).With(row.As)
	n.Description = row.About
	b.node.Properties = append(b.node.Properties, Property{name, n})
	if row.Must {
		b.node.Required = append(b.node.Required, name)
	}
}

// value returns the schema of a type; of names the definition of its objects.
func (b builder) value(t reflect.Type, of string) *Node {
	if own := b.Own[t]; own != nil {
		return own
	}
	switch t.Kind() {
	case reflect.Pointer:
		return b.value(t.Elem(), of)
	case reflect.Struct:
		return b.Object(of, t)
	case reflect.Slice:
		return &Node{Type: Types{"array"}, Items: b.value(t.Elem(), of)}
	case reflect.Map:
		return &Node{Type: Types{"object"}, AdditionalProperties: b.value(t.Elem(), of)}
	case reflect.String:
		return &Node{Type: Types{"string"}}
	case reflect.Int, reflect.Int64:
		return &Node{Type: Types{"integer"}}
	case reflect.Float64:
		return &Node{Type: Types{"number"}}
	case reflect.Bool:
		return &Node{Type: Types{"boolean"}}
	default:
		panic("schema: " + b.name + " has a field of type " + t.String())
	}
}
