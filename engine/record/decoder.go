package record

import (
	"fmt"
	"time"
)

// decoder decodes stored bytes. The zero value is for one event alone; one that
// has texts is for the events of a stream, one after the other.
type decoder struct {
	texts *textPool
	// prev is the hash that the next event is to hold.
	prev string
	// zone is where the last event happened.
	zone *time.Location
	// object holds the body that was read last as an object of its own.
	object []byte
}

// decode is Decode.
func (d *decoder) decode(stored []byte) (Event, error) {
	f, ok := d.cutEnvelope(stored)
	if !ok {
		return decodeLong(stored)
	}
	c, err := codecFor(f.V, f.is)
	if err != nil {
		return Event{}, err
	}
	if f.At, err = d.time(f.at); err != nil {
		return Event{}, err
	}
	if c.cut != nil {
		if f.Body, ok = c.cut(d.texts, f.fields); ok {
			return f.Event, nil
		}
	}
	d.object = append(append(append(d.object[:0], '{'), f.fields...), '}')
	return withBody(f.Event, c, d.object)
}

// decodeLong is decode for stored bytes in whatever order.
func decodeLong(stored []byte) (Event, error) {
	env, err := readEnvelope(stored)
	if err != nil {
		return Event{}, err
	}
	c, err := codecFor(env.V, env.Is)
	if err != nil {
		return Event{}, err
	}
	at, err := parseTime([]byte(env.At))
	if err != nil {
		return Event{}, err
	}
	return withBody(Event{N: env.N, V: env.V, At: at, By: env.By, Prev: env.Prev}, c, stored)
}

// withBody reads the body of an event from an object.
func withBody(e Event, c codec, object []byte) (Event, error) {
	var err error
	if e.Body, err = c.decode(object); err != nil {
		return Event{}, fmt.Errorf("event %d (%s) cannot be read: %w", e.N, c.kind, err)
	}
	return e, nil
}

// time is parseTime. Events at one offset share their zone.
func (d *decoder) time(text []byte) (time.Time, error) {
	t, err := parseTime(text)
	if err != nil {
		return t, err
	}
	if d.zone == nil || offset(t) != offset(t.In(d.zone)) {
		d.zone = t.Location()
	}
	return t.In(d.zone), nil
}

// offset returns how many seconds a time is ahead of UTC.
func offset(t time.Time) int {
	_, seconds := t.Zone()
	return seconds
}

// hash returns the text of a hash, which mostly is that of the event before.
func (d *decoder) hash(text []byte) string {
	if string(text) == d.prev {
		return d.prev
	}
	return string(text)
}
