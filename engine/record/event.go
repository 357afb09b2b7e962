package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"time"
)

// ShopUID names the stream of what outlives a session: instruments, stock,
// ladders, costs and studies. No session bears it.
const ShopUID = "shop"

// MaxEvent is how many bytes the stored form of one event may have.
const MaxEvent = 1 << 20

// Event is one fact that happened.
type Event struct {
	// N counts from 1 without gaps; 0 is an event that is not sealed.
	N int64
	// V is the vocabulary it was written in.
	V int
	// At is when it happened, to the second, with the offset of its place.
	At time.Time
	// By are the initials of who did it; they may be empty.
	By   string
	Body Body
	// Prev is the hash of the event before, as SumOf gives it; empty for the first.
	Prev string
}

// Is returns the kind of the event, empty when it has no body.
func (e Event) Is() Kind {
	if e.Body == nil {
		return ""
	}
	return e.Body.Is()
}

// envelope is what every event has in its stored bytes beside its body.
type envelope struct {
	N    int64  `json:"n"`
	V    int    `json:"v"`
	At   string `json:"at"`
	By   string `json:"by"`
	Is   Kind   `json:"is"`
	Prev string `json:"prev"`
}

// encode returns the stored bytes: compact JSON, the envelope first, then the
// fields of the body, prev last.
func (e Event) encode() ([]byte, error) {
	c, ok := codecOf(e.Body)
	if !ok {
		return nil, noKind(e.Is())
	}
	by, err := compact(e.By)
	if err != nil {
		return nil, err
	}
	fields, err := compact(c.fields(e.Body))
	if err != nil {
		return nil, fmt.Errorf("%s cannot be written: %w", e.Is(), err)
	}
	b := make([]byte, 0, len(fields)+160)
	b = strconv.AppendInt(append(b, `{"n":`...), e.N, 10)
	b = strconv.AppendInt(append(b, `,"v":`...), int64(e.V), 10)
	b = e.At.AppendFormat(append(b, `,"at":"`...), time.RFC3339)
	b = append(append(b, `","by":`...), by...)
	b = append(append(append(b, `,"is":"`...), e.Is()...), '"')
	if inner := fields[1 : len(fields)-1]; len(inner) > 0 {
		b = append(append(b, ','), inner...)
	}
	b = append(append(append(b, `,"prev":"`...), e.Prev...), `"}`...)
	return b, nil
}

// compact is json.Marshal without HTML escaping.
func compact(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// Decode reads the stored bytes of one event. It trusts them, as bytes whose
// checksum is good: it does not look for unknown or doubled fields and does not
// validate. Foreign bytes go through DecodeStrict.
func Decode(stored []byte) (Event, error) {
	var d decoder
	return d.decode(stored)
}

// DecodeEnvelope reads of the stored bytes of one event, of whatever vocabulary, all
// but the body, and of which kind that is.
func DecodeEnvelope(stored []byte) (Event, Kind, error) {
	env, err := readEnvelope(stored)
	if err != nil {
		return Event{}, "", err
	}
	at, err := parseTime([]byte(env.At))
	if err != nil {
		return Event{}, "", err
	}
	return Event{N: env.N, V: env.V, At: at, By: env.By, Prev: env.Prev}, env.Is, nil
}

// DecodeStrict reads the stored bytes of one event from outside. It refuses,
// naming the path and the value, unknown, doubled and wrong-case fields, null,
// nesting deeper than 32, texts longer than 4 KiB, what is not UTF-8, trailing
// data, line breaks between fields, more than MaxEvent bytes, a newer
// vocabulary, and whatever Event.Validate refuses.
func DecodeStrict(stored []byte) (Event, error) {
	if len(stored) > MaxEvent {
		return Event{}, &FieldError{Reason: fmt.Sprintf("an event has at most %d bytes, not %d", MaxEvent, len(stored))}
	}
	if bytes.ContainsAny(stored, "\n\r") {
		return Event{}, &FieldError{Reason: "a stored event is one line"}
	}
	if err := strict(stored, envelopeShape()); err != nil {
		return Event{}, err
	}
	env, err := readEnvelope(stored)
	if err != nil {
		return Event{}, err
	}
	c, err := codecFor(env.V, env.Is)
	if err != nil {
		return Event{}, err
	}
	if err := strict(stored, c.shape()); err != nil {
		return Event{}, err
	}
	e, err := Decode(stored)
	if err != nil {
		return Event{}, err
	}
	return e, e.validateSealed()
}

// readEnvelope reads the envelope of stored bytes in any order.
func readEnvelope(stored []byte) (envelope, error) {
	var env envelope
	if err := json.Unmarshal(stored, &env); err != nil {
		return env, fmt.Errorf("an event cannot be read: %w", err)
	}
	return env, nil
}

// codecFor returns the codec of an event, whose vocabulary is known here.
func codecFor(v int, is Kind) (codec, error) {
	if err := knownVocabulary(v); err != nil {
		return codec{}, err
	}
	c, ok := codecs[is]
	if !ok {
		return codec{}, noKind(is)
	}
	return c, nil
}

// knownVocabulary refuses what a newer program wrote.
func knownVocabulary(v int) error {
	if v > Vocabulary {
		return &NewerError{What: "event", Found: v, Known: Vocabulary}
	}
	return nil
}

// parseTime reads RFC 3339 with an offset and whole seconds. What it returns
// does not depend on the time zone of the machine.
func parseTime(text []byte) (time.Time, error) {
	var t time.Time
	if err := t.UnmarshalText(text); err != nil || t.Nanosecond() != 0 {
		return time.Time{}, &FieldError{Path: "at", Value: string(text), Reason: "not a time such as 2026-11-25T08:44:00+01:00"}
	}
	return atOffset(t), nil
}

// atOffset returns the same instant to the second with nothing of its zone
// but the offset.
func atOffset(t time.Time) time.Time {
	return t.Truncate(time.Second).In(time.FixedZone("", offset(t)))
}
