package engine_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/record"
)

// TestLayouts assesses an invented session of every layout, written by hand,
// and holds it to what was worked out beside it: -update writes it anew.
func TestLayouts(t *testing.T) {
	files, err := filepath.Glob("../testdata/layouts/*.json")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d sessions of layouts, %v", len(files), err)
	}
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) {
			s := plainSession(t, path)
			got := strings.Join(engine.Assess(s).Whole(s), "\n") + "\n"
			beside := strings.TrimSuffix(path, ".json") + ".txt"
			if *update {
				if err := os.WriteFile(beside, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(beside)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("now:\n%s\nbeside it:\n%s", got, want)
			}
		})
	}
}

// plainSession replays a file in the plain form.
func plainSession(t *testing.T, path string) *engine.Session {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() //nolint:errcheck // it was only read
	file, err := record.ReadFile(f)
	if err != nil {
		t.Fatal(err)
	}
	events, err := file.Plain.Events("layout", day, "ek")
	if err != nil {
		t.Fatal(err)
	}
	bodies := make([]record.Body, len(events))
	for i, e := range events {
		bodies[i] = e.Body
	}
	return replay(t, bodies)
}
