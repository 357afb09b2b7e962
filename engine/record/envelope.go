package record

import "bytes"

// hashLength is the length of what SumOf returns.
const hashLength = 43

// front is an event whose body is still to be read, and its time.
type front struct {
	Event
	is Kind
	at []byte
	// fields are those of the body, without the braces around them.
	fields []byte
}

// cutEnvelope takes the envelope off stored bytes that stand as Seal writes
// them. It spares a decoder most of a pass over the bytes. It is not ok for
// anything written in another way, which is then read the long way.
func (d *decoder) cutEnvelope(stored []byte) (f front, ok bool) {
	c := cut{rest: stored}
	f.N = c.whole(`{"n":`)
	v := c.whole(`,"v":`)
	f.at = c.text(`,"at":"`)
	by := c.text(`,"by":"`)
	f.is = kindOf(c.text(`,"is":"`))
	prev, found := prevOf(c.rest)
	f.V = int(v)
	if c.failed || !found || f.is == "" || int64(f.V) != v {
		return front{}, false
	}
	f.fields = c.rest[:len(c.rest)-len(`,"prev":""}`)-len(prev)]
	if len(f.fields) > 0 && f.fields[0] != ',' {
		return front{}, false
	}
	f.fields = bytes.TrimPrefix(f.fields, []byte(","))
	f.By, f.Prev = d.texts.of(by), d.hash(prev)
	return f, true
}

// kindOf returns the kind without making a new text for one that is known.
func kindOf(text []byte) Kind { return codecs[Kind(text)].kind }

// prevOf returns the hash at the end of stored bytes. A text cannot hold its
// frame, because a quotation mark in a text is escaped.
func prevOf(rest []byte) (prev []byte, ok bool) {
	rest, ok = bytes.CutSuffix(rest, []byte(`"}`))
	for _, size := range [...]int{hashLength, 0} {
		at := len(rest) - size
		if ok && at >= 0 && bytes.HasSuffix(rest[:at], []byte(`,"prev":"`)) {
			return rest[at:], true
		}
	}
	return nil, false
}

// cut takes known pieces off the front of bytes until one is missing.
type cut struct {
	rest   []byte
	failed bool
}

// skip takes off exactly the frame.
func (c *cut) skip(frame string) {
	if len(c.rest) < len(frame) || string(c.rest[:len(frame)]) != frame {
		c.failed = true
		return
	}
	c.rest = c.rest[len(frame):]
}

// mostDigits is how many digits any whole number that fits may have.
const mostDigits = 18

// whole takes off the frame and the whole number after it.
func (c *cut) whole(frame string) int64 {
	c.skip(frame)
	end := 0
	for end < len(c.rest) && '0' <= c.rest[end] && c.rest[end] <= '9' {
		end++
	}
	if end == 0 || end > mostDigits || end > 1 && c.rest[0] == '0' {
		c.failed = true
		return 0
	}
	var n int64
	for _, digit := range c.rest[:end] {
		n = 10*n + int64(digit-'0')
	}
	c.rest = c.rest[end:]
	return n
}

// text takes off the frame and the text after it, which has no escapes, with
// its closing quotation mark.
func (c *cut) text(frame string) []byte {
	c.skip(frame)
	end := bytes.IndexByte(c.rest, '"')
	if end < 0 || bytes.IndexByte(c.rest[:end], '\\') >= 0 {
		c.failed = true
		return nil
	}
	text := c.rest[:end]
	c.rest = c.rest[end+1:]
	return text
}
