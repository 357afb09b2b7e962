package store

import (
	"encoding/json"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// sight is what a transaction saw of one stream, copied.
type sight struct {
	id uint64
	// heading is the heading's JSON, nil when it is missing or damaged.
	heading []byte
	// n and last are the number and the stored bytes of the last event; last is
	// nil when it is missing or damaged.
	n    int64
	last []byte
}

// see looks at the heading and the last event of a stream.
func see(tx *readTx, id uint64) sight {
	s := sight{id: id}
	key := number(id)
	if v := tx.get(headingsBucket, key); v != nil {
		s.heading, _ = unframe(key, v)
	}
	for k, v := range tx.before(eventsBucket, number(id+1)) {
		if at, n, ok := parseEventKey(k); ok && at == id {
			s.n = n
			s.last, _ = unframe(k, v)
		}
		break
	}
	return s
}

// read returns the heading when it is sound and speaks of the last event.
func (s sight) read() (record.Heading, bool) {
	var h record.Heading
	if s.heading == nil {
		return h, s.id == shopID && s.n == 0
	}
	if err := json.Unmarshal(s.heading, &h); err != nil {
		return record.Heading{}, false
	}
	return h, s.last != nil && h.Head == record.Head{N: s.n, Hash: record.SumOf(s.last)}
}

// heading implements shelf.
func (f *file) heading(uid string) (record.Heading, error) {
	id, ok, err := f.idOf(uid)
	if err != nil || !ok {
		return record.Heading{}, err
	}
	var s sight
	if err := f.view(func(tx *readTx) error { s = see(tx, id); return nil }); err != nil {
		return record.Heading{}, err
	}
	if h, ok := s.read(); ok && !f.oldForm {
		return h, nil
	}
	return f.folded(id, uid)
}

// folded makes the heading of a stream from its events. With a *SessionError
// it is that of the intact ones.
func (f *file) folded(id uint64, uid string) (record.Heading, error) {
	h, err := fold(uid, func(each lineReader) error { return f.readOf(id, uid, each) })
	switch {
	case err != nil && !isSessionError(err):
		return record.Heading{}, err
	case err != nil:
		f.warn(err.Error())
	}
	if h.UID == "" && id != shopID {
		h.UID = uid
	}
	return h, err
}

// slimEvery is after how many sessions the list gives back what it read: the
// system maps the pages around each that is looked at, and 10,000 sessions left
// 600 MB of the file resident.
const slimEvery = 20

// slim gives back the part of the memory that maps the file. The system keeps
// what it has of the file, and maps again what is looked at again.
func slim(tx *bolt.Tx) {
	release(tx.DB().Info().Data, uintptr(tx.Size()))
}

// sights sees the newest touched streams, all of them when limit is not above
// zero. An entry of the list that is damaged is left out, and sound is false.
func (f *file) sights(limit int) (seen []sight, sound bool, err error) {
	sound = true
	err = f.view(func(tx *readTx) error {
		for k, v := range tx.before(recentBucket, nil) {
			if limit > 0 && len(seen) == limit {
				break
			}
			id, err := unframeNumber(k, v)
			if err != nil {
				sound = false
				continue
			}
			seen = append(seen, see(tx, id))
			if limit <= 0 && len(seen)%slimEvery == slimEvery-1 {
				slim(tx.tx)
			}
		}
		return nil
	})
	return seen, sound, err
}

// headings implements shelf. It reads the newest touches first.
func (f *file) headings(limit int) ([]record.Heading, error) {
	if f.unindexed.Load() {
		if out, ok := f.newest(limit); ok {
			return out, nil
		}
		if err := f.indexed(); err != nil {
			return nil, err
		}
	}
	seen, _, err := f.sights(limit)
	if err != nil {
		return nil, err
	}
	out := make([]record.Heading, len(seen))
	for i, s := range seen {
		h, ok := s.read()
		if !ok || f.oldForm {
			if h, err = f.folded(s.id, f.index.name(s.id)); err != nil && !isSessionError(err) {
				return nil, err
			}
		}
		out[i] = h
	}
	return out, nil
}
