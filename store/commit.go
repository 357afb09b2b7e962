package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// How full a page of events is made. Most are added at the end of the newest session,
// which is the end of them all: pages need no room there, and 28 readings go into one of
// 8 KiB, at 0.95 only 27. Where an older session goes on, full pages are split over and
// over, and so are those that lead to them: 300 sessions that were gone on with once
// took 352 bytes a reading, and 334 when a little room is left there.
const (
	fillAtEnd  = 1.0
	fillWithin = 0.95
)

// row is one thing to put into a bucket, or to take out when value is nil.
type row struct {
	bucket, key, value []byte
	// prev is the hash of the event before an event.
	prev string
}

// commit keeps the jobs in one transaction with everything computed from them.
// On a full disk it gives up the ballast and tries once more.
func (f *file) commit(jobs []*job) (reserve bool, err error) {
	err = f.attempt(jobs)
	if errors.Is(err, ErrFull) && f.spend() {
		err = f.attempt(jobs)
		return err == nil, err
	}
	return false, err
}

func (f *file) attempt(jobs []*job) error {
	if err := f.ready(never); err != nil {
		return err
	}
	if f.stale {
		if err := f.refresh(); err != nil {
			return err
		}
	}
	d := f.index.draft()
	rows, err := d.rows(jobs)
	if err != nil {
		return err
	}
	if err = f.write(rows); err == nil {
		d.apply()
		return nil
	}
	// A failure can come after the fact: the file says what it holds, now or
	// before the next attempt.
	_ = f.refresh()
	return err
}

// rows returns what the jobs put into the file.
func (d *draft) rows(jobs []*job) ([]row, error) {
	var rows []row
	last := map[uint64]*job{}
	for _, j := range jobs {
		id := d.idOf(j.uid)
		last[id] = j
		for _, s := range j.sealed {
			k := eventKey(id, s.N)
			rows = append(rows, row{bucket: eventsBucket, key: k, value: frame(k, s.Bytes), prev: s.Prev})
		}
		d.touch(id)
	}
	for id, j := range last {
		text, err := json.Marshal(j.heading)
		if err != nil {
			return nil, fmt.Errorf("the heading of session %q: %w", j.uid, err)
		}
		rows = append(rows, row{bucket: headingsBucket, key: number(id), value: frame(number(id), text)})
	}
	return append(rows, d.indexRows()...), nil
}

// indexRows returns what the draft changes in uids and recent.
func (d *draft) indexRows() []row {
	var rows []row
	for uid, id := range d.newIDs {
		rows = append(rows, row{bucket: uidsBucket, key: []byte(uid), value: frame([]byte(uid), number(id))})
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for id, at := range d.newTouches {
		if old, ok := d.touches[id]; ok {
			rows = append(rows, row{bucket: recentBucket, key: number(old)})
		}
		rows = append(rows, row{bucket: recentBucket, key: number(at), value: frame(number(at), number(id))})
	}
	return rows
}

// write keeps the rows, all or none: in the tail, or in their buckets when that is
// full or they are many.
func (f *file) write(rows []row) error {
	frame := f.frame(rows)
	if frame == nil {
		return f.put(rows)
	}
	if !f.tail.Load().takes(frame) {
		if err := f.put(nil); err != nil {
			return err
		}
		frame = f.frame(rows)
	}
	if err := f.with(func() error { return f.extend(frame, rows) }); err != nil {
		f.tail.Store(f.tail.Load().failed())
		return err
	}
	return f.with(func() error { return f.hooks.fault("written") })
}

// put puts the rows into their buckets of the file that the path leads to, behind
// those of the tail. Of a transaction without rows, which only begins a round, the
// hooks are not asked.
func (f *file) put(rows []row) error {
	fault := f.hooks.fault
	if len(rows) == 0 && len(f.tail.Load().rows) == 0 {
		fault = func(string) error { return nil }
	}
	return f.with(func() error {
		err := f.commits(len(rows) == 0, func(tx *bolt.Tx) error {
			for _, r := range rows {
				if err := put(tx, r); err != nil {
					return err
				}
			}
			return fault("write")
		})
		if err != nil {
			return err
		}
		return fault("written")
	})
}

// present returns ErrGone when the path does not lead to the open file: what is
// written to it then is lost when it is closed.
func (f *file) present() error {
	there, err := leads(f.path, f.info)
	if there || err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return &FileError{Path: f.path, Kind: ErrGone, Cause: err}
}

func put(tx *bolt.Tx, r row) error {
	b := tx.Bucket(r.bucket)
	if b == nil {
		return &FileError{Path: tx.DB().Path(), Kind: ErrDamaged, Cause: fmt.Errorf("its %s are missing", r.bucket)}
	}
	if r.value == nil {
		return b.Delete(r.key)
	}
	if bytes.Equal(r.bucket, eventsBucket) {
		fill(b, r.key)
		if err := checkNext(b.Get, r); err != nil {
			return &FileError{Path: tx.DB().Path(), Kind: ErrDamaged, Cause: err}
		}
	}
	return b.Put(r.key, r.value)
}

// fill makes ready for an event in a transaction. bbolt has one measure for all pages
// that it splits at the end of one: the end of the bucket is what counts.
func fill(b *bolt.Bucket, key []byte) {
	last, _ := b.Cursor().Last()
	switch {
	case bytes.Compare(last, key) < 0:
		b.FillPercent = fillAtEnd
	case b.FillPercent != fillAtEnd:
		b.FillPercent = fillWithin
	}
}

// checkNext refuses to write over another event, to leave a gap, and to go on from
// another event than the one before. The same
// event may be there: a commit that failed late can have been kept.
func checkNext(get func(key []byte) []byte, r row) error {
	id, n, _ := parseEventKey(r.key)
	if is := get(r.key); is != nil && !bytes.Equal(is, r.value) {
		return fmt.Errorf("another event stands at number %d of stream %d", n, id)
	}
	if n == 1 {
		return nil
	}
	before := eventKey(id, n-1)
	there := get(before)
	if there == nil {
		return fmt.Errorf("event %d of stream %d is missing", n-1, id)
	}
	line, err := framed(before, there)
	if err != nil {
		return fmt.Errorf("event %d of stream %d: %w", n-1, id, err)
	}
	if record.SumOf(line) != r.prev {
		return fmt.Errorf("event %d of stream %d is not the one that the next goes on from", n-1, id)
	}
	return nil
}

// createBuckets makes an empty database.
func createBuckets(tx *bolt.Tx) error {
	for _, name := range [][]byte{metaBucket, eventsBucket, headingsBucket, uidsBucket, recentBucket} {
		if _, err := tx.CreateBucketIfNotExists(name); err != nil {
			return err
		}
	}
	return errors.Join(makeRooms(tx), putRound(tx, 1), tx.Bucket(metaBucket).Put(indexKey, indexForm()))
}
