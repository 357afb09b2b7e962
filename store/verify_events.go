package store

import (
	"errors"
	"fmt"

	"borewright/engine/record"
)

// streamCheck follows the chain of the stream that is being read.
type streamCheck struct {
	id   uint64
	open bool
	// next is the number of the event that comes next.
	next int64
	// head is that of the last event, when known says that it is intact.
	head  record.Head
	known bool
	// bench is what the intact events call the session's places.
	bench bench
}

// eventEntry checks the next event; they come in the order of streams and
// numbers.
func (c *check) eventEntry(e element) {
	id, n, ok := parseEventKey(e.key)
	if !ok || e.flags != 0 || n < 1 {
		c.bad(e.page, "a page of the events holds something else")
		return
	}
	if !c.stream.open || id != c.stream.id {
		c.lastEvent()
		c.stream = streamCheck{id: id, open: true, next: 1, known: true}
		c.seen[id] = true
		if id != shopID {
			c.report.Sessions++
		}
	}
	if n > c.stream.next {
		c.missing(c.stream.next, n-1)
		c.stream.known = false
	}
	line, err := unframe(e.key, e.value)
	if err != nil {
		left := remainsOf(e.value)
		c.remains[eventID{id, n}] = left
		c.event(id, n, e.page, "cannot be read: "+err.Error()+left.said(c.stream.bench))
		c.stream.next, c.stream.known = n+1, false
		return
	}
	c.intact(id, n, e.page, line)
}

// intact checks an event whose checksum is good against the one before it.
func (c *check) intact(id uint64, n int64, page uint64, line []byte) {
	s := &c.stream
	before, known := s.head, s.known
	s.next, s.known, s.head = n+1, true, record.Head{N: n, Hash: record.SumOf(line)}
	e, err := record.Decode(line)
	if c.found != nil && (err == nil || errors.Is(err, record.ErrNewer)) {
		c.found(id, n, line)
	}
	switch {
	case errors.Is(err, record.ErrNewer):
		c.event(id, n, page, "was written by a newer version of this program and cannot be checked")
		return
	case err != nil:
		c.event(id, n, page, fmt.Sprintf("makes no sense: %v", err))
		return
	}
	c.report.Events++
	s.bench.learn(e.Body)
	d, details := e.Body.(record.Details)
	switch {
	case e.N != n:
		c.event(id, n, page, fmt.Sprintf("says that it is event %d", e.N))
	case known && e.Prev != before.Hash:
		c.event(id, n, page, fmt.Sprintf("breaks the chain: the hash it holds is not that of event %d, so one of the two was altered", n-1))
	case n == 1 && id != shopID && !details:
		c.event(id, n, page, "does not say what is on the bench, as the first event of a session does")
	case details && d.UID != c.names[id] && c.names[id] != "":
		c.event(id, n, page, fmt.Sprintf("belongs to session %s", d.UID))
	}
}

// lastEvent ends the stream that is being read.
func (c *check) lastEvent() {
	s := &c.stream
	if !s.open {
		return
	}
	s.open = false
	h, ok := c.headings[s.id]
	switch {
	case !ok || h.Head.N == s.next-1 && (h.Head.Hash == s.head.Hash || !s.known):
	case h.Head.N >= s.next:
		c.missing(s.next, h.Head.N)
	case s.known:
		c.event(s.id, 0, 0, fmt.Sprintf("the list of sessions says that it ends with another event %d", h.Head.N))
	}
}

// missing notes events that are not there.
func (c *check) missing(first, last int64) {
	f := Fault{Session: c.name(c.stream.id), Title: c.headings[c.stream.id].Title, Event: first, Text: "is missing"}
	if last > first {
		f.Last, f.Text = last, "are missing"
	}
	c.report.add(f)
}

// event notes what is wrong with an event, or with a session when n is 0.
func (c *check) event(id uint64, n int64, page uint64, text string) {
	c.report.add(Fault{Page: int64(page), Session: c.name(id), Title: c.headings[id].Title, Event: n, Text: text})
}
