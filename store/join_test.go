package store_test

import (
	"bytes"
	"path/filepath"
	"slices"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// backwards makes a database with the demo's sessions in the other order, so that
// their ids are others, and without those that are left out.
func backwards(t *testing.T, kept truth, order []string, without ...string) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "other.db")
	db := open(t, path, store.Options{})
	for _, uid := range slices.Backward(order) {
		if slices.Contains(without, uid) {
			continue
		}
		if err := db.Append(uid, kept[uid]); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestSalvageWithOtherIDs: a copy in which the sessions have other ids, as they
// have in a database that was salvaged, completes each session with its own
// events, also one of which the first event is lost here.
func TestSalvageWithOtherIDs(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	good, copied := read(t, path), backwards(t, kept, order)
	for name, lost := range map[string][]int64{
		"a reading":                   {46},
		"the first":                   {1},
		"the first and others":        {1, 2, 50, 51},
		"the last, which one has not": {91},
	} {
		t.Run(name, func(t *testing.T) {
			bad := good
			for i, uid := range order {
				for _, n := range lost {
					if n <= int64(len(kept[uid])) {
						bad = spoiled(bad, store.EventKey(uint64(i+1), n), kept[uid][n-1])
					}
				}
			}
			out := filepath.Join(t.TempDir(), "out.db")
			s, err := store.Salvage(write(t, path, bad), out, nil, copied)
			if err != nil {
				t.Fatal(err)
			}
			db := open(t, out, store.Options{})
			for uid, lines := range kept {
				if x := saved(t, s, uid); !x.Complete() {
					t.Errorf("of %s %d events are recovered, lost %v, altered %v", uid, x.Events, x.Lost, x.Broken)
				}
				intact(t, load(t, db, uid), lines)
			}
			if len(s.Streams) != len(kept) {
				t.Errorf("%d streams, want %d", len(s.Streams), len(kept))
			}
		})
	}
}

// specked returns the file with the byte behind each of the parts of an event
// changed, in every copy of the event.
func specked(data, key, line []byte, parts ...string) []byte {
	what := append(bytes.Clone(key), store.Frame(key, line)...)
	bad := bytes.Clone(what)
	for _, part := range parts {
		bad[len(key)+1+bytes.Index(line, []byte(part))+len(part)] ^= 4
	}
	return bytes.ReplaceAll(data, what, bad)
}

// TestSalvageWithADamagedCopy: an event that is damaged beyond repair here and in one
// byte in a copy, in which its session has another id, is set right.
func TestSalvageWithADamagedCopy(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid, last := order[0], uint64(len(order))
	copied, n := backwards(t, kept, order), int64(46)
	line := kept[uid][n-1]
	write(t, path, specked(read(t, path), store.EventKey(1, n), line, `"keyed":"`, `"of":"`))
	write(t, copied, specked(read(t, copied), store.EventKey(last, n), line, `"set":"`))
	s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil, copied)
	if err != nil {
		t.Fatal(err)
	}
	if x := saved(t, s, uid); !x.Complete() || !slices.Equal(x.Restored, []int64{n}) {
		t.Errorf("lost %v, set right %v", x.Lost, x.Restored)
	}
}

// TestSalvageWithAnother: nothing of another database is taken for a part of a
// session of this one, whatever its ids; its sessions come too, and its shop does
// not.
func TestSalvageWithAnother(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[0]
	n, _, _ := readingOf(t, kept[uid], 40)
	bad := spoiled(read(t, path), store.EventKey(1, n), kept[uid][n-1])
	write(t, path, spoiled(bad, store.EventKey(0, 2), kept[record.ShopUID][1]))
	out, other := filepath.Join(t.TempDir(), "out.db"), filepath.Join(t.TempDir(), "other.db")
	db := open(t, other, store.Options{})
	long := storetest.Begin("long")
	for i := range 200 {
		long = append(long, storetest.Reading(i))
	}
	for name, events := range map[string][]record.Event{
		"long":         long,
		record.ShopUID: {storetest.Note("ours"), storetest.Note("too"), storetest.Note("and more")},
	} {
		if _, err := db.Keep(name, events...); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	s, err := store.Salvage(path, out, nil, other)
	if err != nil {
		t.Fatal(err)
	}
	if x := saved(t, s, uid); !slices.Equal(x.Lost, []int64{n}) || x.Broken != nil || x.Events != int64(len(kept[uid]))-1 {
		t.Errorf("of the session %d events are recovered, lost %v, altered %v", x.Events, x.Lost, x.Broken)
	}
	if x := saved(t, s, record.ShopUID); !slices.Equal(x.Lost, []int64{2}) || x.Events != 1 {
		t.Errorf("of the shop %d events are recovered, lost %v", x.Events, x.Lost)
	}
	if x := saved(t, s, "long"); x.Events != int64(len(long)) || !x.EndUnknown {
		t.Errorf("of the other session %d events are recovered", x.Events)
	}
}

// TestSalvageWithACopyThatWentOn: of a copy that was gone on with otherwise nothing
// stands in the place of what is lost, nor of what is intact.
func TestSalvageWithACopyThatWentOn(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid, other := order[0], filepath.Join(t.TempDir(), "other.db")
	lines, bad := kept[uid], read(t, path)
	db := open(t, other, store.Options{})
	if err := db.Append(uid, lines[:70]); err != nil {
		t.Fatal(err)
	}
	for range 15 {
		if _, err := db.Keep(uid, storetest.Note("otherwise")); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	lost := []int64{74, 75, 80}
	for _, n := range append([]int64{20}, lost...) {
		bad = spoiled(bad, store.EventKey(1, n), lines[n-1])
	}
	s, err := store.Salvage(write(t, path, bad), filepath.Join(t.TempDir(), "out.db"), nil, other)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, uid)
	if !slices.Equal(x.Lost, lost) || x.Broken != nil || x.Events != int64(len(lines)-len(lost)) {
		t.Errorf("%d events are recovered, lost %v, altered %v", x.Events, x.Lost, x.Broken)
	}
	mended(t, load(t, open(t, s.Out, store.Options{}), uid), lines, x)
}

// TestSalvageWithACopyThatHasMore: what a copy has behind the last event that is left
// here comes, although the copy has a gap of its own.
func TestSalvageWithACopyThatHasMore(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[0]
	lines, bad, copied := kept[uid], read(t, path), backwards(t, kept, order)
	for n := 11; n <= len(lines); n++ {
		bad = spoiled(bad, store.EventKey(1, int64(n)), lines[n-1])
	}
	write(t, copied, spoiled(read(t, copied), store.EventKey(uint64(len(order)), 50), lines[49]))
	s, err := store.Salvage(write(t, path, bad), filepath.Join(t.TempDir(), "out.db"), nil, copied)
	if err != nil {
		t.Fatal(err)
	}
	if x := saved(t, s, uid); !slices.Equal(x.Lost, []int64{50}) || x.Broken != nil {
		t.Errorf("lost %v, altered %v", x.Lost, x.Broken)
	}
}
