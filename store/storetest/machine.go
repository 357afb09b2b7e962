package storetest

import (
	"errors"
	"maps"
	"slices"
	"syscall"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/record"
	"borewright/store"
)

// twin is a store as a plain map.
type twin struct {
	streams map[string][]string
	order   []string // the newest touched last
}

func (w *twin) take(uid string, events []record.Sealed) {
	for _, s := range events {
		w.streams[uid] = append(w.streams[uid], string(s.Bytes))
	}
	if uid != record.ShopUID {
		w.order = append(slices.DeleteFunc(w.order, func(u string) bool { return u == uid }), uid)
	}
}

// machine does random things to a store and to a plain map and compares them.
func machine(t *testing.T, bench func(t *testing.T) Bench) {
	t.Helper()
	rapid.Check(t, func(r *rapid.T) {
		d := newQuietDesk(t, bench)
		defer d.finish()
		w := &twin{streams: map[string][]string{}}
		uids := rapid.SampledFrom([]string{"a", "b", "c", record.ShopUID})
		broken := false
		r.Repeat(map[string]func(*rapid.T){
			"keep":   func(r *rapid.T) { keepSome(r, d, w, uids.Draw(r, "uid")) },
			"load":   func(r *rapid.T) { compare(r, d, w, uids.Draw(r, "uid")) },
			"import": func(r *rapid.T) { appendSome(r, d, w, uids.Draw(r, "uid"), broken) },
			"break": func(r *rapid.T) {
				broken = true
				d.failing(rapid.SampledFrom([]string{"write", "written"}).Draw(r, "stage"), syscall.ENOSPC)
			},
			"mend":  func(*rapid.T) { broken = false; d.bench.Fault(nil) },
			"retry": func(*rapid.T) { d.Retry() },
			"reopen": func(*rapid.T) {
				if !broken {
					d.reopen()
				}
			},
			"rebuild": func(r *rapid.T) {
				if err := d.Rebuild(); err != nil && !broken {
					r.Fatal(err)
				}
			},
			"": func(r *rapid.T) { listed(r, d, w) },
		})
	})
}

// newQuietDesk is newDesk for the many runs of one test.
func newQuietDesk(t *testing.T, bench func(t *testing.T) Bench) *desk {
	t.Helper()
	d := &desk{t: t, bench: bench(t)}
	d.open()
	return d
}

func more(r *rapid.T, w *twin, uid string) []record.Event {
	n := len(w.streams[uid])
	var events []record.Event
	switch {
	case uid == record.ShopUID:
		return []record.Event{Note("a remark")}
	case n == 0:
		events = Begin(uid)
	}
	for i := range rapid.IntRange(0, 4).Draw(r, "readings") {
		events = append(events, Reading(n+i))
	}
	return events
}

func keepSome(r *rapid.T, d *desk, w *twin, uid string) {
	events := more(r, w, uid)
	s, err := d.Keep(uid, events...)
	if err != nil || len(s) != len(events) {
		r.Fatalf("keep %d events of %q: %d, %v", len(events), uid, len(s), err)
	}
	if len(s) > 0 {
		w.take(uid, s)
	}
}

// appendSome imports. An import that fails may be kept, or may wait behind
// others, or be gone: the store says which.
func appendSome(r *rapid.T, d *desk, w *twin, uid string, broken bool) {
	head, err := d.Head(uid)
	if err != nil {
		r.Fatal(err)
	}
	var lines [][]byte
	var sealed []record.Sealed
	for _, e := range more(r, w, uid) {
		s, err := record.Seal(e, head)
		if err != nil {
			r.Fatal(err)
		}
		lines, sealed, head = append(lines, s.Bytes), append(sealed, s), s.Head
	}
	if err := d.Append(uid, lines); err != nil && !broken {
		r.Fatalf("append to %q: %v", uid, err)
	}
	now, err := d.Head(uid)
	if err != nil || now != head && !broken {
		r.Fatalf("head of %q: %v %v, want %v", uid, now, err, head)
	}
	if len(sealed) > 0 && now == head {
		w.take(uid, sealed)
	}
}

func compare(r *rapid.T, d *desk, w *twin, uid string) {
	events, err := d.Load(uid)
	want := w.streams[uid]
	if len(want) == 0 && uid != record.ShopUID {
		if !errors.Is(err, store.ErrNoSession) {
			r.Fatalf("load %q: %v", uid, err)
		}
		return
	}
	same := slices.EqualFunc(events, want, func(s record.Sealed, line string) bool { return Is(s, []byte(line)) })
	if err != nil || !same {
		r.Fatalf("load %q: %d events, want %d: %v", uid, len(events), len(want), err)
	}
}

// listed compares the sessions listed; a rebuild may change their order.
func listed(r *rapid.T, d *desk, w *twin) {
	headings, err := d.Headings(0)
	if err != nil {
		r.Fatal(err)
	}
	got := map[string]int64{}
	for _, h := range headings {
		got[h.UID] = h.Head.N
	}
	want := map[string]int64{}
	for _, uid := range w.order {
		want[uid] = int64(len(w.streams[uid]))
	}
	if !maps.Equal(got, want) || len(headings) != len(want) {
		r.Fatalf("listed %v, want %v", got, want)
	}
}
