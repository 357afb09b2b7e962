package record

import "bytes"

// cutReading reads the fields of a reading that stand as Seal writes them: most
// events are readings, and with the long way a session took twice as long to
// load. It is not ok for anything written in another way, or not in
// plain ASCII, which is then read the long way.
func cutReading(object []byte) (r Reading, ok bool) {
	for _, b := range object {
		if b < ' ' || b > '~' {
			return Reading{}, false
		}
	}
	c := cut{rest: object}
	of := c.text(`{"of":"`)
	r.Level = string(c.text(`,"level":"`))
	r.Dir = string(c.text(`,"dir":"`))
	r.Set = string(c.perhaps(`,"set":"`))
	r.Keyed = string(c.text(`,"keyed":"`))
	r.Via = string(c.text(`,"via":"`))
	size, dev := c.perhaps(`,"size":"`), c.perhaps(`,"dev":"`)
	r.As = string(c.text(`,"as":"`))
	r.Blind = c.has(`,"blind":true`)
	r.Despite = string(c.perhaps(`,"despite":"`))
	c.skip(`}`)
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
	long := c.decode
	c.decode = func(object []byte) (Body, error) {
		if r, ok := cutReading(object); ok {
			return r, nil
		}
		return long(object)
	}
	return c
}
