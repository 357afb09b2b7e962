package store

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"sort"
)

// The reading of a file whose pages are not walked yet. bbolt does not check the
// pages it follows: a branch that leads back to itself hangs it or ends the
// process, and no guard helps against that. So until the walk is done every page
// on the way is read from the file and checked here, before what it says is used.
// The keys of a branch must grow and lie between those that its parent gives it,
// so that no branch is come to twice. What a leaf holds is guarded by its
// checksums, as it is when the pages are walked.

// unwalked reads the buckets of one meta page. Nobody writes the file meanwhile:
// the first write waits for the walk.
type unwalked struct {
	pages
	root page // of the buckets, without data until it is needed
	// path holds the branches that were read last: with them a list of 50 sessions
	// takes a third of the time.
	path map[level]heldPage
	// err is what is wrong with the first page that was no good. What is read after
	// it has no entries.
	err error
}

// level is a depth in the tree of a bucket.
type level struct {
	bucket string
	depth  int
}

// heldPage is the page of a subtree.
type heldPage struct {
	of   branchOf
	page page
}

func newUnwalked(r io.ReaderAt, m meta) *unwalked {
	return &unwalked{pages: pages{r: r, meta: m, stop: never}, path: map[level]heldPage{}}
}

// span is which entries are read: those from a key on, or those before it, the
// last first. With no key it is all.
type span struct {
	key  []byte
	back bool
}

// begin returns the first entry of a page that can lead into the span, and the
// step to the next one.
func (s span) begin(pg page) (at, step int) {
	exact := false
	at = sort.Search(pg.count, func(i int) bool {
		e, _ := elementOf(pg, i)
		order := bytes.Compare(e.key, s.key)
		exact = exact || order == 0
		return order >= 0
	})
	switch {
	case s.back && s.key == nil:
		return pg.count - 1, -1
	case s.back:
		return at - 1, -1
	case pg.flags == branchPage && !exact && at > 0:
		return at - 1, 1
	default:
		return at, 1
	}
}

// has reports whether there is such a bucket.
func (u *unwalked) has(bucket []byte) bool {
	_, ok := u.bucket(bucket)
	return ok
}

// over returns the entries of a bucket that are in the span.
func (u *unwalked) over(bucket []byte, s span) pairs {
	return func(yield func(k, v []byte) bool) {
		e, ok := u.bucket(bucket)
		if !ok {
			return
		}
		b := branchOf{name: string(bucket), id: binary.LittleEndian.Uint64(e.value)}
		if b.id != 0 {
			u.tree(b, s, yield)
			return
		}
		pg := page{id: e.page, flags: leafPage, data: e.value[bucketHeader:]}
		if u.err = inside(pg.id, pg.data); u.err == nil {
			pg.count = int(binary.LittleEndian.Uint16(pg.data[10:]))
			u.page(pg, b, s, yield)
		}
	}
}

// bucket returns the entry of the bucket in the page of the buckets.
func (u *unwalked) bucket(name []byte) (element, bool) {
	if u.root.data == nil && u.err == nil {
		u.root, u.err = u.sound(branchOf{id: u.meta.root}, bucketFlag)
	}
	if u.err != nil {
		return element{}, false
	}
	for i := range u.root.count {
		e, _ := elementOf(u.root, i)
		switch {
		case !bytes.Equal(e.key, name):
		case len(e.value) < bucketHeader:
			u.err = fmt.Errorf("entry %d of page %d is no bucket", i, u.root.id)
			return element{}, false
		default:
			return e, true
		}
	}
	return element{}, false
}

// tree yields what of a subtree is in the span; false ends the reading.
func (u *unwalked) tree(b branchOf, s span, yield func(k, v []byte) bool) bool {
	pg, ok := u.held(b)
	if !ok {
		if pg, u.err = u.sound(b, 0); u.err != nil {
			return false
		}
		u.hold(b, pg)
	}
	return u.page(pg, b, s, yield)
}

// page is tree of a page that is sound.
func (u *unwalked) page(pg page, b branchOf, s span, yield func(k, v []byte) bool) bool {
	at, step := s.begin(pg)
	for ; at >= 0 && at < pg.count; at += step {
		e, _ := elementOf(pg, at)
		if pg.flags == leafPage {
			if !yield(e.key, e.value) {
				return false
			}
			continue
		}
		child := branchOf{name: b.name, id: e.child, depth: b.depth + 1, from: e.key, to: b.to}
		if at+1 < pg.count {
			next, _ := elementOf(pg, at+1)
			child.to = next.key
		}
		if !u.tree(child, s, yield) {
			return false
		}
	}
	return true
}

// sound reads the first page of a subtree and checks it; flag says what a leaf
// holds.
func (u *unwalked) sound(b branchOf, flag uint32) (page, error) {
	if b.id < 2 || b.id >= u.meta.pages {
		return page{}, fmt.Errorf("page %d does not exist", b.id)
	}
	pg, over, err := u.head(b.id)
	u.buf = nil // it is the page's now
	if err == nil && over > 0 {
		pg, err = u.read(b.id)
	}
	switch {
	case err != nil:
		return page{}, err
	case pg.flags != leafPage && (pg.flags != branchPage || flag == bucketFlag || pg.count == 0 || b.depth > maxDepth):
		return page{}, fmt.Errorf("page %d is neither a branch nor a leaf", b.id)
	}
	if err := entries(pg, flag); err != nil || pg.flags == leafPage {
		return pg, err
	}
	return pg, inOrder(pg, b)
}

// inOrder returns an error unless the keys of a branch grow and are the
// subtree's.
func inOrder(pg page, b branchOf) error {
	var last []byte
	for i := range pg.count {
		e, _ := elementOf(pg, i)
		if outOf(b, e.key) || last != nil && bytes.Compare(e.key, last) <= 0 {
			return fmt.Errorf("entry %d of page %d is out of order", i, pg.id)
		}
		last = e.key
	}
	return nil
}

// held returns the page of a subtree when it was read last at its depth.
func (u *unwalked) held(b branchOf) (page, bool) {
	h := u.path[level{b.name, b.depth}]
	same := h.of.id == b.id && bytes.Equal(h.of.from, b.from) && bytes.Equal(h.of.to, b.to)
	return h.page, same && b.id != 0
}

// hold holds the page of a subtree if it is a branch.
func (u *unwalked) hold(b branchOf, pg page) {
	if pg.flags == branchPage {
		u.path[level{b.name, b.depth}] = heldPage{b, pg}
	}
}
