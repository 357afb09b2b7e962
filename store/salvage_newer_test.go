package store_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
)

// madeNewer makes events of the first session of a database those of a newer vocabulary,
// chained as a newer program would, and returns them.
func madeNewer(t *testing.T, path string, lines [][]byte, numbers ...int64) (newer [][]byte) {
	t.Helper()
	tamper(t, path, func(tx *bolt.Tx) error {
		sum := ""
		for i, line := range lines {
			n := int64(i) + 1
			if at := bytes.LastIndex(line, []byte(`"prev":"`)); i > 0 {
				line = fmt.Appendf(nil, `%s"prev":"%s"}`, line[:at], sum)
			}
			if slices.Contains(numbers, n) {
				line = version.ReplaceAll(line, []byte(`$1"v":99,`))
				newer = append(newer, line)
			}
			sum = record.SumOf(line)
			key := store.EventKey(1, n)
			if err := tx.Bucket([]byte("events")).Put(key, store.Frame(key, line)); err != nil {
				return err
			}
		}
		return nil
	})
	return newer
}

// version is where an event says of which vocabulary it is.
var version = regexp.MustCompile(`^({"n":\d+,)"v":\d+,`)

// TestSalvageNewer: intact events of a newer vocabulary are not lost: they lie byte
// for byte beside the new database, and are told apart.
func TestSalvageNewer(t *testing.T) {
	for _, numbers := range [][]int64{{1}, {12}, {30, 31}} {
		path := temp(t)
		kept, order := demo(t, path)
		uid := order[0]
		last := int64(len(kept[uid]))
		newer := madeNewer(t, path, kept[uid], append(numbers, last)...)
		out := filepath.Join(t.TempDir(), "out.db")
		s, err := store.Salvage(path, out, nil)
		if err != nil {
			t.Fatal(err)
		}
		x := saved(t, s, uid)
		if len(x.Lost) != 0 || s.Unknown != 0 || x.Complete() || x.Whole.N != numbers[0]-1 {
			t.Errorf("with newer events %v: %+v, %d unknown", numbers, x, s.Unknown)
		}
		beside := read(t, s.Beside)
		for _, line := range newer {
			if !bytes.Contains(beside, append(line, '\n')) {
				t.Errorf("beside it does not lie %s", line)
			}
		}
		events := load(t, open(t, out, store.Options{}), uid)
		replays(t, events)
		if d, ok := events[len(events)-1].Body.(record.Details); !ok || !strings.Contains(d.Title, fmt.Sprintf(", %d newer)", len(newer))) {
			t.Errorf("at the end stands %v", events[len(events)-1].Body)
		}
	}
}
