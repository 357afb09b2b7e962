package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// The walk over the pages after a file is locked and before it is written. A
// free page that is in use would be overwritten, and a branch that leads back
// to itself would never end or end the process, so both are looked for. Entries
// must lie in their page, for bbolt makes as much room as they say they take, and
// wrote 2 GB of a forged leaf; what they hold is guarded by its checksums.
//
// In a file of more pages than walkAtOnce the walk goes on beside the first
// reads, which check what they come to themselves (see unwalked), and the first
// write waits for it: on a busy machine 10,000 sessions took 1.3 s to open with it
// and 65 ms without.

const (
	branchPage   = 0x01
	leafPage     = 0x02
	freelistPage = 0x10
	pageHeader   = 16
	pageElement  = 16
	bucketFlag   = 0x01
	maxDepth     = 32
)

// walkAtOnce is how many pages are walked before a file is open: 16 MiB of a new one, or
// some 57,000 readings.
var walkAtOnce = 16 << 20 / newPageSize

// errStopped means that a walk was given up: nothing is going to be written.
var errStopped = errors.New("the walk over the pages was stopped")

// pages walks the pages of one meta page.
type pages struct {
	r io.ReaderAt
	meta
	used []uint64 // a bit for each page
	stop func() bool
	buf  []byte // the page that was read last
}

// page is one page as it lies in the file.
type page struct {
	id    uint64
	flags uint16
	count int
	data  []byte
}

// never is when a walk that must come to its end is stopped.
func never() bool { return false }

// checkPages returns what is wrong with the free list and the tree, or
// errStopped once stop says so.
func checkPages(r io.ReaderAt, m meta, stop func() bool) error {
	p := &pages{r: r, meta: m, used: make([]uint64, m.pages/64+1), stop: stop}
	if err := p.freePages(); err != nil {
		return err
	}
	if err := p.claim(m.root); err != nil {
		return err
	}
	root, err := p.claimed(m.root)
	switch {
	case err != nil:
		return err
	case root.flags != leafPage:
		return fmt.Errorf("page %d does not hold the buckets", m.root)
	}
	root.data = bytes.Clone(root.data)
	return p.buckets(root)
}

// claim notes that the page is in use, once.
func (p *pages) claim(id uint64) error {
	if id < 2 || id >= p.pages || p.used[id/64]&(1<<(id%64)) != 0 {
		return fmt.Errorf("page %d is used twice or does not exist", id)
	}
	p.used[id/64] |= 1 << (id % 64)
	return nil
}

// head returns the page with what of its data lies on its first page, until the
// next call, and how many pages it runs over into.
func (p *pages) head(id uint64) (pg page, over uint64, err error) {
	if p.stop() {
		return page{}, 0, errStopped
	}
	if p.buf == nil {
		p.buf = make([]byte, p.pageSize)
	}
	buf, le := p.buf, binary.LittleEndian
	if _, err := p.r.ReadAt(buf, int64(id)*p.pageSize); err != nil {
		return page{}, 0, err
	}
	over = uint64(le.Uint32(buf[12:]))
	if le.Uint64(buf) != id || id+over >= p.pages {
		return page{}, 0, fmt.Errorf("page %d is not where it belongs", id)
	}
	return page{id: id, flags: le.Uint16(buf[8:]), count: int(le.Uint16(buf[10:])), data: buf}, over, nil
}

// read returns the page with its data, which runs over into the next pages.
func (p *pages) read(id uint64) (page, error) {
	pg, over, err := p.head(id)
	if err != nil {
		return page{}, err
	}
	if over == 0 {
		pg.data = bytes.Clone(pg.data)
		return pg, nil
	}
	pg.data = make([]byte, int64(over+1)*p.pageSize)
	_, err = p.r.ReadAt(pg.data, int64(id)*p.pageSize)
	return pg, err
}

// brief returns the page until the next call: with a copy only of one that runs
// over into the next pages.
func (p *pages) brief(id uint64) (page, error) {
	pg, over, err := p.head(id)
	if err != nil || over == 0 {
		return pg, err
	}
	return p.read(id)
}

// freePages claims the free pages and those that list them.
func (p *pages) freePages() error {
	list, err := p.read(p.freelist)
	if err != nil {
		return err
	}
	le := binary.LittleEndian
	n, at := uint64(list.count), uint64(pageHeader)
	if n == 0xFFFF {
		n, at = le.Uint64(list.data[at:]), at+8
	}
	if list.flags != freelistPage || n > (uint64(len(list.data))-at)/8 {
		return fmt.Errorf("page %d is no list of free pages", p.freelist)
	}
	for i := range n {
		if err := p.claim(le.Uint64(list.data[at+8*i:])); err != nil {
			return err
		}
	}
	for i := range uint64(len(list.data)) / uint64(p.pageSize) {
		if err := p.claim(p.freelist + i); err != nil {
			return err
		}
	}
	return nil
}

// claimed returns a page that is claimed, until the next call, and claims the
// pages that it runs over into.
func (p *pages) claimed(id uint64) (page, error) {
	pg, over, err := p.head(id)
	if err != nil || over == 0 {
		return pg, err
	}
	for i := range over {
		if err := p.claim(id + 1 + i); err != nil {
			return page{}, err
		}
	}
	return p.read(id)
}

// buckets walks the trees of the buckets that the root page names.
func (p *pages) buckets(root page) error {
	if err := entries(root, bucketFlag); err != nil {
		return err
	}
	for i := range root.count {
		e, _ := elementOf(root, i)
		if len(e.value) < bucketHeader {
			return fmt.Errorf("entry %d of page %d is no bucket", i, root.id)
		}
		id := binary.LittleEndian.Uint64(e.value)
		if id == 0 {
			if err := inside(root.id, e.value[bucketHeader:]); err != nil {
				return err
			}
			continue
		}
		if err := p.claim(id); err != nil {
			return err
		}
		if err := p.tree(id, 0); err != nil {
			return err
		}
	}
	return nil
}

// tree walks a tree from a page that is claimed. Every child is read: an old
// branch where a leaf should be can lead back to itself.
func (p *pages) tree(id uint64, depth int) error {
	pg, err := p.claimed(id)
	if err != nil {
		return err
	}
	if pg.flags != leafPage && (pg.flags != branchPage || pg.count == 0 || depth > maxDepth) {
		return fmt.Errorf("page %d is neither a branch nor a leaf", id)
	}
	if err := entries(pg, 0); err != nil || pg.flags == leafPage {
		return err
	}
	children := make([]uint64, pg.count)
	for i := range children {
		e, _ := elementOf(pg, i)
		children[i] = e.child
		if err := p.claim(e.child); err != nil {
			return err
		}
	}
	for _, child := range children {
		if err := p.tree(child, depth+1); err != nil {
			return err
		}
	}
	return nil
}
