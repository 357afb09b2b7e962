package store_test

import (
	"path/filepath"
	"strings"
	"testing"

	"borewright/engine/record"
	"borewright/store"
)

// salvagedAgain spoils events of the first session of a database and salvages it into
// another.
func salvagedAgain(t *testing.T, path string, numbers ...int64) (out, title string) {
	t.Helper()
	db := open(t, path, store.Options{})
	headings, err := db.Headings(0)
	if err != nil {
		t.Fatal(err)
	}
	uid := headings[len(headings)-1].UID
	lines, err := db.Lines(uid)
	if err != nil {
		t.Fatal(err)
	}
	closed(t, db)
	data := read(t, path)
	for _, n := range numbers {
		data = spoiled(data, store.EventKey(1, n), lines[n-1])
	}
	out = filepath.Join(t.TempDir(), "out.db")
	if _, err := store.Salvage(write(t, filepath.Join(t.TempDir(), "bad.db"), data), out, nil); err != nil {
		t.Fatal(err)
	}
	db = open(t, out, store.Options{})
	events := load(t, db, uid)
	closed(t, db)
	d, _ := events[len(events)-1].Body.(record.Details)
	if strings.Count(d.Title, "SALVAGED") > 1 {
		t.Errorf("two marks: %q", d.Title)
	}
	return out, d.Title
}

// TestSalvageAgain: a session that is salvaged a second time has one mark in its
// title, which counts each event that is lost once.
func TestSalvageAgain(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	plain := int64(len(kept[order[0]])) // the last reading: nothing rests on it
	for name, try := range map[string]struct {
		first, second, third []int64
		want                 string
	}{
		"nothing new":          {[]int64{plain}, nil, nil, ""},
		"another one":          {[]int64{plain - 1}, []int64{plain}, nil, " (SALVAGED, 2 lost)"},
		"the note of the lost": {[]int64{plain - 1}, []int64{plain - 1}, nil, " (SALVAGED, 1 lost)"},
		"the first event":      {[]int64{1}, []int64{plain}, nil, " (SALVAGED, 2 lost)"},
		"the first, twice":     {[]int64{1}, []int64{1}, nil, " (SALVAGED, 1 lost)"},
		"the mark":             {[]int64{plain}, []int64{plain + 1}, nil, " (SALVAGED, 2 lost)"},
		"three times":          {[]int64{1, plain}, []int64{plain - 1}, []int64{plain - 2, plain}, " (SALVAGED, 4 lost)"},
	} {
		out, first := salvagedAgain(t, path, try.first...)
		out, title := salvagedAgain(t, out, try.second...)
		if len(try.third) > 0 {
			_, title = salvagedAgain(t, out, try.third...)
		}
		if try.want == "" && title != first || !strings.HasSuffix(title, try.want) || !strings.HasPrefix(title, "Kittiwake") {
			t.Errorf("%s: the title was %q and is %q", name, first, title)
		}
	}
}

// TestSalvageAgainOfTheAside: what was set aside by an earlier salvage stays counted.
func TestSalvageAgainOfTheAside(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	out, first := salvagedAgain(t, path, gaugeOf(t, kept[order[0]]))
	_, mark, _ := strings.Cut(first, " (SALVAGED, 1 lost, ")
	if _, title := salvagedAgain(t, out, int64(len(kept[order[0]]))); mark == "" || !strings.HasSuffix(title, " (SALVAGED, 2 lost, "+mark) {
		t.Errorf("the title was %q and is %q", first, title)
	}
}
