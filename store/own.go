package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/maphash"
	"io"
	"math"
	"os"
	"sync"

	bolt "go.etcd.io/bbolt"
)

// The guard against another file that was copied over the open one: its inode
// stays, so the path still leads to it. Before bbolt uses the file, the meta page
// on the disk must be the one that this process found or wrote last; before a
// commit also what tells one database from another of the same shape, the last
// entry of every bucket. In a
// commit the event before must be the one that the new event holds the hash of.

// own is what this process found in the file or wrote there last.
type own struct {
	meta
	// mark is what markOf said.
	mark uint64
}

// follows reports whether the meta page can be that of the next transaction.
func (m meta) follows(last meta) bool { return m.tx == last.tx+1 && m.pageSize == last.pageSize }

// same returns ErrGone when the file's beginning is another one's. A file that is cut short is for
// bbolt to stumble over.
func (f *file) same() error {
	for {
		last := f.last.Load()
		if last == nil {
			return nil // it is being opened
		}
		now, err := f.begins(last)
		switch {
		case err != nil:
			return err
		case now == last.meta, f.unsure.Load() && now.follows(last.meta):
			return nil
		case f.last.Load() == last:
			return &FileError{Path: f.path, Kind: ErrGone}
		}
	}
}

// begins returns the file's newer meta page, zero when it has none, or errHandle
// once bbolt closed the file. It is one read: a commit waits for four of it less
// than for one each of both pages, the file's size and whether it is open.
func (f *file) begins(last *own) (meta, error) {
	data := borrow(last.pageSize + metaAt + metaSize)
	defer lent.Put(&data)
	n, err := f.data.ReadAt(data, 0)
	switch {
	case errors.Is(err, os.ErrClosed):
		return meta{}, errHandle
	case err != nil && !errors.Is(err, io.EOF):
		return meta{}, err
	}
	l, _ := lookAt(bytesAt(data[:n]), math.MaxInt64)
	return l.meta, nil
}

// lent are the buffers that are read into before and after every commit. With new
// ones a transaction without a disk took 1.13 of the time, and more where the collector
// seldom runs: memory that was never used is slow.
var lent sync.Pool

// borrow returns a buffer of n bytes, to be put back.
func borrow(n int64) []byte {
	if b, ok := lent.Get().(*[]byte); ok && int64(cap(*b)) >= n {
		return (*b)[:n]
	}
	return make([]byte, n, n+pageHeader*16)
}

// bytesAt reads bytes in memory.
type bytesAt []byte

func (b bytesAt) ReadAt(p []byte, at int64) (int, error) {
	if at > int64(len(b)) {
		return 0, io.EOF
	}
	n := copy(p, b[at:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// commits does what change says in one transaction on the file that the path
// leads to and that this process wrote last, after what is in the tail, which goes
// alone when change changes nothing. Call it in with.
func (f *file) commits(alone bool, change func(*bolt.Tx) error) error {
	if err := f.present(); err != nil {
		return err
	}
	if err := f.mine(); err != nil {
		return err
	}
	f.unsure.Store(true)
	var mark uint64
	t := f.tail.Load()
	err := f.bolt.Update(func(tx *bolt.Tx) error {
		if err := t.fold(tx, alone); err != nil {
			return err
		}
		if err := change(tx); err != nil {
			return err
		}
		mark = markOf(tx)
		return nil
	})
	if err != nil {
		f.stale = true
		_ = f.mine() // it can have failed after the fact
		return err
	}
	if err := f.wrote(mark); err != nil {
		return err
	}
	return f.settled(t, alone)
}

// mine returns ErrGone unless the file holds what this process wrote last, or,
// when unsure is set, the transaction after it, which it then notes.
func (f *file) mine() error {
	last := f.last.Load()
	now, err := f.begins(last)
	switch {
	case err != nil:
		return err
	case f.unsure.Load() && now.follows(last.meta):
		f.note(now, f.markOn(now))
		return nil
	case now != last.meta, f.markOn(now) != last.mark:
		return &FileError{Path: f.path, Kind: ErrGone}
	}
	f.unsure.Store(false)
	return nil
}

// wrote notes the transaction that was just committed, if the path leads to it.
func (f *file) wrote(mark uint64) error {
	last := f.last.Load()
	now, err := f.begins(last)
	if err != nil {
		return err
	}
	if err := f.present(); err != nil {
		return err
	}
	if !now.follows(last.meta) {
		return &FileError{Path: f.path, Kind: ErrGone}
	}
	f.note(now, mark)
	return nil
}

func (f *file) note(m meta, mark uint64) {
	f.last.Store(&own{m, mark})
	f.unsure.Store(false)
}

var markSeed = maphash.MakeSeed()

// marking is a hash of the last entry of every bucket, in the order of the
// buckets' names. It is good in this process only.
type marking struct{ maphash.Hash }

func newMarking() *marking {
	m := &marking{}
	m.SetSeed(markSeed)
	return m
}

func (m *marking) add(parts ...[]byte) {
	for _, p := range parts {
		_, _ = m.Write(number(uint64(len(p))))
		_, _ = m.Write(p)
	}
}

// markOf returns what tells the database from others as a transaction leaves it.
func markOf(tx *bolt.Tx) uint64 {
	m := newMarking()
	_ = tx.ForEach(func(name []byte, b *bolt.Bucket) error {
		if bytes.Equal(name, tailBucket) {
			return nil
		}
		key, value := b.Cursor().Last()
		m.add(name, key, value)
		return nil
	})
	return m.Sum64()
}

// markOn is markOf of what lies in the file, where bbolt could stumble. What
// cannot be read adds nothing.
func (f *file) markOn(at meta) uint64 {
	top, below := borrow(at.pageSize), borrow(at.pageSize)
	defer func() { lent.Put(&top); lent.Put(&below) }()
	p := &pages{r: f.data, meta: at, stop: never, buf: top}
	m := newMarking()
	root, err := p.brief(at.root)
	p.buf = below
	for i := range root.count {
		bucket, ok := elementOf(root, i)
		if err != nil || !ok || len(bucket.value) < bucketHeader {
			break
		}
		if bytes.Equal(bucket.key, tailBucket) {
			continue
		}
		last := p.last(bucket.value)
		m.add(bucket.key, last.key, last.value)
	}
	return m.Sum64()
}

// last returns the last entry of a bucket, given by its value in the page of the
// buckets; it has no key when there is none.
func (p *pages) last(bucket []byte) element {
	id, within := binary.LittleEndian.Uint64(bucket), bucket[bucketHeader:]
	if id == 0 && len(within) >= pageHeader {
		return lastOf(page{flags: leafPage, count: int(binary.LittleEndian.Uint16(within[10:])), data: within})
	}
	for range maxDepth {
		if id < 2 || id >= p.pages {
			break
		}
		pg, err := p.brief(id)
		if err != nil {
			break
		}
		e := lastOf(pg)
		if pg.flags != branchPage {
			return e
		}
		id = e.child
	}
	return element{}
}

// lastOf returns the last entry of a page.
func lastOf(pg page) element {
	if pg.count == 0 {
		return element{}
	}
	e, _ := elementOf(pg, pg.count-1)
	return e
}
