package record

import (
	"encoding/json"
	"reflect"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/schema"
)

// SessionSchema is the identity that the schema of a session file states.
const SessionSchema = "urn:borewright:session:1"

// kinds are the kinds of events in the order of their constants.
var kinds = []Kind{
	IsDetails, IsLayout, IsPlan, IsLimit, IsRules, IsGiven, IsTable, IsInstrument, IsSetting, IsSet, IsZero, IsReading,
	IsLeftOut, IsMoved, IsWithdrawn, IsWork, IsFitted, IsIntended, IsSteps, IsDone, IsStudy, IsNote, IsState,
}

// Schema returns the JSON Schema, draft 2020-12, of a session file in either
// form. It is made of the types that ReadFile reads into, and takes every file
// that ReadFile and Plain.Events take. What one schema cannot say is refused by
// them alone: doubled keys, how a number is written, the range of a figure, what
// one event says of another, the chain and the digest.
func Schema() []byte {
	m := schema.Maker{Own: ownSchemas, Objects: map[string]schema.Object{}}
	for _, objects := range []map[string]schema.Object{
		setupObjects(), gaugeObjects(), readingObjects(), prepObjects(), plainObjects(), fileObjects(),
	} {
		for name, o := range objects {
			m.Objects[name] = o
		}
	}
	defineTexts(&m)
	defineEvents(&m)
	top := schema.Node{
		ID:    SessionSchema,
		Title: "borewright session file",
		Description: "A session of borewright in one of two forms: the full form holds its events as they are kept, with their digest; " +
			"the plain form is written by hand. Every length is diametral unless its field says otherwise.",
		Type: schema.Types{"object"},
		If:   &schema.Node{AnyOf: []*schema.Node{schema.Needs("events"), schema.Needs("digest")}},
		Then: m.Object("full", reflect.TypeFor[fullForm]()),
		Else: m.Object("plain", reflect.TypeFor[Plain]()),
	}
	top.Defs = m.Defs()
	return schema.Document(top)
}

// defineEvents adds the definition of every kind of event, and that of any.
func defineEvents(m *schema.Maker) {
	event := &schema.Node{
		Description: "One event: a fact that happened, as it is kept. Events are numbered from 1 without gaps; the first one is of the kind details.",
		Type:        schema.Types{"object"},
		Required:    []string{"is"},
		Properties:  schema.Properties{{Name: "is", Node: schema.Words(kinds...)}},
		AllOf: []*schema.Node{{
			If:   schema.Field("n", &schema.Node{Const: 1}),
			Then: schema.Field("prev", schema.Empty()),
			Else: schema.Needed("prev", schema.Filled()),
		}},
	}
	for _, kind := range kinds {
		def := defOf(kind)
		o := m.Objects[def]
		o.Rows = append(envelopeRows(kind), o.Rows...)
		m.Objects[def] = o
		node := m.Object(def, reflect.TypeFor[envelope](), codecs[kind].stored)
		event.AllOf = append(event.AllOf, schema.When(schema.Field("is", schema.Is(kind)), node))
	}
	m.Define("event", event)
}

// defOf returns the name of the definition of a kind of event.
func defOf(kind Kind) string {
	if kind == IsLeftOut {
		return "left-out"
	}
	return string(kind)
}

// ownSchemas are the schemas of types that say themselves how they are read.
var ownSchemas = map[reflect.Type]*schema.Node{
	reflect.TypeFor[length.Written]():  schema.In("length"),
	reflect.TypeFor[length.Unit]():     schema.In("unit"),
	reflect.TypeFor[plan.Feature]():    schema.In("feature"),
	reflect.TypeFor[json.RawMessage](): schema.In("event"),
	reflect.TypeFor[Number]():          schema.In("number"),
	reflect.TypeFor[Column]():          schema.In("column"),
}

// fileObjects are the rows of the full form and of what every event has.
func fileObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"full": {
			About: "The full form of a session file: its events and the digest that proves them.",
			Rows: []schema.Row{
				must("borewright", "the version of the file's form", &schema.Node{Const: FileVersion}),
				must("digest", "the digest of the events", nil, "digest"),
				must("events", "the events of the session, each on one line", schema.Each(nil, 1, 0)),
			},
		},
		"digest": {
			About: "What proves that no event was altered: the number of the last one, and its hash.",
			Rows: []schema.Row{
				must("n", "how many events there are", schema.From(1)),
				must("sha256", "the SHA-256 of the last event's stored bytes, in base64url without padding", hashText("")),
			},
		},
	}
}

// envelopeRows are the rows that an event of the kind has whatever it says.
func envelopeRows(kind Kind) []schema.Row {
	return []schema.Row{
		must("n", "the number of the event, from 1 without gaps", schema.From(1)),
		must("v", "the vocabulary that it was written in", schema.Between(1, Vocabulary)),
		must("at", "when it happened, to the second, with the offset from UTC", schema.Text(momentPattern, 0)),
		may("by", "the initials of who did it", line(maxInitials)),
		must("is", "the kind of the event", schema.Is(kind)),
		may("prev", "the SHA-256 of the stored bytes of the event before, in base64url without padding; empty in the first", hashText("|")),
	}
}
