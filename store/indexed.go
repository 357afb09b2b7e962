package store

import (
	"errors"

	"borewright/engine/record"
)

// The index of a large file is read beside the first reads, or by the first that
// needs it: with it before the first frame 10,000 sessions started in 1.5 times as
// long as none, without it in 1.2. Until then a session is looked up in the file,
// and the newest ones are listed only where all that is asked for of them is sound.
// Everything else waits: what is not found, all sessions, and whatever is written.

// indexLater reports whether the index can be read late. What has to be known of a
// file that is damaged at its beginning, and of a backup, is known at once.
func (f *file) indexLater() (bool, error) {
	if f.unwalked.Load() == nil || f.backup || f.doubtful {
		return false, nil
	}
	return f.ourForm()
}

// indexed reads the index unless that is done. A list that is damaged is made again
// here, whoever calls: nobody else writes before it is. An error is a warning too,
// for nobody may have asked. It may be called with the book's mu, so it must not
// take that.
func (f *file) indexed() error {
	if !f.unindexed.Load() {
		return nil
	}
	f.indexing.Lock()
	defer f.indexing.Unlock()
	if !f.unindexed.Load() {
		return nil
	}
	err := f.readIndex()
	switch {
	case errors.Is(err, errStopped):
		return ErrClosed
	case err != nil && !errors.Is(err, ErrClosed):
		f.warn(err.Error())
	case err == nil:
		f.unindexed.Store(false)
	}
	return err
}

// idOf returns the stream's id; ok is false when it has none.
func (f *file) idOf(uid string) (id uint64, ok bool, err error) {
	if f.unindexed.Load() && uid != record.ShopUID {
		if id, ok, err = f.idInFile(uid); err != nil || ok {
			return id, ok, err
		}
		if err := f.indexed(); err != nil {
			return 0, false, err
		}
	}
	id, ok = f.index.id(uid)
	return id, ok, nil
}

// idInFile is idOf of what the file says; ok is false where that is damaged too.
func (f *file) idInFile(uid string) (id uint64, ok bool, err error) {
	err = f.view(func(tx *readTx) error {
		var bad error
		id, bad = unframeNumber([]byte(uid), tx.get(uidsBucket, []byte(uid)))
		ok = bad == nil
		return nil
	})
	return id, ok, err
}

// newest returns the headings of so many sessions, the newest touched first; ok is
// false unless there are as many and nothing on the way to them is damaged.
func (f *file) newest(limit int) (out []record.Heading, ok bool) {
	if limit <= 0 {
		return nil, false
	}
	seen, sound, err := f.sights(limit)
	if err != nil || !sound || len(seen) < limit {
		return nil, false
	}
	for _, s := range seen {
		h, ok := s.read()
		if !ok {
			return nil, false
		}
		out = append(out, h)
	}
	return out, true
}
