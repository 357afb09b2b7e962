package schema

import (
	"encoding/json"
	"testing"
)

func TestNodeText(t *testing.T) {
	for want, n := range map[string]*Node{
		`{}`:                    {},
		`false`:                 Never(),
		`{"$ref":"#/$defs/a"}`:  In("a"),
		`{"type":["null","a"]}`: {Type: Types{"null", "a"}},
		`{"const":0}`:           {Const: 0},
		`{"enum":["a<b","c"]}`:  Words("a<b", "c"),
		`{"const":"a"}`:         Is("a"),
		`{"enum":[0,2]}`:        Numbers(0, 2),
		`{"properties":{"a":{"minimum":2}},"required":["a"]}`: Needed("a", From(2)),
		`{"minLength":1}`:           Filled(),
		`{"maxLength":0}`:           Empty(),
		`{"minimum":0}`:             From(0),
		`{"minimum":0,"maximum":3}`: Between(0, 3),
		`{"properties":{"b":false,"a":{}},"required":["b"]}`:                    Needs("b").Field("b", Never()).Field("a", &Node{}),
		`{"if":{"required":["a"]},"then":{"properties":{"a":{"maxLength":0}}}}`: When(Needs("a"), Field("a", Empty())),
	} {
		got, err := marshal(n)
		if err != nil || string(got) != want {
			t.Errorf("%+v is written %s, %v, not %s", n, got, err, want)
		}
		if !json.Valid(got) {
			t.Errorf("%s is no JSON", got)
		}
	}
}

// TestWithLeavesItsOwn: joining and adding change none of what they are made of.
func TestWithLeavesItsOwn(t *testing.T) {
	base := &Node{Type: Types{"array"}, Items: &Node{Type: Types{"string"}}}
	joined := base.With(Each(Text("a+", 0), 1, 0))
	if base.MinItems != nil || base.Items.Pattern != "" {
		t.Errorf("the first was changed: %+v", base)
	}
	if joined.Items.Pattern != "^(?:a+)$" || joined.Items.Type[0] != "string" || *joined.MinItems != 1 {
		t.Errorf("they join to %+v", joined)
	}
	if same := base.With(nil); same == base || same.Items != base.Items {
		t.Errorf("joined with nothing it is %+v", same)
	}
	one := Needs("a").Field("a", Filled())
	two, three := one.Field("b", Filled()), one.Field("c", Filled())
	if len(one.Properties) != 1 || two.Properties[1].Name != "b" || three.Properties[1].Name != "c" {
		t.Errorf("fields are %v, %v, %v", one.Properties, two.Properties, three.Properties)
	}
	if p := two.Properties; p.Get("b") == nil || p.Get("c") != nil {
		t.Errorf("%v has no b, or has a c", p)
	}
}
