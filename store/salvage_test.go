package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/store"
)

// saved returns what salvage made of a session.
func saved(t *testing.T, s store.Salvaged, uid string) store.Saved {
	t.Helper()
	i := slices.IndexFunc(s.Streams, func(x store.Saved) bool { return x.UID == uid })
	if i < 0 {
		t.Fatalf("session %s is not among the %d", uid, len(s.Streams))
	}
	return s.Streams[i]
}

// same reports whether two events say the same, whatever their hashes.
func same(a, b record.Event) bool {
	return a.N == b.N && a.At.Equal(b.At) && a.By == b.By && reflect.DeepEqual(a.Body, b.Body)
}

// TestSalvageSound: what is not damaged comes back byte for byte, in the same
// order, and the file it came from is not written.
func TestSalvageSound(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	before := read(t, path)
	out := filepath.Join(t.TempDir(), "out.db")
	s, err := store.Salvage(path, out, nil)
	if err != nil {
		t.Fatal(err)
	}
	if recovered, lost, aside, newer := s.Totals(); lost+aside+newer != 0 || recovered == 0 || s.Beside != "" {
		t.Errorf("%d recovered, %d lost, %d aside, %d newer", recovered, lost, aside, newer)
	}
	db := open(t, out, store.Options{})
	for uid, lines := range kept {
		intact(t, load(t, db, uid), lines)
		if x := saved(t, s, uid); !x.Complete() || x.Whole != x.Now || x.Now.N != int64(len(lines)) {
			t.Errorf("of %s it says %+v", uid, x)
		}
	}
	headings, err := db.Headings(0)
	if err != nil || len(headings) != len(order) || headings[0].UID != order[len(order)-1] {
		t.Errorf("the list is %v, %v", headings, err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the damaged file was written")
	}
}

// TestSalvageTells: it tells how far it has come, one step after the other.
func TestSalvageTells(t *testing.T) {
	path := temp(t)
	demo(t, path) // three sessions and the shop
	var told []string
	if _, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), func(s store.Step) {
		told = append(told, fmt.Sprintf("%s %d/%d", s.Doing, s.N, s.Of))
	}); err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(told, ", "), "searching 0/0, "+
		"putting together 1/4, putting together 2/4, putting together 3/4, putting together 4/4, "+
		"writing 1/4, writing 2/4, writing 3/4, writing 4/4, checking 0/0"; got != want {
		t.Errorf("it told %s", got)
	}
}

// TestSalvageAGap loses one event after another: the rest comes back with its
// numbers, the session opens, and its title says what is missing.
func TestSalvageAGap(t *testing.T) {
	dir := fastDir(t)
	path := filepath.Join(dir, "x.db")
	kept, order := demo(t, path)
	good := read(t, path)
	uid := order[0]
	for n := int64(1); n <= int64(len(kept[uid])); n += 3 {
		bad := write(t, filepath.Join(dir, "bad.db"), spoiled(good, store.EventKey(1, n), kept[uid][n-1]))
		out := filepath.Join(dir, "out"+string(rune('A'+n%26))+".db")
		s, err := store.Salvage(bad, out, nil)
		if err != nil {
			t.Fatal(err)
		}
		x := saved(t, s, uid)
		if !slices.Equal(x.Lost, []int64{n}) || x.Whole.N != n-1 || x.Events+int64(len(x.Aside)) != int64(len(kept[uid]))-1 {
			t.Fatalf("without event %d: %+v", n, x)
		}
		db := open(t, out, store.Options{})
		events := load(t, db, uid)
		mended(t, events, kept[uid], x)
		replays(t, events)
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		removed(t, out, s.Beside)
	}
}

// spoiled returns the file with every copy of an event damaged.
func spoiled(data, key, line []byte) []byte {
	out := bytes.Clone(data)
	what := append(bytes.Clone(key), store.Frame(key, line)...)
	for at := bytes.Index(out, what); at >= 0; at = bytes.Index(out, what) {
		out[at+len(what)/2] ^= 0x04
		out[at+len(what)/2+1] ^= 0x04 // one alone can be set right
	}
	return out
}

// mended checks a session with something missing against what was kept of it:
// each event is the one that was, or a note that says why it is not.
func mended(t *testing.T, events []record.Sealed, lines [][]byte, x store.Saved) {
	t.Helper()
	if x.Complete() {
		intact(t, events, lines)
		return
	}
	for i, e := range events {
		n := int64(i) + 1
		switch {
		case slices.Contains(x.Lost, n) || slices.Contains(x.Aside, n):
			_, note := e.Body.(record.Note)
			if _, first := e.Body.(record.Details); !note && (!first || n != 1) {
				t.Errorf("in the place of event %d stands a %s", n, e.Is())
			}
		case i == len(events)-1 && x.UID != record.ShopUID && marksTheEnd(e):
		case i < len(lines):
			was, err := record.Decode(lines[i])
			if err != nil || !same(was, e.Event) {
				t.Errorf("event %d is another one: %v", n, e.Event)
			}
		default:
			t.Errorf("event %d never was", n)
		}
	}
}

// marksTheEnd reports whether an event is the title that says what is missing.
func marksTheEnd(e record.Sealed) bool {
	d, ok := e.Body.(record.Details)
	return ok && strings.Contains(d.Title, "SALVAGED")
}

// replays checks that a session can be opened and judged.
func replays(t *testing.T, events []record.Sealed) {
	t.Helper()
	s, err := engine.Replay(events)
	if err != nil {
		t.Errorf("it does not open: %v", err)
		return
	}
	engine.Assess(s)
}

// TestSalvageLostDetails: a session whose beginning is gone has its name from
// the list of sessions.
func TestSalvageLostDetails(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[1]
	write(t, path, spoiled(read(t, path), store.EventKey(2, 1), kept[uid][0]))
	out := filepath.Join(t.TempDir(), "out.db")
	s, err := store.Salvage(path, out, nil)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, uid)
	was, _ := record.Decode(kept[uid][0])
	if d := was.Body.(record.Details); x.Title != d.Title || !slices.Equal(x.Lost, []int64{1}) || len(x.Aside) != 0 {
		t.Errorf("it is %+v, was %+v", x, d)
	}
	replays(t, load(t, open(t, out, store.Options{}), uid))
}

// TestSalvageWhatRestsOnTheLost: events that cannot stand without a lost one
// are kept word for word beside the database.
func TestSalvageWhatRestsOnTheLost(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[0]
	n := slices.IndexFunc(kept[uid], func(line []byte) bool { return bytes.Contains(line, []byte(`"is":"plan"`)) })
	write(t, path, spoiled(read(t, path), store.EventKey(1, int64(n)+1), kept[uid][n]))
	out := filepath.Join(t.TempDir(), "out.db")
	s, err := store.Salvage(path, out, nil)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, uid)
	if len(x.Aside) == 0 || s.Beside != out+".aside.jsonl" {
		t.Fatalf("nothing was set aside: %+v, %q", x, s.Beside)
	}
	var want [][]byte
	for i, n := range x.Aside {
		want = append(want, kept[uid][n-1])
		was, _ := record.Decode(kept[uid][n-1])
		told := x.Strays[i]
		if told.N != n || !told.At.Equal(was.At) || told.Is != was.Is() || told.Why == "" || strings.Contains(told.Why, "event") {
			t.Errorf("event %d is told as %+v", n, told)
		}
		if r, ok := was.Body.(record.Reading); ok && !strings.Contains(told.Text, "keyed "+r.Keyed) {
			t.Errorf("event %d, keyed %s, is told as %q", n, r.Keyed, told.Text)
		}
	}
	if got := read(t, s.Beside); !bytes.Equal(got, append(bytes.Join(want, []byte("\n")), '\n')) {
		t.Errorf("beside it lies\n%s", got)
	}
	events := load(t, open(t, out, store.Options{}), uid)
	mended(t, events, kept[uid], x)
	replays(t, events)
}

// TestSalvageWithABackup: what the file lost comes from a copy of it.
func TestSalvageWithABackup(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	good := read(t, path)
	copied := write(t, path+".copy", good)
	write(t, path, spoiled(good, store.EventKey(1, 9), kept[order[0]][8]))
	s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil, copied)
	if err != nil {
		t.Fatal(err)
	}
	if x := saved(t, s, order[0]); !x.Complete() || x.Events != int64(len(kept[order[0]])) {
		t.Errorf("it says %+v", x)
	}
}

// TestSalvageAltered: an event that was altered with its checksum is not passed
// off as what was kept.
func TestSalvageAltered(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	key := store.EventKey(1, 6)
	tamper(t, path, func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte("events"))
		line := bytes.Replace(kept[order[0]][5], []byte(`"by":"`), []byte(`"by":"Z`), 1)
		return b.Put(key, store.Frame(key, line))
	})
	bad := spoiled(read(t, path), key, kept[order[0]][5]) // the older copies
	write(t, path, bad)
	out := filepath.Join(t.TempDir(), "out.db")
	s, err := store.Salvage(path, out, nil)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, order[0])
	if !slices.Equal(x.Broken, []int64{7}) || x.Whole.N != 6 {
		t.Errorf("it says %+v", x)
	}
	events := load(t, open(t, out, store.Options{}), order[0])
	if d, ok := events[len(events)-1].Body.(record.Details); !ok || !strings.Contains(d.Title, "SALVAGED, altered") {
		t.Errorf("at the end stands %v", events[len(events)-1].Body)
	}
}

// TestSalvageRefuses: nothing is made where nothing can be.
func TestSalvageRefuses(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	dir := t.TempDir()
	there := write(t, filepath.Join(dir, "there.db"), []byte("theirs"))
	write(t, filepath.Join(dir, "e.db.aside.jsonl"), []byte("theirs"))
	text := write(t, filepath.Join(dir, "text"), bytes.Repeat([]byte("shells "), 9999))
	for name, try := range map[string]struct {
		path, out string
		want      error
	}{
		"over a file":           {path, there, store.ErrExists},
		"over itself":           {path, path, store.ErrExists},
		"over a file of events": {path, filepath.Join(dir, "e.db"), store.ErrExists},
		"into no folder":        {path, filepath.Join(dir, "no", "out.db"), store.ErrNoFolder},
		"of another program":    {text, filepath.Join(dir, "a.db"), store.ErrNotOurs},
		"of a folder":           {dir, filepath.Join(dir, "b.db"), store.ErrNotOurs},
		"a name too long":       {path, filepath.Join(dir, strings.Repeat("x", 244)), store.ErrLongName},
		"of nothing":            {filepath.Join(dir, "gone"), filepath.Join(dir, "c.db"), store.ErrDisk},
	} {
		if _, err := store.Salvage(try.path, try.out, nil); !errors.Is(err, try.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	db := open(t, path, store.Options{})
	if _, err := store.Salvage(path, filepath.Join(dir, "d.db"), nil); !errors.Is(err, store.ErrBusy) {
		t.Errorf("of a database that is open: %v", err)
	}
	if _, err := store.Verify(path); !errors.Is(err, store.ErrBusy) {
		t.Errorf("verify one that is open: %v", err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil || len(names) != 3 {
		t.Errorf("the folder holds %v", names)
	}
}

// TestSalvageNames: the file of what was set aside is named as the new database is,
// whatever its name, and is looked for under that name.
func TestSalvageNames(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	n := int64(13)
	write(t, path, spoiled(read(t, path), store.EventKey(1, n), kept[order[0]][n-1]))
	for _, name := range []string{".hidden.db", "a*b.db", strings.Repeat("x", 220) + ".db"} {
		out := filepath.Join(t.TempDir(), name)
		s, err := store.Salvage(path, out, nil)
		if err != nil || s.Beside != out+".aside.jsonl" {
			t.Fatalf("%.20q: %v, %q", name, err, s.Beside)
		}
		if text := read(t, s.Beside); bytes.Count(text, []byte("\n")) != len(saved(t, s, order[0]).Aside) {
			t.Errorf("%.20q: it has %d bytes", name, len(text))
		}
		removed(t, s.Out)
		if _, err := store.Salvage(path, out, nil); !errors.Is(err, store.ErrExists) {
			t.Errorf("%.20q beside an older file: %v", name, err)
		}
	}
}
