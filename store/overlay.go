package store

import (
	"bytes"
	"slices"
)

// overlay is the rows of a tail as a reader sees them over the buckets.
type overlay []row

// get returns the value of the key; ok is false when the rows say nothing of it.
func (o overlay) get(bucket, key []byte) (value []byte, ok bool) {
	for _, r := range slices.Backward(o) {
		if bytes.Equal(r.key, key) && bytes.Equal(r.bucket, bucket) {
			return r.value, true
		}
	}
	return nil, false
}

// in returns the last row of each key of the bucket that is in the span, in its
// order.
func (o overlay) in(bucket []byte, s span) []row {
	var rows []row
	for _, r := range o {
		if !bytes.Equal(r.bucket, bucket) || !s.holds(r.key) {
			continue
		}
		at, found := slices.BinarySearchFunc(rows, r.key, func(a row, key []byte) int { return bytes.Compare(a.key, key) })
		if found {
			rows[at] = r
		} else {
			rows = slices.Insert(rows, at, r)
		}
	}
	if s.back {
		slices.Reverse(rows)
	}
	return rows
}

// holds reports whether a key is in the span.
func (s span) holds(key []byte) bool {
	if s.key == nil {
		return true
	}
	return s.back == (bytes.Compare(key, s.key) < 0)
}

// over returns the entries with the rows of the bucket among them.
func (o overlay) over(entries pairs, bucket []byte, s span) pairs {
	rows := o.in(bucket, s)
	if len(rows) == 0 {
		return entries
	}
	return func(yield func(k, v []byte) bool) {
		w := weave{rows: rows, back: s.back}
		for k, v := range entries {
			taken, more := w.before(k, yield)
			if !more || !taken && !yield(k, v) {
				return
			}
		}
		w.rest(yield)
	}
}

// weave puts rows among the entries of a bucket.
type weave struct {
	rows []row
	back bool
}

// before yields the rows that come before the key or in its place, which is taken
// then; more is false once yield wants no more.
func (w *weave) before(key []byte, yield func(k, v []byte) bool) (taken, more bool) {
	for len(w.rows) > 0 && !taken {
		order := bytes.Compare(w.rows[0].key, key)
		if w.back {
			order = -order
		}
		if order > 0 {
			break
		}
		if !w.next(yield) {
			return taken, false
		}
		taken = order == 0
	}
	return taken, true
}

// next yields the next row unless it takes its entry away.
func (w *weave) next(yield func(k, v []byte) bool) bool {
	r := w.rows[0]
	w.rows = w.rows[1:]
	return r.value == nil || yield(r.key, r.value)
}

// rest yields the rows behind the last entry.
func (w *weave) rest(yield func(k, v []byte) bool) {
	for len(w.rows) > 0 && w.next(yield) {
	}
}
