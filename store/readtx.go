package store

import (
	"bytes"
	"iter"

	bolt "go.etcd.io/bbolt"
)

// readTx is the one road on which the database is read: the entries of a bucket
// in the order of their keys, either way. While the pages of a large file are not
// walked it goes through [unwalked], else through bbolt. Keys and values are good
// until its end.
type readTx struct {
	tx       *bolt.Tx
	unwalked *unwalked // nil once the pages are walked
}

// view reads in a transaction. Nothing of it may be used afterwards that was
// not copied.
func (f *file) view(read func(*readTx) error) error {
	return f.with(func() error {
		if err := f.same(); err != nil {
			return err
		}
		return f.reading(read)
	})
}

// reading is view without the guards. Damage that it finds ends all work on the
// file, and is the error whatever read made of it.
func (f *file) reading(read func(*readTx) error) error {
	return f.bolt.View(func(tx *bolt.Tx) error {
		m := f.unwalked.Load()
		if m == nil {
			return read(&readTx{tx: tx})
		}
		u := newUnwalked(f.data, *m)
		err := read(&readTx{tx, u})
		if u.err == nil {
			return err
		}
		return f.damaged(u.err)
	})
}

// pairs are keys with their values.
type pairs = iter.Seq2[[]byte, []byte]

// has reports whether there is such a bucket.
func (t *readTx) has(bucket []byte) bool {
	if t.unwalked != nil {
		return t.unwalked.has(bucket)
	}
	return t.tx.Bucket(bucket) != nil
}

// get returns the value of the key, nil when there is none.
func (t *readTx) get(bucket, key []byte) []byte {
	for k, v := range t.from(bucket, key) {
		if bytes.Equal(k, key) {
			return v
		}
		break
	}
	return nil
}

// last returns the bucket's last key, nil when it is empty.
func (t *readTx) last(bucket []byte) []byte {
	for k := range t.before(bucket, nil) {
		return k
	}
	return nil
}

// from returns the entries from the key on, all when it is nil.
func (t *readTx) from(bucket, key []byte) pairs {
	if t.unwalked != nil {
		return t.unwalked.over(bucket, span{key: key})
	}
	return func(yield func(k, v []byte) bool) {
		c := t.tx.Bucket(bucket).Cursor()
		for k, v := c.Seek(key); k != nil && yield(k, v); k, v = c.Next() {
		}
	}
}

// before returns the entries before the key, all when it is nil, the last first.
func (t *readTx) before(bucket, key []byte) pairs {
	if t.unwalked != nil {
		return t.unwalked.over(bucket, span{key: key, back: true})
	}
	return func(yield func(k, v []byte) bool) {
		c := t.tx.Bucket(bucket).Cursor()
		start := c.Prev
		if key == nil {
			start = c.Last
		} else if k, _ := c.Seek(key); k == nil {
			start = c.Last
		}
		for k, v := start(); k != nil && yield(k, v); k, v = c.Prev() {
		}
	}
}
