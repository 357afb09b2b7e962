package store

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math/bits"
)

// check verifies one database file: it walks the pages itself, without bbolt,
// and hands every key with its value to the check of its bucket.
type check struct {
	report Report
	pace   Pace
	pages
	lists
	stream streamCheck
	// found hears of every intact event, and where it lies; nil when nobody asks.
	found func(id uint64, n int64, line []byte)
	// remains is what can be read of the events that are damaged.
	remains map[eventID]remains
	// ours says that the format number is there, and format is that number.
	ours   bool
	format int
	// foreign says that the file is sound and holds nothing of ours.
	foreign bool
	// doubtful says that one of the two beginnings is damaged, tail is what is kept
	// and not in the buckets.
	doubtful bool
	tail     tailCheck
	// astray says that part of the pages could not be read.
	astray bool
}

func newCheck(path string) *check {
	return &check{report: Report{Path: path, Sound: true, Faults: []Fault{}}, lists: newLists(), remains: map[eventID]remains{}}
}

// bad notes what is wrong with a page.
func (c *check) bad(page uint64, format string, args ...any) {
	c.astray = true
	c.report.add(Fault{Page: int64(page), Text: fmt.Sprintf(format, args...)})
}

// walk reads everything from one meta page on.
func (c *check) walk(r io.ReaderAt, m meta) {
	c.pages = pages{r: r, meta: m, used: make([]uint64, m.pages/64+1), stop: c.waits}
	if err := c.freePages(); err != nil {
		c.bad(m.freelist, "the list of free pages is damaged: %v", err)
	}
	root, ok := c.whole(m.root, "the list of its parts")
	if !ok {
		return
	}
	if root.flags != leafPage {
		c.bad(m.root, "the list of its parts is damaged: it has no entries")
		return
	}
	c.parts(root)
	c.report.Pages = 2 // the beginnings, which nothing claims
	for _, word := range c.used {
		c.report.Pages += int64(bits.OnesCount64(word))
	}
	if missing := int64(m.pages) - c.report.Pages; missing > 0 && !c.astray {
		c.report.add(Fault{Text: fmt.Sprintf("%d of its %d pages belong to nothing", missing, m.pages)})
	}
}

// waits keeps the pace, and never gives the walk up.
func (c *check) waits() bool {
	if c.pace != nil {
		c.pace()
	}
	return false
}

// parts checks the buckets: what the events are checked against comes first.
func (c *check) parts(root page) {
	roots := map[string]element{}
	for e := range c.elements(root, "list of its parts") {
		roots[string(e.key)] = e
	}
	if roots[string(metaBucket)].key == nil && roots[string(eventsBucket)].key == nil && !c.astray {
		c.foreign = true
		return
	}
	for _, part := range []struct {
		name []byte
		each func(e element)
		end  func()
	}{
		{metaBucket, c.metaEntry, nil},
		{tailBucket, c.tailEntry, c.tailEnd},
		{uidsBucket, c.uidEntry, nil},
		{headingsBucket, c.headingEntry, nil},
		{recentBucket, c.recentEntry, nil},
		{eventsBucket, c.eventEntry, c.lastEvent},
	} {
		e, ok := roots[string(part.name)]
		switch {
		case !ok && c.format < formatNumber && bytes.Equal(part.name, tailBucket):
			continue
		case !ok:
			c.bad(root.id, "its %s are missing", part.name)
			continue
		}
		each, rest := c.woven(part.name, part.each)
		c.bucket(string(part.name), e, each)
		rest()
		if part.end != nil {
			part.end()
		}
	}
	c.agree(c)
}

// bucket walks one bucket, which may lie inside the element that names it.
func (c *check) bucket(name string, e element, each func(element)) {
	if e.flags&bucketFlag == 0 || len(e.value) < 16 {
		c.bad(e.page, "the entry of its %s is damaged", name)
		return
	}
	if id := binary.LittleEndian.Uint64(e.value); id != 0 {
		c.tree(branchOf{name: name, id: id}, each)
		return
	}
	inside := e.value[16:]
	if len(inside) < pageHeader || binary.LittleEndian.Uint16(inside[8:]) != leafPage {
		c.bad(e.page, "its %s are damaged", name)
		return
	}
	pg := page{id: e.page, flags: leafPage, count: int(binary.LittleEndian.Uint16(inside[10:])), data: inside}
	for e := range c.elements(pg, name) {
		each(e)
	}
}

// branchOf is a subtree: what it is of, where it begins, how deep it lies and
// between which keys its own must be; to is nil at the end.
type branchOf struct {
	name     string
	id       uint64
	depth    int
	from, to []byte
}

// tree walks a subtree and calls each for every entry in order.
func (c *check) tree(b branchOf, each func(element)) {
	pg, ok := c.whole(b.id, "a page of the "+b.name)
	switch {
	case !ok:
		return
	case pg.flags == leafPage:
		for e := range c.elements(pg, b.name) {
			if outOf(b, e.key) {
				c.bad(pg.id, "a page of the %s holds an entry that belongs on another page", b.name)
				continue
			}
			each(e)
		}
	case pg.flags != branchPage || b.depth > maxDepth:
		c.bad(pg.id, "a page of the %s is neither a branch nor a leaf", b.name)
	default:
		c.branch(pg, b, each)
	}
}

func outOf(b branchOf, key []byte) bool {
	return bytes.Compare(key, b.from) < 0 || b.to != nil && bytes.Compare(key, b.to) >= 0
}

func (c *check) branch(pg page, b branchOf, each func(element)) {
	var children []branchOf
	for e := range c.elements(pg, b.name) {
		if outOf(b, e.key) {
			c.bad(pg.id, "a branch of the %s has a wrong entry", b.name)
			e.key = b.from
		}
		children = append(children, branchOf{name: b.name, id: e.child, depth: b.depth + 1, from: e.key, to: b.to})
	}
	if len(children) == 0 {
		c.bad(pg.id, "a branch of the %s is empty", b.name)
	}
	for i, child := range children {
		if i+1 < len(children) {
			child.to = children[i+1].from
		}
		c.tree(child, each)
	}
}

// whole claims a page with those it runs over into, and reads it.
func (c *check) whole(id uint64, what string) (page, bool) {
	if err := c.claim(id); err != nil {
		c.bad(id, "%s cannot be read: %v", what, err)
		return page{}, false
	}
	pg, err := c.read(id)
	if err != nil {
		c.bad(id, "%s cannot be read: %v", what, err)
		return page{}, false
	}
	for i := uint64(1); i < uint64(int64(len(pg.data))/c.pageSize); i++ {
		if err := c.claim(id + i); err != nil {
			c.bad(id, "%s runs into another: %v", what, err)
		}
	}
	return pg, true
}

// element is one entry of a page. A branch has children, a leaf has values.
type element struct {
	page       uint64
	flags      uint32
	key, value []byte
	child      uint64
	// at is where in the page the value begins.
	at int64
}

// elements returns the entries of a branch or a leaf, whose keys only grow.
func (c *check) elements(pg page, name string) func(yield func(element) bool) {
	return func(yield func(element) bool) {
		var last []byte
		for i := range pg.count {
			e, ok := elementOf(pg, i)
			switch {
			case !ok:
				c.bad(pg.id, "entry %d of a page of the %s leads out of it", i+1, name)
				continue
			case last != nil && bytes.Compare(e.key, last) <= 0:
				c.bad(pg.id, "entry %d of a page of the %s is out of order", i+1, name)
				continue
			}
			last = e.key
			if !yield(e) {
				return
			}
		}
	}
}

// elementOf returns the i-th entry of a page; ok is false when it does not lie
// in the page.
func elementOf(pg page, i int) (element, bool) {
	le := binary.LittleEndian
	at := pageHeader + i*pageElement
	if at+pageElement > len(pg.data) {
		return element{}, false
	}
	head := pg.data[at : at+pageElement]
	e := element{page: pg.id}
	var from, key, value uint64
	if pg.flags == branchPage {
		from, key, e.child = uint64(le.Uint32(head)), uint64(le.Uint32(head[4:])), le.Uint64(head[8:])
	} else {
		e.flags = le.Uint32(head)
		from, key, value = uint64(le.Uint32(head[4:])), uint64(le.Uint32(head[8:])), uint64(le.Uint32(head[12:]))
	}
	from += uint64(at)
	if from+key+value > uint64(len(pg.data)) || from < uint64(pageHeader+pg.count*pageElement) {
		return element{}, false
	}
	e.key, e.value, e.at = pg.data[from:from+key], pg.data[from+key:from+key+value], int64(from+key)
	return e, true
}
