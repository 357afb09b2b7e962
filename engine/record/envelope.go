package record

import (
	"bytes"
	"strconv"
)

// hashLength is the length of what SumOf returns.
const hashLength = 43

// cutEnvelope takes the envelope off stored bytes that stand as Seal writes
// them and returns the fields of the body as an object of their own. It spares
// Decode most of a pass over the bytes. It is not ok for anything written in
// another way, which is then read the long way.
func cutEnvelope(stored []byte) (env envelope, body []byte, ok bool) {
	c := cut{rest: stored}
	env.N = c.whole(`{"n":`)
	env.V = int(c.whole(`,"v":`))
	env.At = string(c.text(`,"at":"`))
	env.By = string(c.text(`,"by":"`))
	env.Is = kindOf(c.text(`,"is":"`))
	prev, found := prevOf(c.rest)
	if c.failed || !found || env.Is == "" {
		return envelope{}, nil, false
	}
	env.Prev = string(prev)
	inner := c.rest[:len(c.rest)-len(`,"prev":""}`)-len(prev)]
	if len(inner) == 0 {
		return env, []byte("{}"), true
	}
	if inner[0] != ',' {
		return envelope{}, nil, false
	}
	body = append(make([]byte, 0, len(inner)+1), '{')
	body = append(append(body, inner[1:]...), '}')
	return env, body, true
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

// whole takes off the frame and the whole number after it.
func (c *cut) whole(frame string) int64 {
	c.skip(frame)
	end := 0
	for end < len(c.rest) && '0' <= c.rest[end] && c.rest[end] <= '9' {
		end++
	}
	n, err := strconv.ParseInt(string(c.rest[:end]), 10, 64)
	if err != nil || end > 1 && c.rest[0] == '0' {
		c.failed = true
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
