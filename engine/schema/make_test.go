package schema

import (
	"reflect"
	"strings"
	"testing"
)

type word string

type inner struct {
	N int64 `json:"n"`
}

type wider struct {
	inner
	Size struct{} `json:"size"`
}

var size = reflect.TypeFor[struct{}]()

func toys() Maker {
	return Maker{
		Own: map[reflect.Type]*Node{size: Text("[0-9]+ mm", 9)},
		Objects: map[string]Object{
			"inner": {About: "An inner one.", Rows: []Row{{Name: "n", About: "how many", Must: true, As: From(1)}}},
			"outer": {About: "An outer one.", Rows: []Row{
				{Name: "name", About: "its name", Must: true, As: Words("a", "b")},
				{Name: "lists", About: "lists", As: Each(Each(Text("", 3), 1, 2), 0, 4).Apart()},
				{Name: "in", About: "inner ones", Of: "inner"},
				{Name: "one", About: "one of them", Of: "inner"},
				{Name: "flag", About: "whether"},
				{Name: "share", About: "a share"},
				{Name: "counts", About: "counts"},
			}, Rules: []*Node{When(Needs("flag"), Needs("one"))}},
			"wider": {About: "A wider one.", Rows: []Row{{Name: "n", About: "n"}, {Name: "size", About: "a size"}}},
		},
	}
}

type outer struct {
	Name   word            `json:"name"`
	Lists  [][]string      `json:"lists,omitempty"`
	In     []inner         `json:"in,omitempty"`
	One    *inner          `json:"one,omitempty"`
	Flag   bool            `json:"flag,omitempty"`
	Share  float64         `json:"share,omitempty"`
	Counts map[string]int  `json:"counts,omitempty"`
	Rest   map[string]bool `json:"-" others:"rest"`
}

// TestDocument has the whole text of a small schema.
func TestDocument(t *testing.T) {
	m := toys()
	top := m.Object("outer", reflect.TypeFor[outer]()).With(&Node{Title: "Toys <1>"})
	m.Object("wider", reflect.TypeFor[wider]())
	top.Defs = m.Defs()
	got := strings.Join(strings.Fields(string(Document(*top))), "")
	want := strings.Join(strings.Fields(`{
		"$schema": "https://json-schema.org/draft/2020-12/schema", "$ref": "#/$defs/outer", "title": "Toys <1>",
		"$defs": {
			"inner": {"description": "An inner one.", "type": "object",
				"properties": {"n": {"description": "how many", "type": "integer", "minimum": 1}},
				"required": ["n"], "additionalProperties": false},
			"outer": {"description": "An outer one.", "type": "object",
				"properties": {
					"name": {"description": "its name", "type": "string", "enum": ["a", "b"]},
					"lists": {"description": "lists", "type": "array",
						"items": {"type": "array", "items": {"type": "string", "maxLength": 3}, "minItems": 1, "maxItems": 2},
						"maxItems": 4, "uniqueItems": true},
					"in": {"description": "inner ones", "type": "array", "items": {"$ref": "#/$defs/inner"}},
					"one": {"$ref": "#/$defs/inner", "description": "one of them"},
					"flag": {"description": "whether", "type": "boolean"},
					"share": {"description": "a share", "type": "number"},
					"counts": {"description": "counts", "type": "object", "additionalProperties": {"type": "integer"}}},
				"required": ["name"], "additionalProperties": {"type": "boolean"},
				"allOf": [{"if": {"required": ["flag"]}, "then": {"required": ["one"]}}]},
			"wider": {"description": "A wider one.", "type": "object",
				"properties": {"n": {"description": "n", "type": "integer"}, "size": {"description": "a size", "pattern": "^(?:[0-9]+ mm)$", "maxLength": 9}},
				"additionalProperties": false}
		}}`), "")
	if got != want {
		t.Errorf("the document is\n%s\nnot\n%s", got, want)
	}
}

// TestObjectRefuses: table and types that do not fit are a mistake.
func TestObjectRefuses(t *testing.T) {
	inside := reflect.TypeFor[inner]()
	for want, change := range map[string]func(*Maker) reflect.Type{
		"nothing is said of toy": func(m *Maker) reflect.Type { return inside },
		"nothing is said of toy.n": func(m *Maker) reflect.Type {
			m.Objects["toy"] = Object{}
			return inside
		},
		"toy has no field m": func(m *Maker) reflect.Type {
			m.Objects["toy"] = Object{Rows: []Row{{Name: "n", About: "n"}, {Name: "m", About: "m"}}}
			return inside
		},
		"toy has a field of type complex128": func(m *Maker) reflect.Type {
			m.Objects["toy"] = Object{Rows: []Row{{Name: "n", About: "n"}}}
			return reflect.TypeFor[struct {
				N complex128 `json:"n"`
			}]()
		},
	} {
		m := toys()
		func() {
			defer func() {
				if got := recover(); got != "schema: "+want {
					t.Errorf("it panics with %v, not with %s", got, want)
				}
			}()
			m.Object("toy", change(&m))
		}()
	}
}
