package store

import (
	"fmt"
	"slices"
	"sync"

	"borewright/engine/record"
)

// Mem is a store without a file. It behaves as a DB does and forgets
// everything when it is closed.
type Mem struct{ *book }

// Memory returns an empty store in memory.
func Memory(o Options) *Mem { return memory(&drawer{}, o) }

func memory(d *drawer, o Options) *Mem {
	o.hooks = o.hooks.filled()
	d.fault, d.closed = o.hooks.fault, false
	b := newBook(d, o)
	b.begin()
	return &Mem{b}
}

// drawer is the shelf of a Mem.
type drawer struct {
	mu     sync.Mutex
	kept   map[string][][]byte
	heads  map[string]record.Heading
	order  []string // uids, the newest touched last
	fault  func(string) error
	closed bool
}

func (d *drawer) heading(uid string) (record.Heading, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.closed {
		return record.Heading{}, ErrClosed
	}
	return d.heads[uid], nil
}

func (d *drawer) read(uid string, each lineReader) error {
	lines, err := d.lines(uid)
	give(lines, each)
	return err
}

func give(lines [][]byte, each lineReader) {
	for _, line := range lines {
		each(line, len(lines))
	}
}

func (d *drawer) lines(uid string) ([][]byte, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.closed {
		return nil, ErrClosed
	}
	lines, ok := d.kept[uid]
	if !ok && uid != record.ShopUID {
		return nil, fmt.Errorf("%w: %q", ErrNoSession, uid)
	}
	return slices.Clone(lines), nil
}

func (d *drawer) progress() int64 { return 0 }

func (d *drawer) settle() {}

func (d *drawer) headings(limit int) ([]record.Heading, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.closed {
		return nil, ErrClosed
	}
	var out []record.Heading
	for _, uid := range slices.Backward(d.order) {
		if limit > 0 && len(out) == limit {
			break
		}
		out = append(out, d.heads[uid])
	}
	return out, nil
}

func (d *drawer) commit(jobs []*job) (bool, error) {
	if err := d.fault("write"); err != nil {
		return false, explain("memory", err)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.kept == nil {
		d.kept, d.heads = map[string][][]byte{}, map[string]record.Heading{}
	}
	for _, j := range jobs {
		d.put(j)
	}
	return false, explain("memory", d.fault("written"))
}

func (d *drawer) put(j *job) {
	for _, s := range j.sealed {
		if s.N == int64(len(d.kept[j.uid]))+1 {
			d.kept[j.uid] = append(d.kept[j.uid], s.Bytes)
		}
	}
	d.heads[j.uid] = j.heading
	if j.uid != record.ShopUID {
		d.order = slices.DeleteFunc(d.order, func(uid string) bool { return uid == j.uid })
		d.order = append(d.order, j.uid)
	}
}

func (d *drawer) ready(func() bool) error { return nil }

func (d *drawer) rebuild() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	for uid, lines := range d.kept {
		h, err := fold(uid, func(each lineReader) error { give(lines, each); return nil })
		if err != nil {
			return err
		}
		d.heads[uid] = h
	}
	slices.SortStableFunc(d.order, func(a, b string) int {
		return d.heads[a].Last.Compare(d.heads[b].Last)
	})
	return nil
}

func (d *drawer) close() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.closed = true
	return nil
}
