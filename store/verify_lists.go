package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"

	"borewright/engine/record"
)

// lists is what the buckets uids, headings and recent say of the streams.
type lists struct {
	names    map[uint64]string
	headings map[uint64]record.Heading
	touches  map[uint64]uint64
	seen     map[uint64]bool // the streams that have events
	// old says that the lists have a form that is made anew at the next opening.
	old bool
}

func newLists() lists {
	return lists{
		names: map[uint64]string{}, headings: map[uint64]record.Heading{},
		touches: map[uint64]uint64{}, seen: map[uint64]bool{},
	}
}

// name returns what a stream is called where nothing else is known of it.
func (l *lists) name(id uint64) string {
	switch {
	case id == shopID:
		return record.ShopUID
	case l.names[id] != "":
		return l.names[id]
	case l.headings[id].UID != "":
		return l.headings[id].UID
	default:
		return "stream-" + strconv.FormatUint(id, 10)
	}
}

func (c *check) metaEntry(e element) {
	text, err := unframe(e.key, e.value)
	switch {
	case err != nil:
		c.bad(e.page, "its entry %q is damaged: %v", e.key, err)
	case bytes.Equal(e.key, formatKey):
		c.format, err = strconv.Atoi(string(text))
		if c.ours = true; err != nil || c.format < 1 {
			c.bad(e.page, "its format number is %q", text)
		}
	case bytes.Equal(e.key, roundKey) && len(text) == 8:
		c.tail.round = bytesNumber(text)
	case bytes.Equal(e.key, indexKey):
		c.old = !bytes.Equal(e.value, indexForm())
	}
}

func (c *check) uidEntry(e element) {
	id, err := unframeNumber(e.key, e.value)
	switch {
	case err != nil:
		c.bad(e.page, "the entry of session %q in the list of sessions is damaged: %v", e.key, err)
	case c.names[id] != "" || id == shopID:
		c.bad(e.page, "the list of sessions has two that share their events: %s and %s", c.names[id], e.key)
	default:
		c.names[id] = string(e.key)
	}
}

func (c *check) headingEntry(e element) {
	text, err := unframe(e.key, e.value)
	if err == nil && len(e.key) != 8 {
		err = errShort
	}
	var h record.Heading
	if err == nil && !c.old {
		err = json.Unmarshal(text, &h)
	}
	if err != nil {
		c.bad(e.page, "an entry of the list of sessions is damaged: %v", err)
		return
	}
	if !c.old {
		c.headings[bytesNumber(e.key)] = h
	}
}

func (c *check) recentEntry(e element) {
	id, err := unframeNumber(e.key, e.value)
	if err == nil && len(e.key) != 8 {
		err = errShort
	}
	if err != nil {
		c.bad(e.page, "an entry of the order of sessions is damaged: %v", err)
		return
	}
	c.touches[id] = bytesNumber(e.key)
}

// agree checks the lists against each other and against the streams.
func (l *lists) agree(c *check) {
	if c.astray || l.old {
		return // what is missing here may lie on a page that cannot be read
	}
	for _, id := range sortedKeys(l.names) {
		if !l.seen[id] {
			c.event(id, 0, 0, "all its events are missing")
		}
		if _, ok := l.touches[id]; !ok {
			c.event(id, 0, 0, "it is missing in the order of sessions")
		}
		if _, ok := l.headings[id]; !ok {
			c.event(id, 0, 0, "it is missing in the list of sessions")
		}
	}
	for _, id := range sortedKeys(l.seen) {
		if l.names[id] == "" && id != shopID {
			c.event(id, 0, 0, "its events belong to no session that is known")
		}
	}
	for _, id := range sortedKeys(l.touches) {
		if l.names[id] == "" {
			c.report.add(Fault{Text: fmt.Sprintf("the order of sessions has one, number %d, that is not known", id)})
		}
	}
}
