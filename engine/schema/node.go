package schema

import (
	"bytes"
	"encoding/json"
	"reflect"
)

// Draft is the identity of the dialect that Document states.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// Node is a schema. The zero value takes anything.
type Node struct {
	Schema      string `json:"$schema,omitempty"`
	ID          string `json:"$id,omitempty"`
	Ref         string `json:"$ref,omitempty"`
	Title       string `json:"title,omitempty"`
	Description string `json:"description,omitempty"`
	Type        Types  `json:"type,omitempty"`
	Const       any    `json:"const,omitempty"`
	Enum        []any  `json:"enum,omitempty"`
	Format      string `json:"format,omitempty"`
	Pattern     string `json:"pattern,omitempty"`
	MinLength   *int   `json:"minLength,omitempty"`
	MaxLength   *int   `json:"maxLength,omitempty"`
	Minimum     *int   `json:"minimum,omitempty"`
	Maximum     *int   `json:"maximum,omitempty"`
	MultipleOf  *int   `json:"multipleOf,omitempty"`

	Items       *Node `json:"items,omitempty"`
	MinItems    *int  `json:"minItems,omitempty"`
	MaxItems    *int  `json:"maxItems,omitempty"`
	UniqueItems bool  `json:"uniqueItems,omitempty"`

	Properties           Properties `json:"properties,omitempty"`
	Required             []string   `json:"required,omitempty"`
	MinProperties        *int       `json:"minProperties,omitempty"`
	PropertyNames        *Node      `json:"propertyNames,omitempty"`
	AdditionalProperties *Node      `json:"additionalProperties,omitempty"`

	AllOf []*Node `json:"allOf,omitempty"`
	AnyOf []*Node `json:"anyOf,omitempty"`
	OneOf []*Node `json:"oneOf,omitempty"`
	Not   *Node   `json:"not,omitempty"`
	If    *Node   `json:"if,omitempty"`
	Then  *Node   `json:"then,omitempty"`
	Else  *Node   `json:"else,omitempty"`

	Defs Properties `json:"$defs,omitempty"`
	// Never takes nothing; the rest is then not looked at.
	Never bool `json:"-"`
}

// Types are the kinds of JSON value a schema takes; none is any.
type Types []string

// MarshalJSON writes one kind as a text, several as a list.
func (t Types) MarshalJSON() ([]byte, error) {
	if len(t) == 1 {
		return json.Marshal(t[0])
	}
	return json.Marshal([]string(t))
}

// Property is a schema under a name.
type Property struct {
	Name string
	Node *Node
}

// Properties are schemas by name, in the order they are written.
type Properties []Property

// Get returns the schema of that name, nil when there is none.
func (p Properties) Get(name string) *Node {
	for _, x := range p {
		if x.Name == name {
			return x.Node
		}
	}
	return nil
}

// MarshalJSON writes an object with the properties in their order.
func (p Properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, x := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := marshal(x.Name)
		if err != nil {
			return nil, err
		}
		node, err := marshal(x.Node)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(node)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// keywords is a node without its method.
type keywords Node

// MarshalJSON writes the schema: false for one that takes nothing.
func (n *Node) MarshalJSON() ([]byte, error) {
	if n.Never {
		return []byte("false"), nil
	}
	return marshal((*keywords)(n))
}

// marshal is json.Marshal without HTML escaping.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// Document returns the schema as a whole text that states its dialect, indented
// by two spaces. It panics for a Const that is no JSON value, which is a
// mistake in the schema.
func Document(n Node) []byte {
	n.Schema = Draft
	text, err := marshal(&n)
	if err != nil {
		panic("schema: " + err.Error())
	}
	var b bytes.Buffer
	if err := json.Indent(&b, text, "", "  "); err != nil {
		panic("schema: " + err.Error())
	}
	b.WriteByte('\n')
	return b.Bytes()
}

// With returns the schema with the keywords that m states in place of its own;
// the schemas of items are joined likewise.
func (n *Node) With(m *Node) *Node {
	out := *n
	if m == nil {
		return &out
	}
	to, from := reflect.ValueOf(&out).Elem(), reflect.ValueOf(m).Elem()
	for i := range from.NumField() {
		if f := from.Field(i); !f.IsZero() {
			to.Field(i).Set(f)
		}
	}
	if n.Items != nil && m.Items != nil {
		out.Items = n.Items.With(m.Items)
	}
	return &out
}
