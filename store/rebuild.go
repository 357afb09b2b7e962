package store

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// warnRebuilt is for a list of sessions that was damaged.
const warnRebuilt = "the list of sessions was damaged and has been made again from what was kept; its order may differ"

// readIndex reads the buckets uids and recent, or makes them again when they do
// not hold what was written, unless the file is closed meanwhile.
func (f *file) readIndex() error {
	x, whole, err := f.scanIndex()
	if err != nil {
		return err
	}
	f.index.become(x)
	ours, err := f.ourForm()
	switch {
	case err != nil || whole && ours:
		return err
	case f.backup && !whole:
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: errors.New("its list of sessions")}
	case f.backup:
		f.oldForm = true
		return nil
	}
	err = f.remake(f.leaving.Load)
	if err == nil && !whole {
		f.warn(warnRebuilt)
	}
	return err
}

// ourForm reports whether the index has the form that this program gives it.
func (f *file) ourForm() (ours bool, err error) {
	err = f.view(func(tx *readTx) error {
		ours = bytes.Equal(tx.get(metaBucket, indexKey), indexForm())
		return nil
	})
	return ours, err
}

// indexForm is the value of indexKey.
func indexForm() []byte { return frame(indexKey, fmt.Append(nil, indexNumber)) }

// refresh reads the index again after a transaction that may be kept or not.
func (f *file) refresh() error {
	f.stale = true
	if err := f.readTailAgain(); err != nil {
		return err
	}
	x, whole, err := f.scanIndex()
	if err != nil {
		return err
	}
	if whole {
		f.index.become(x)
	}
	f.stale = false
	return nil
}

// readTailAgain reads the tail after a change that may be kept or not: what the disk
// has of it is not known, so the next one goes into the buckets, with all before it.
func (f *file) readTailAgain() error {
	return f.with(func() error {
		was := f.tail.Load()
		if f.unsure.Load() {
			if err := f.mine(); err != nil {
				return err
			}
		}
		if err := f.continues(was); err != nil {
			return err
		}
		info, err := f.data.Stat()
		if err != nil {
			return err
		}
		l, err := lookAt(f.data, info.Size())
		if err != nil {
			return err
		}
		if err := f.readTailOf(l.meta, f.doubtful); err != nil {
			return err
		}
		f.tail.Store(f.tail.Load().failed())
		return nil
	})
}

// scanIndex reads the buckets; whole is false when they are damaged.
func (f *file) scanIndex() (x *index, whole bool, err error) {
	x = newIndex()
	var bad error
	err = f.view(func(tx *readTx) error {
		x.expect(tx)
		bad = errors.Join(x.readUIDs(tx), x.readTouches(tx), x.readLast(tx))
		return nil
	})
	return x, bad == nil && x.whole(), err
}

// mostExpected is for how many sessions room is made at once.
const mostExpected = 1 << 16

// expect makes room for as many sessions as the highest id says: growing on the
// way took two of the five milliseconds that an index of 10,000 takes.
func (x *index) expect(tx *readTx) {
	k := tx.last(headingsBucket)
	if len(k) != 8 {
		return
	}
	n := int(min(bytesNumber(k), mostExpected))
	ids, names := make(map[string]uint64, n+1), make(map[uint64]string, n+1)
	maps.Copy(ids, x.ids)
	maps.Copy(names, x.names)
	x.ids, x.names, x.touches = ids, names, make(map[uint64]uint64, n)
}

func (x *index) readUIDs(tx *readTx) (bad error) {
	for k, v := range tx.from(uidsBucket, nil) {
		id, err := unframeNumber(k, v)
		if err != nil {
			bad = err
			continue
		}
		x.add(string(k), id)
	}
	return bad
}

func (x *index) readTouches(tx *readTx) (bad error) {
	for k, v := range tx.from(recentBucket, nil) {
		id, err := unframeNumber(k, v)
		if err != nil || len(k) != 8 {
			bad = errShort
			continue
		}
		x.touch(id, bytesNumber(k))
	}
	return bad
}

// readLast checks that the newest stream has a name.
func (x *index) readLast(tx *readTx) error {
	k := tx.last(eventsBucket)
	if k == nil {
		return nil
	}
	id, _, ok := parseEventKey(k)
	if _, named := x.names[id]; !ok || !named {
		return errMissing
	}
	return nil
}

// stock is one stream as rebuild finds it.
type stock struct {
	id      uint64
	heading record.Heading
}

// rebuild implements shelf.
func (f *file) rebuild() error {
	f.indexing.Lock()
	defer f.indexing.Unlock()
	if err := f.remake(never); err != nil {
		return err
	}
	f.unindexed.Store(false)
	return nil
}

// remake makes headings, uids and recent again in one transaction. What it cannot
// name stays where it is and becomes a warning.
func (f *file) remake(stop func() bool) error {
	if err := f.walk(stop); err != nil {
		return err
	}
	x := newIndex()
	all, err := f.takeStock(x)
	if err != nil {
		return err
	}
	rows, err := x.rowsOf(all)
	if err != nil {
		return err
	}
	if err := f.replaceIndex(rows); err != nil {
		return err
	}
	f.index.become(x)
	return nil
}

// takeStock names all streams in the index and returns them with the headings
// that their events make, the oldest first.
func (f *file) takeStock(x *index) ([]stock, error) {
	ids, err := f.streamIDs()
	if err != nil {
		return nil, err
	}
	var all []stock
	for _, id := range ids {
		h, err := f.folded(id, f.index.name(id))
		if err != nil && !isSessionError(err) {
			return nil, err
		}
		x.lastID = max(x.lastID, id)
		if _, taken := x.ids[h.UID]; id != shopID && (taken || h.UID == "") {
			f.warn(fmt.Sprintf("the readings of stream %d belong to no session that is known", id))
			continue
		}
		if id != shopID {
			x.add(h.UID, id)
		}
		all = append(all, stock{id, h})
	}
	slices.SortStableFunc(all, func(a, b stock) int {
		return cmp.Or(a.heading.Last.Compare(b.heading.Last), cmp.Compare(a.id, b.id))
	})
	return all, nil
}

// rowsOf touches the streams in order and returns all that the buckets hold.
func (x *index) rowsOf(all []stock) ([]row, error) {
	var rows []row
	for i, s := range all {
		text, err := json.Marshal(s.heading)
		if err != nil {
			return nil, fmt.Errorf("the heading of session %q: %w", s.heading.UID, err)
		}
		key := number(s.id)
		rows = append(rows, row{bucket: headingsBucket, key: key, value: frame(key, text)})
		if s.id == shopID {
			continue
		}
		uid, at := []byte(s.heading.UID), uint64(i)+1
		x.touch(s.id, at)
		rows = append(rows, row{bucket: uidsBucket, key: uid, value: frame(uid, key)}, row{bucket: recentBucket, key: number(at), value: frame(number(at), key)})
	}
	return rows, nil
}

func (f *file) replaceIndex(rows []row) error {
	return f.with(func() error {
		return f.commits(false, func(tx *bolt.Tx) error {
			for _, name := range [][]byte{headingsBucket, uidsBucket, recentBucket} {
				if err := tx.DeleteBucket(name); err != nil {
					return err
				}
				if _, err := tx.CreateBucket(name); err != nil {
					return err
				}
			}
			for _, r := range rows {
				if err := put(tx, r); err != nil {
					return err
				}
			}
			if err := tx.Bucket(metaBucket).Put(indexKey, indexForm()); err != nil {
				return err
			}
			return f.hooks.fault("write")
		})
	})
}

// streamIDs returns the ids of all streams that have events, skipping from one
// to the next.
func (f *file) streamIDs() ([]uint64, error) {
	var ids []uint64
	err := f.view(func(tx *readTx) error {
		var id uint64
		for from, more := []byte(nil), true; more && id < math.MaxUint64; from = number(id + 1) {
			if id, more = nextStream(tx, from); more {
				ids = append(ids, id)
			}
		}
		return nil
	})
	return ids, err
}

// nextStream returns the id of the first stream whose events lie from the key on.
func nextStream(tx *readTx, from []byte) (id uint64, ok bool) {
	for k := range tx.from(eventsBucket, from) {
		if id, _, ok := parseEventKey(k); ok {
			return id, true
		} // else a key that is not one of ours
	}
	return 0, false
}
