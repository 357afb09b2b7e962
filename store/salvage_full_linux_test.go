package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"borewright/store"
)

// TestSalvageOnAFullDisk: wherever the disk is full, all that was recovered is
// there with what was set aside, or nothing is.
func TestSalvageOnAFullDisk(t *testing.T) {
	onOwnDisk(t, "1m", func(dir string) {
		path := temp(t)
		kept, order := demo(t, path)
		n := gaugeOf(t, kept[order[0]])
		write(t, path, spoiled(read(t, path), store.EventKey(1, n), kept[order[0]][n-1]))
		filler, out := fill(t, dir), filepath.Join(dir, "out.db")
		info, err := os.Stat(filler)
		if err != nil {
			t.Fatal(err)
		}
		full, whole := 0, 0
		for free := int64(0); free < 40*int64(pageSize) && whole < 2; free += 4 << 10 {
			if err := os.Truncate(filler, info.Size()-free); err != nil {
				t.Fatal(err)
			}
			s, err := store.Salvage(path, out, nil)
			names, _ := filepath.Glob(filepath.Join(dir, "*"))
			hidden, _ := filepath.Glob(filepath.Join(dir, ".*"))
			switch there := len(names) + len(hidden) - 1; {
			case err == nil && there == 2 && s.Out == out && s.Beside == out+".aside.jsonl":
				whole++
				removed(t, s.Out, s.Beside)
			case errors.Is(err, store.ErrFull) && there == 0:
				full++
			default:
				t.Fatalf("with %d bytes free: %v, and %q, %q are there", free, err, names, hidden)
			}
		}
		if full == 0 || whole == 0 {
			t.Errorf("the disk was full %d times and held all %d times", full, whole)
		}
	})
}
