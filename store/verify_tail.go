package store

import (
	"bytes"
	"slices"
)

// tailCheck is what a check knows of the tail.
type tailCheck struct {
	round uint64
	rooms [2][]byte
	page  uint64
	rows  overlay
}

func (c *check) tailEntry(e element) {
	at := slices.IndexFunc(roomKeys[:], func(key []byte) bool { return bytes.Equal(key, e.key) })
	if at < 0 || len(e.value) < mostInTail {
		c.bad(e.page, "a page of the tail holds something else")
		return
	}
	c.tail.rooms[at], c.tail.page = e.value, e.page
}

// tailEnd reads the tail once both its rooms are known.
func (c *check) tailEnd() {
	if len(c.tail.rooms[0]) < mostInTail || len(c.tail.rooms[0]) != len(c.tail.rooms[1]) {
		c.bad(c.tail.page, "a room of the tail is missing")
		return
	}
	if c.tail.round == 0 {
		c.bad(c.tail.page, "the number of its tail's round is missing")
		return
	}
	t, torn, err := readTail(c.tail.rooms, c.tail.round, c.doubtful)
	c.tail.rows = t.rows
	switch {
	case err != nil:
		c.report.add(Fault{Page: int64(c.tail.page), Text: err.Error()})
	case torn:
		c.report.add(Fault{Page: int64(c.tail.page), Text: tornText})
	}
}

// woven returns each with the rows of the tail among the entries of the bucket, and
// what calls it for those behind the last one.
func (c *check) woven(bucket []byte, each func(element)) (woven func(element), rest func()) {
	w := weave{rows: c.tail.rows.in(bucket, span{})}
	yield := func(key, value []byte) bool {
		each(element{page: c.tail.page, key: key, value: value})
		return true
	}
	woven = func(e element) {
		if taken, _ := w.before(e.key, yield); !taken {
			each(e)
		}
	}
	return woven, func() { w.rest(yield) }
}
