package store

import (
	"bytes"
	"errors"
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
	tail     *tail     // nil where only the buckets are read
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
	for {
		err := f.bolt.View(func(tx *bolt.Tx) error { return f.readingIn(tx, read) })
		if !errors.Is(err, errOlder) {
			return err
		}
	}
}

// errOlder means that a transaction is older than what is known of the tail.
var errOlder = errors.New("the transaction is older than the tail")

func (f *file) readingIn(tx *bolt.Tx, read func(*readTx) error) error {
	walking := f.tailNow() // before it is known that nothing was written yet
	m := f.unwalked.Load()
	if m == nil {
		t, err := f.tailOver(tx)
		if err != nil {
			return err
		}
		return read(&readTx{tx: tx, tail: t})
	}
	u := newUnwalked(f.data, *m)
	err := read(&readTx{tx, u, walking})
	if u.err == nil {
		return err
	}
	return f.damaged(u.err)
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
	if v, ok := t.rows().get(bucket, key); ok {
		return v
	}
	for k, v := range t.kept(bucket, span{key: key}) {
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
func (t *readTx) from(bucket, key []byte) pairs { return t.over(bucket, span{key: key}) }

// before returns the entries before the key, all when it is nil, the last first.
func (t *readTx) before(bucket, key []byte) pairs { return t.over(bucket, span{key: key, back: true}) }

// over returns the entries of a bucket that are in the span.
func (t *readTx) over(bucket []byte, s span) pairs {
	return t.rows().over(t.kept(bucket, s), bucket, s)
}

// rows returns what is not in the buckets.
func (t *readTx) rows() overlay {
	if t.tail == nil {
		return nil
	}
	return t.tail.rows
}

// kept is over without the rows of the tail.
func (t *readTx) kept(bucket []byte, s span) pairs {
	if t.unwalked != nil {
		return t.unwalked.over(bucket, s)
	}
	return func(yield func(k, v []byte) bool) {
		c := t.tx.Bucket(bucket).Cursor()
		k, v, step := s.first(c)
		for ; k != nil && yield(k, v); k, v = step() {
		}
	}
}

// first returns the first entry of a cursor that is in the span, and the step to
// the next one.
func (s span) first(c *bolt.Cursor) (k, v []byte, step func() (k, v []byte)) {
	if !s.back {
		k, v = c.Seek(s.key)
		return k, v, c.Next
	}
	if s.key != nil {
		if at, _ := c.Seek(s.key); at != nil {
			k, v = c.Prev()
			return k, v, c.Prev
		}
	}
	k, v = c.Last()
	return k, v, c.Prev
}
