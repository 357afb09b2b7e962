package store_test

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
)

// forge changes the heading of a stream behind the store's back, with a good
// checksum.
func forge(t *testing.T, path string, id uint64, change func(h *record.Heading)) {
	t.Helper()
	tamper(t, path, func(tx *bolt.Tx) error {
		key, b := store.Number(id), tx.Bucket([]byte("headings"))
		v := b.Get(key)
		var h record.Heading
		if err := json.Unmarshal(v[1:len(v)-4], &h); err != nil {
			return err
		}
		change(&h)
		text, err := json.Marshal(h)
		if err != nil {
			return err
		}
		return b.Put(key, store.Frame(key, text))
	})
}

// hostile are texts that no event of this program can hold.
var hostile = []string{
	"\x1b[31m\x1b]0;x\a", "a\nb", "../../x", strings.Repeat("x", 5000), strings.Repeat("x", 1<<20),
}

// TestSalvageForgedHeading: a heading that no event could have made is none, and
// nothing of it hinders the rest from being recovered.
func TestSalvageForgedHeading(t *testing.T) {
	good := temp(t)
	kept, order := demo(t, good)
	uid := order[0]
	last := int64(len(kept[uid]))
	forgeries := map[string]func(h *record.Heading){
		"a number past all": func(h *record.Heading) { h.Head.N = 1 << 40 },
	}
	for _, bad := range hostile {
		forgeries[fmt.Sprintf("title %.10q of %d", bad, len(bad))] = func(h *record.Heading) { h.Title, h.Customer, h.Engine = bad, bad, bad }
		forgeries[fmt.Sprintf("uid %.10q of %d", bad, len(bad))] = func(h *record.Heading) { h.UID = bad }
		forgeries[fmt.Sprintf("last reading %.10q of %d", bad, len(bad))] = func(h *record.Heading) { h.LastKeyed, h.LastPlace.Level = bad, bad }
	}
	for name, change := range forgeries {
		t.Run(name, func(t *testing.T) {
			path := write(t, filepath.Join(t.TempDir(), "x.db"), read(t, good))
			forge(t, path, 1, change)
			data := spoiled(read(t, path), store.EventKey(1, 1), kept[uid][0])
			write(t, path, spoiled(data, store.EventKey(1, last), kept[uid][last-1]))
			s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil)
			if err != nil {
				t.Fatalf("%.200v", err)
			}
			if recovered, _, _, _ := s.Totals(); recovered < last-2 || !verified(t, s.Out).Sound {
				t.Errorf("%d events are recovered", recovered)
			}
			for _, x := range s.Streams {
				tells(t, x)
			}
		})
	}
}

// tells checks what is told of a session: no text is long, none holds what a
// terminal obeys.
func tells(t *testing.T, x store.Saved) {
	t.Helper()
	texts := []string{x.UID, x.Title}
	for _, g := range x.Gaps {
		for _, r := range g.Remains {
			texts = append(texts, r.Text)
		}
	}
	for _, text := range texts {
		if len(text) > 4<<10 || strings.ContainsFunc(text, unicode.IsControl) {
			t.Errorf("told %.100q, of %d bytes", text, len(text))
		}
	}
}

// TestSalvageForgedEvent: neither a damaged event with a long name nor one with a
// number past all hinders the rest from being recovered.
func TestSalvageForgedEvent(t *testing.T) {
	for name, event := range map[string]struct {
		n     int64
		value func(n int64, key []byte) []byte
	}{
		"a damaged one with a long name": {92, func(n int64, key []byte) []byte {
			line := fmt.Sprintf(`{"n":%d,"v":1,"at":"2026-03-10T10:00:00+01:00","is":"set","id":"%s"}`, n, strings.Repeat("long", 2000))
			v := store.Frame(key, []byte(line))
			v[len(v)-1] ^= 1
			return v
		}},
		"one with a number past all": {1<<32 - 1, func(n int64, key []byte) []byte {
			s, err := record.Seal(record.Event{At: time.Unix(0, 0), Body: record.Note{Text: "far"}}, record.Head{N: n - 1, Hash: strings.Repeat("A", 43)})
			if err != nil {
				t.Fatal(err)
			}
			return store.Frame(key, s.Bytes)
		}},
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			kept, order := demo(t, path)
			tamper(t, path, func(tx *bolt.Tx) error {
				key := store.EventKey(1, event.n)
				return tx.Bucket([]byte("events")).Put(key, event.value(event.n, key))
			})
			forge(t, path, 1, func(h *record.Heading) { h.Head.N = 92 })
			s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil)
			if err != nil {
				t.Fatalf("%.200v", err)
			}
			x := saved(t, s, order[0])
			if x.Events != int64(len(kept[order[0]])) || len(x.Lost) != 1 || !verified(t, s.Out).Sound {
				t.Errorf("%d events are recovered, %d lost", x.Events, len(x.Lost))
			}
			tells(t, x)
		})
	}
}

// TestSalvageNothingOfASession: a session of which only the heading is left is
// there with its title, and all its events are lost.
func TestSalvageNothingOfASession(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid, data := order[1], read(t, path)
	for i, line := range kept[uid] {
		data = spoiled(data, store.EventKey(2, int64(i)+1), line)
	}
	out := filepath.Join(t.TempDir(), "out.db")
	s, err := store.Salvage(write(t, path, data), out, nil)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, uid)
	if x.Events != 0 || len(x.Lost) != len(kept[uid]) || !strings.HasPrefix(x.Title, "Goat track") {
		t.Errorf("of %q %d events are recovered, %d lost", x.Title, x.Events, len(x.Lost))
	}
	events := load(t, open(t, out, store.Options{}), uid)
	replays(t, events)
	mended(t, events, kept[uid], x)
}
