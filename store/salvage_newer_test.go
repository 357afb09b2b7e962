package store_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
)

// newerFrom makes the events of the first session of a database from a number on
// those of a newer vocabulary, chained as a newer program would, and returns them.
func newerFrom(t *testing.T, path string, lines [][]byte, numbers ...int64) (newer, rest [][]byte) {
	t.Helper()
	tamper(t, path, func(tx *bolt.Tx) error {
		sum := ""
		for i, line := range lines {
			n, at := int64(i)+1, bytes.LastIndex(line, []byte(`"prev":"`))
			if i > 0 {
				line = fmt.Appendf(nil, `%s"prev":"%s"}`, line[:at], sum)
			}
			if i == len(lines) {
				break
			}
			of := &rest
			for _, want := range numbers {
				if want == n {
					e, err := record.Decode(line)
					if err != nil {
						return err
					}
					line = bytes.Replace(line, fmt.Appendf(nil, `"v":%d,`, e.V), []byte(`"v":99,`), 1)
					of = &newer
				}
			}
			*of, sum = append(*of, line), record.SumOf(line)
			key := store.EventKey(1, n)
			if err := tx.Bucket([]byte("events")).Put(key, store.Frame(key, line)); err != nil {
				return err
			}
		}
		return nil
	})
	return newer, rest
}

// TestSalvageNewer: intact events of a newer vocabulary are not lost: they lie byte
// for byte beside the new database, and are told apart.
func TestSalvageNewer(t *testing.T) {
	for _, numbers := range [][]int64{{1}, {12}, {30, 31}} {
		path := temp(t)
		kept, order := demo(t, path)
		uid := order[0]
		last := int64(len(kept[uid]))
		newer, _ := newerFrom(t, path, kept[uid], append(numbers, last)...)
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
