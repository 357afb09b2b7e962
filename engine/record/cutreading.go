package record

import "bytes"

// cutReading reads the fields of a reading that stand as Seal writes them, without
// the braces around them: most events are readings, and with the long way a
// session took twice as long to load. It is not ok for anything written in another
// way, or not in plain ASCII, which is then read the long way.
func cutReading(t *textPool, fields []byte) (r Reading, ok bool) {
	for _, b := range fields {
		if b < ' ' || b > '~' {
			return Reading{}, false
		}
	}
	c := cut{rest: fields}
	of := c.text(`"of":"`)
	r.Level = t.of(c.text(`,"level":"`))
	r.Dir = t.of(c.text(`,"dir":"`))
	r.Set = t.of(c.perhaps(`,"set":"`))
	r.Keyed = t.of(c.text(`,"keyed":"`))
	r.Via = t.of(c.text(`,"via":"`))
	size, dev := c.perhaps(`,"size":"`), c.perhaps(`,"dev":"`)
	r.As = t.of(c.text(`,"as":"`))
	r.Blind = c.has(`,"blind":true`)
	r.Despite = t.of(c.perhaps(`,"despite":"`))
	if c.failed || len(c.rest) > 0 {
		return Reading{}, false
	}
	if r.Of.UnmarshalText(of) != nil || r.Size.UnmarshalText(size) != nil || r.Dev.UnmarshalText(dev) != nil {
		return Reading{}, false
	}
	return r, true
}

// has takes off the frame where it stands.
func (c *cut) has(frame string) bool {
	rest, ok := bytes.CutPrefix(c.rest, []byte(frame))
	c.rest = rest
	return ok
}

// perhaps is text where the frame stands, and nothing elsewhere.
func (c *cut) perhaps(frame string) []byte {
	if !bytes.HasPrefix(c.rest, []byte(frame)) {
		return nil
	}
	return c.text(frame)
}

// readingCodec is the codec of readings.
func readingCodec() codec {
	c := as[Reading](IsReading)
	c.cut = func(t *textPool, fields []byte) (Body, bool) {
		r, ok := cutReading(t, fields)
		if !ok {
			return nil, false
		}
		return r, true
	}
	return c
}
