package record

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// node is a schema as other programs read it.
type node struct {
	Ref         string           `json:"$ref"`
	Description string           `json:"description"`
	Type        any              `json:"type"`
	Const       any              `json:"const"`
	Enum        []any            `json:"enum"`
	Properties  map[string]*node `json:"properties"`
	// Additional is false or a schema.
	Additional json.RawMessage  `json:"additionalProperties"`
	Items      *node            `json:"items"`
	AnyOf      []*node          `json:"anyOf"`
	Defs       map[string]*node `json:"$defs"`
}

// document is the schema of a session file, and follows its references.
type document struct{ node }

func readDocument(t *testing.T) *document {
	t.Helper()
	var d document
	if err := json.Unmarshal(Schema(), &d.node); err != nil {
		t.Fatal(err)
	}
	return &d
}

func (d *document) at(n *node) *node {
	for n != nil && n.Ref != "" {
		n = d.Defs[strings.TrimPrefix(n.Ref, "#/$defs/")]
	}
	return n
}

// tokens returns the kinds of value that a schema takes.
func (d *document) tokens(n *node) token {
	named := map[string]token{
		"object": isObject, "array": isList, "string": isText, "number": isNumber, "integer": isNumber, "boolean": isFlag, "null": isNull,
	}
	var all token
	switch of := d.at(n); x := of.Type.(type) {
	case string:
		return named[x]
	case []any:
		for _, name := range x {
			all |= named[fmt.Sprint(name)]
		}
	default:
		for _, one := range of.AnyOf {
			all |= d.tokens(one)
		}
	}
	return all
}

// follows says where a schema and the shape of the reader differ: in the kinds
// of value, in the fields, in whether there may be others.
func (d *document) follows(at string, n *node, s *shape, seen map[*node]bool) []string {
	n = d.at(n)
	if n == nil {
		return []string{at + " has no schema"}
	}
	if seen[n] {
		return nil
	}
	seen[n] = true
	var out []string
	if got := d.tokens(n); got != s.allow {
		out = append(out, fmt.Sprintf("%s takes %v, the reader %v", at, got, s.allow))
	}
	if got, want := slices.Sorted(maps.Keys(n.Properties)), slices.Sorted(maps.Keys(s.fields)); s.fields != nil && !slices.Equal(got, want) {
		out = append(out, fmt.Sprintf("%s has fields %q, the reader %q", at, got, want))
	}
	if s.fields != nil && (string(n.Additional) == "false") != (s.rest == nil) {
		out = append(out, fmt.Sprintf("%s has other fields: %s, the reader %v", at, n.Additional, s.rest))
	}
	for name, field := range s.fields {
		out = append(out, d.follows(at+"."+name, n.Properties[name], field, seen)...)
	}
	if n.Items != nil && s.elem != nil {
		out = append(out, d.follows(at+"[]", n.Items, s.elem, seen)...)
	}
	return out
}

// TestSchemaFollowsShapes: schema and reader know the same fields.
func TestSchemaFollowsShapes(t *testing.T) {
	d := readDocument(t)
	differ := d.follows("plain", d.Defs["plain"], plainShape(), map[*node]bool{})
	full := *fullShape()
	full.fields = maps.Clone(full.fields)
	full.fields["events"] = &shape{allow: isList} // each event has the shape of its kind
	differ = append(differ, d.follows("full", d.Defs["full"], &full, map[*node]bool{})...)
	for kind, c := range codecs {
		differ = append(differ, d.follows(string(kind), d.Defs[defOf(kind)], c.shape(), map[*node]bool{})...)
	}
	for _, where := range differ {
		t.Error(where)
	}
	if len(kinds) != len(codecs) {
		t.Errorf("the schema knows %d kinds of %d", len(kinds), len(codecs))
	}
}

// TestSchemaDescribes: every definition and every field is described, a
// definition by a sentence.
func TestSchemaDescribes(t *testing.T) {
	d := readDocument(t)
	for name, def := range d.Defs {
		if name == "event" {
			continue
		}
		if r := []rune(def.Description); len(r) == 0 || !unicode.IsUpper(r[0]) || !strings.HasSuffix(def.Description, ".") {
			t.Errorf("%s is described as %q", name, def.Description)
		}
		for field, n := range def.Properties {
			if r := []rune(n.Description); len(r) == 0 || unicode.IsUpper(r[0]) && !strings.HasPrefix(n.Description, "SHA") || strings.HasSuffix(n.Description, ".") {
				t.Errorf("%s.%s is described as %q", name, field, n.Description)
			}
		}
	}
}

// TestSchemaWords: every word that the schema lists for a field is one that the
// reader knows there.
func TestSchemaWords(t *testing.T) {
	d := readDocument(t)
	for _, g := range golden {
		def := d.Defs[defOf(g.body.Is())]
		for field, n := range def.Properties {
			for _, word := range n.Enum {
				text := changed(t, storedText(g.fields), []any{field}, func(any) any { return word })
				_, err := DecodeStrict([]byte(text))
				if err != nil && strings.Contains(err.Error(), "ne of ") || err != nil && strings.Contains(err.Error(), " neither ") {
					t.Errorf("the schema takes %v as %s.%s, and the reader says %v", word, g.body.Is(), field, err)
				}
			}
		}
	}
}
