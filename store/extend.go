package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"slices"

	bolt "go.etcd.io/bbolt"
)

// frame returns the frame that keeps the rows, nil when they must go into their
// buckets.
func (f *file) frame(rows []row) []byte {
	t := f.tail.Load()
	if t.rooms[0] == 0 || t.full || f.unsure.Load() {
		return nil
	}
	frame := t.frame(rows)
	if len(frame) > mostInTail {
		return nil
	}
	return frame
}

// extend writes a frame of the rows behind the last one, of the file that the path
// leads to. Call it in with.
func (f *file) extend(frame []byte, rows []row) error {
	t := f.tail.Load()
	if err := f.continues(t); err != nil {
		return err
	}
	if err := f.reading(func(tx *readTx) error { return f.follow(tx, rows) }); err != nil {
		return err
	}
	if err := f.hooks.fault("write"); err != nil {
		return err
	}
	if _, err := f.data.WriteAt(frame, t.at()); err != nil {
		return err
	}
	if err := f.flush(); err != nil {
		return err
	}
	t = t.with(frame, rows)
	if err := f.continues(t); err != nil {
		return err
	}
	f.tail.Store(t)
	return nil
}

// flush returns when what was written is safe.
func (f *file) flush() error {
	if f.bolt.NoSync {
		return nil
	}
	return flushData(f.data)
}

// follow is checkNext of every event of the rows, each with those before it.
func (f *file) follow(tx *readTx, rows []row) error {
	for i, r := range rows {
		if !bytes.Equal(r.bucket, eventsBucket) {
			continue
		}
		before := overlay(rows[:i])
		get := func(key []byte) []byte {
			if v, ok := before.get(eventsBucket, key); ok {
				return v
			}
			return tx.get(eventsBucket, key)
		}
		if err := checkNext(get, r); err != nil {
			return &FileError{Path: f.path, Kind: ErrDamaged, Cause: err}
		}
	}
	return nil
}

// continues returns ErrGone unless the path leads to the open file, and that is
// what this process wrote last with the tail at its end.
func (f *file) continues(t *tail) error {
	if err := f.present(); err != nil {
		return err
	}
	last := f.last.Load()
	now, err := f.begins(last)
	if err != nil {
		return err
	}
	ends := t.last()
	var is [crc32.Size]byte
	switch {
	case now != last.meta:
	case len(ends) == 0 && f.markOn(now) == last.mark:
		return nil
	case len(ends) > 0:
		if _, err := f.data.ReadAt(is[:], t.at()-crc32.Size); err != nil {
			return err
		}
		if bytes.Equal(is[:], ends) {
			return nil
		}
	}
	return &FileError{Path: f.path, Kind: ErrGone}
}

// fold puts the rows of the tail into their buckets and begins the next round.
func (t *tail) fold(tx *bolt.Tx, alone bool) error {
	for _, r := range t.rows {
		if err := put(tx, r); err != nil {
			return err
		}
	}
	if t.rooms[0] == 0 {
		if err := makeRooms(tx); err != nil {
			return err
		}
	}
	return putRound(tx, t.after(alone))
}

func putRound(tx *bolt.Tx, round uint64) error {
	return tx.Bucket(metaBucket).Put(roundKey, frame(roundKey, number(round)))
}

// makeRooms makes the rooms of the tail, and the format that has them.
func makeRooms(tx *bolt.Tx) error {
	b, err := tx.CreateBucketIfNotExists(tailBucket)
	if err != nil {
		return err
	}
	for _, key := range roomKeys {
		if err := b.Put(key, make([]byte, roomSize)); err != nil {
			return err
		}
	}
	return tx.Bucket(metaBucket).Put(formatKey, frame(formatKey, fmt.Append(nil, formatNumber)))
}

// settled notes that the rows of the tail are in their buckets.
func (f *file) settled(t *tail, alone bool) error {
	if t.rooms[0] == 0 {
		return f.readTailOf(f.last.Load().meta, false)
	}
	f.tail.Store(t.emptied(alone))
	return nil
}

// settle implements shelf: it puts what is in the tail into its buckets. That it
// cannot is no loss: the tail is read when the file is opened again.
func (f *file) settle() {
	t := f.tail.Load()
	if t == nil || len(t.rows) == 0 || f.backup || f.stale || f.unwalked.Load() != nil || f.dead.Load() {
		return
	}
	_ = f.put(nil)
}

// tailNow returns the tail as it is.
func (f *file) tailNow() *tail {
	if t := f.tail.Load(); t != nil {
		return t
	}
	return &tail{}
}

// tailOver returns the tail behind the buckets of the transaction, errOlder when
// nobody knows it any more.
func (f *file) tailOver(tx *bolt.Tx) (*tail, error) {
	b := tx.Bucket(metaBucket)
	if b == nil {
		return &tail{}, nil
	}
	value, t := b.Get(roundKey), f.tailNow()
	round, err := unframeNumber(roundKey, value)
	switch {
	case value == nil && t.round > 0: // the file had no rooms yet
		return nil, errOlder
	case err == nil && t.round < round: // they have it all, and nothing came after them yet
		return &tail{rooms: t.rooms, size: t.size, round: round}, nil
	case err == nil && t.round > round:
		return nil, errOlder
	}
	return t, nil
}

// readTailOf reads the tail behind the buckets of a meta page.
func (f *file) readTailOf(m meta, doubtful bool) error {
	u := newUnwalked(f.data, m)
	if !u.has(tailBucket) && u.err == nil {
		f.tail.Store(&tail{})
		return nil
	}
	rooms, at, err := u.rooms()
	if err != nil {
		return f.damaged(err)
	}
	round, err := unframeNumber(roundKey, (&readTx{unwalked: u}).get(metaBucket, roundKey))
	if err != nil {
		return f.damaged(errors.Join(u.err, fmt.Errorf("its round: %w", err)))
	}
	t, torn, err := readTail(rooms, round, doubtful)
	if err != nil {
		return f.damaged(err)
	}
	t.rooms, f.torn = at, torn
	f.tail.Store(t)
	return nil
}

// rooms returns what the rooms of the tail hold and where in the file they begin.
func (u *unwalked) rooms() (data [2][]byte, at [2]int64, err error) {
	e, ok := u.bucket(tailBucket)
	if !ok {
		return data, at, u.err
	}
	pg, err := u.sound(branchOf{name: string(tailBucket), id: binary.LittleEndian.Uint64(e.value)}, 0)
	if err != nil {
		return data, at, err
	}
	for i, key := range roomKeys {
		e, ok := elementOf(pg, i)
		if !ok || pg.flags != leafPage || !bytes.Equal(e.key, key) || len(e.value) < mostInTail || i > 0 && len(e.value) != len(data[0]) {
			return data, at, fmt.Errorf("page %d holds no rooms of the tail", pg.id)
		}
		data[i], at[i] = slices.Clip(e.value), int64(pg.id)*u.pageSize+e.at
	}
	return data, at, nil
}

// copyTo makes the tail of a copy what it is in the transaction that was copied.
func (t *tail) copyTo(copied *os.File) error {
	for i, at := range t.rooms {
		if at == 0 {
			continue
		}
		data := make([]byte, t.size)
		copy(data, t.held[i])
		if _, err := copied.WriteAt(data, at); err != nil {
			return err
		}
	}
	return nil
}
