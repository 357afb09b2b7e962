package record

import (
	"encoding/json"
	"reflect"
	"sync"

	"borewright/engine/length"
	"borewright/engine/limit"
)

// codec is how the body of one kind stands in stored bytes.
type codec struct {
	kind Kind
	// body is the type of the body, which is used by value.
	body reflect.Type
	// stored is the type whose fields stand in stored bytes.
	stored reflect.Type
	// decode reads a body from an object that may hold other fields too.
	decode func(object []byte) (Body, error)
	// cut reads a body from its fields where they stand as Seal writes them; nil for
	// a kind that is always read the long way.
	cut func(t *textPool, fields []byte) (Body, bool)
	// fields returns what is marshalled for a body.
	fields func(Body) any
	// shape is what strict checks whole stored bytes against.
	shape func() *shape
}

// as makes the codec of a body that is marshalled as it is.
func as[B Body](kind Kind) codec {
	return codec{
		kind:   kind,
		body:   reflect.TypeFor[B](),
		stored: reflect.TypeFor[B](),
		decode: func(object []byte) (Body, error) {
			var b B
			err := json.Unmarshal(object, &b)
			return b, err
		},
		fields: func(b Body) any { return b },
		shape:  storedShape(reflect.TypeFor[B]()),
	}
}

// storedShape returns the shape of the envelope with the fields of a body.
func storedShape(body reflect.Type) func() *shape {
	return sync.OnceValue(func() *shape { return shapeOf(reflect.TypeFor[envelope](), body) })
}

// envelopeShape is the shape of an event of any kind.
var envelopeShape = sync.OnceValue(func() *shape {
	s := shapeOf(reflect.TypeFor[envelope]())
	s.rest = anything()
	return s
})

// limitFields is limit.Limits with the names of stored bytes.
type limitFields struct {
	On      limit.Characteristic `json:"on"`
	Of      string               `json:"of"`
	By      limit.Definition     `json:"definition,omitempty"`
	New     limit.Range          `json:"new,omitzero"`
	Wear    limit.Range          `json:"wear,omitzero"`
	Target  length.Written       `json:"target,omitzero"`
	Per     length.Written       `json:"per,omitzero"`
	Travel  length.Written       `json:"travel,omitzero"`
	JudgeBy string               `json:"judge,omitempty"`
	Source  string               `json:"source,omitempty"`
}

// limitCodec gives By another name than the envelope's.
var limitCodec = codec{
	kind:   IsLimit,
	body:   reflect.TypeFor[Limit](),
	stored: reflect.TypeFor[limitFields](),
	decode: func(object []byte) (Body, error) {
		var f limitFields
		err := json.Unmarshal(object, &f)
		return Limit{limit.Limits(f)}, err
	},
	fields: func(b Body) any {
		l, _ := b.(Limit)
		return limitFields(l.Limits)
	},
	shape: storedShape(reflect.TypeFor[limitFields]()),
}

// codecOf returns the codec of a body; ok is false for a body of no kind, and
// for a pointer to one.
func codecOf(b Body) (c codec, ok bool) {
	if b == nil {
		return codec{}, false
	}
	c = codecs[b.Is()]
	return c, c.body == reflect.TypeOf(b)
}

// codecs holds the codec of every kind.
var codecs = map[Kind]codec{
	IsDetails:    as[Details](IsDetails),
	IsLayout:     as[Layout](IsLayout),
	IsPlan:       as[Plan](IsPlan),
	IsLimit:      limitCodec,
	IsRules:      as[Rules](IsRules),
	IsGiven:      as[Given](IsGiven),
	IsTable:      as[Table](IsTable),
	IsInstrument: as[Instrument](IsInstrument),
	IsSetting:    as[Setting](IsSetting),
	IsSet:        as[Set](IsSet),
	IsZero:       as[Zero](IsZero),
	IsReading:    readingCodec(),
	IsLeftOut:    as[LeftOut](IsLeftOut),
	IsMoved:      as[Moved](IsMoved),
	IsWithdrawn:  as[Withdrawn](IsWithdrawn),
	IsWork:       as[Work](IsWork),
	IsFitted:     as[Fitted](IsFitted),
	IsIntended:   as[Intended](IsIntended),
	IsSteps:      as[Steps](IsSteps),
	IsDone:       as[Done](IsDone),
	IsStudy:      as[Study](IsStudy),
	IsNote:       as[Note](IsNote),
	IsState:      as[State](IsState),
}
