package store_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/store"
)

// changed returns the file with one bit of the last byte of the part of an event
// changed, in every copy of the event.
func changed(t *testing.T, data, key, line []byte, part string) []byte {
	t.Helper()
	within := bytes.Index(line, []byte(part))
	if within < 0 {
		t.Fatalf("%q is not in %s", part, line)
	}
	out := bytes.Clone(data)
	what := append(bytes.Clone(key), store.Frame(key, line)...)
	for at := bytes.Index(out, what); at >= 0; at = bytes.Index(out, what) {
		out[at+len(key)+1+within+len(part)-1] ^= 0x04
		out[at+len(what)-1] ^= 0x04 // one byte alone can be set right
	}
	return out
}

// readingOf returns the number of the first reading from n on.
func readingOf(t *testing.T, lines [][]byte, n int) (int64, record.Event, record.Reading) {
	t.Helper()
	for i := n - 1; i < len(lines); i++ {
		e, err := record.Decode(lines[i])
		if r, ok := e.Body.(record.Reading); ok && err == nil {
			return e.N, e, r
		}
	}
	t.Fatal("there is no reading")
	return 0, record.Event{}, record.Reading{}
}

// TestTheLostIsTold: a lost event is told by what of it can be read, without its
// figure, and by the intact events before and after, with the tree of the file and
// without it.
func TestTheLostIsTold(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid, good := order[0], read(t, path)
	n, e, r := readingOf(t, kept[uid], len(kept[uid])/2)
	sealed, err := record.Verify(kept[uid])
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay(sealed)
	if err != nil {
		t.Fatal(err)
	}
	clock := e.At.Format("2006-01-02 15:04")
	for part, want := range map[string]string{
		`"keyed":"` + r.Keyed: "perhaps a reading of " + s.PlaceName(r.Place()) + ", " + clock,
		`"level":"` + r.Level: "perhaps a reading of " + s.PlaceName(placeWithoutLevel(r)) + ", " + clock,
		`"of":"`:              "perhaps a reading, " + clock,
		`"is":"reading`:       "perhaps something, " + clock,
		`"at":"2026`:          "perhaps a reading of " + s.PlaceName(r.Place()) + ", 2022" + clock[4:],
	} {
		bad := changed(t, good, store.EventKey(1, n), kept[uid][n-1], part)
		headless := bytes.Clone(bad)
		clear(headless[:2*pageSize])
		for name, data := range map[string][]byte{"whole": bad, "headless": headless} {
			write(t, path, data)
			got, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil)
			if err != nil {
				t.Fatal(err)
			}
			gapIs(t, part+" "+name, saved(t, got, uid), n, want, s)
		}
		write(t, path, bad)
		text := fmt.Sprintf("event %d cannot be read: its checksum does not match; it was %s", n, want)
		if said := sentences(verified(t, path)); !strings.Contains(said, text) {
			t.Errorf("%s: verify says %q, want %q", part, said, text)
		}
	}
}

func placeWithoutLevel(r record.Reading) plan.Place {
	p := r.Place()
	p.Level = ""
	return p
}

// gapIs checks the one gap of a session of which event n is lost.
func gapIs(t *testing.T, name string, x store.Saved, n int64, want string, s *engine.Session) {
	t.Helper()
	if len(x.Gaps) != 1 || !slices.Equal(x.Lost, []int64{n}) {
		t.Errorf("%s: lost %v, %+v", name, x.Lost, x.Gaps)
		return
	}
	g := x.Gaps[0]
	if g.First != n || g.Last != n || len(g.Remains) != 1 || g.Remains[0].Text != want || g.Remains[0].N != n {
		t.Errorf("%s: told as %+v, want %q", name, g.Remains, want)
	}
	log := s.Log()
	if g.After == nil || g.After.N != n-1 || g.After.Text != log[n-2].Text {
		t.Errorf("%s: it came after %+v", name, g.After)
	}
	if g.Before == nil || g.Before.N != n+1 || g.Before.Text != log[n].Text {
		t.Errorf("%s: it came before %+v", name, g.Before)
	}
}

// TestTheLastLostReadingIsTold: what was keyed last stands in the list of sessions
// too, whole, when the pages of the events are gone.
func TestTheLastLostReadingIsTold(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[0]
	var last int64
	var r record.Reading
	for n := int64(1); int(n) <= len(kept[uid]); {
		at, _, reading := readingOf(t, kept[uid], int(n))
		last, r, n = at, reading, at+1
		if !slices.ContainsFunc(kept[uid][at:], func(l []byte) bool { return bytes.Contains(l, []byte(`"is":"reading"`)) }) {
			break
		}
	}
	write(t, path, spoiled(read(t, path), store.EventKey(1, last), kept[uid][last-1]))
	s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil)
	if err != nil {
		t.Fatal(err)
	}
	x := saved(t, s, uid)
	if len(x.Gaps) != 1 || len(x.Gaps[0].Remains) != 1 {
		t.Fatalf("it says %+v", x.Gaps)
	}
	text := x.Gaps[0].Remains[0].Text
	if !strings.HasPrefix(text, "a reading of ") || !strings.Contains(text, ", keyed "+r.Keyed+", ") {
		t.Errorf("the reading keyed %s is told as %q", r.Keyed, text)
	}
}

// TestPlacesWithoutALayout: where the layout is lost it is said that places are
// named by their position.
func TestPlacesWithoutALayout(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid, good := order[0], read(t, path)
	for part, want := range map[string]bool{`"is":"layout"`: true, `"is":"plan"`: false, `"is":"reading"`: false} {
		n := slices.IndexFunc(kept[uid], func(l []byte) bool { return bytes.Contains(l, []byte(part)) })
		write(t, path, spoiled(good, store.EventKey(1, int64(n)+1), kept[uid][n]))
		s, err := store.Salvage(path, filepath.Join(t.TempDir(), "out.db"), nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := saved(t, s, uid).ByPosition; got != want {
			t.Errorf("without its %s: %t", part, got)
		}
	}
}
