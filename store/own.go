package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc64"
	"io"
	"os"

	bolt "go.etcd.io/bbolt"
)

// The guard against another file that was copied over the open one: its inode
// stays, so the path still leads to it. Before bbolt uses the file, the meta page
// on the disk must be the one that this process found or wrote last; before a
// commit also what tells one database from another of the same shape: the page of
// the buckets, the list of free pages, and the last events.

// own is what this process found or wrote last.
type own struct {
	meta
	sum uint64
}

var ownTable = crc64.MakeTable(crc64.ECMA)

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
		now, err := f.begins()
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
// once bbolt closed the file.
func (f *file) begins() (meta, error) {
	switch _, err := f.data.ReadAt(make([]byte, 1), 0); {
	case errors.Is(err, os.ErrClosed):
		return meta{}, errHandle
	case err != nil && !errors.Is(err, io.EOF):
		return meta{}, err
	}
	info, err := f.data.Stat()
	if err != nil {
		return meta{}, err
	}
	l, err := lookAt(f.data, info.Size())
	if errors.Is(err, errForeign) {
		return meta{}, nil
	}
	return l.meta, nil
}

// commits does what change says in one transaction on the file that the path
// leads to and that this process wrote last. Call it in with.
func (f *file) commits(change func(*bolt.Tx) error) error {
	if err := f.present(); err != nil {
		return err
	}
	if err := f.mine(); err != nil {
		return err
	}
	f.unsure.Store(true)
	err := f.bolt.Update(change)
	if err != nil {
		_ = f.mine() // it can have failed after the fact
		return err
	}
	return f.mine()
}

// mine returns ErrGone unless the file holds what this process wrote last, or,
// when unsure is set, the transaction after it, which it then notes.
func (f *file) mine() error {
	last := f.last.Load()
	now, err := f.begins()
	if err != nil {
		return err
	}
	next := f.unsure.Load() && now.follows(last.meta)
	if !next && (now != last.meta || f.fingerprint(now) != last.sum) {
		return &FileError{Path: f.path, Kind: ErrGone}
	}
	if now != last.meta {
		f.last.Store(&own{now, f.fingerprint(now)})
	}
	f.unsure.Store(false)
	return nil
}

// fingerprint returns a checksum of the pages that tell this database from
// others. What cannot be read adds nothing.
func (f *file) fingerprint(m meta) uint64 {
	p := &pages{r: f.data, meta: m, stop: never}
	sum := uint64(0)
	add := func(id uint64) page {
		pg, _, err := p.head(id)
		if err != nil {
			return page{}
		}
		sum = crc64.Update(sum, ownTable, pg.data)
		if pageHeader+pg.count*pageElement > len(pg.data) {
			return page{}
		}
		return pg
	}
	add(m.freelist)
	root := add(m.root)
	root.data = bytes.Clone(root.data)
	for i := range root.count {
		p.last(bucketPage(root, i), add)
	}
	return sum
}

// last calls add with the pages that lead to the last element of a tree.
func (p *pages) last(id uint64, add func(uint64) page) {
	for depth := 0; id >= 2 && id < p.pages && depth <= maxDepth; depth++ {
		pg := add(id)
		if pg.flags != branchPage || pg.count == 0 {
			return
		}
		id = binary.LittleEndian.Uint64(pg.data[pageHeader+(pg.count-1)*pageElement+8:])
	}
}

// bucketPage returns the page of the bucket that an element of the page of the
// buckets names, 0 when it is kept inside or names none.
func bucketPage(root page, i int) uint64 {
	at := uint64(pageHeader + i*pageElement)
	e := root.data[at:]
	value := at + uint64(binary.LittleEndian.Uint32(e[4:])) + uint64(binary.LittleEndian.Uint32(e[8:]))
	if value+8 > uint64(len(root.data)) {
		return 0
	}
	return binary.LittleEndian.Uint64(root.data[value:])
}
