package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/store"
	"borewright/testdata"
)

// demoFile is the database of a demo in a folder of its own.
func demoFile(t *testing.T) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "demo.db")
}

// diskWorld is a world with a real disk and no terminal.
func diskWorld() World {
	w := processWorld()
	w.In, w.Out, w.Err = strings.NewReader(""), io.Discard, io.Discard
	w.Now = func() time.Time { return time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC) }
	w.Terminal = func() bool { return false }
	return w
}

// on opens the database at path for use, which must succeed.
func on(t *testing.T, path string, use func(Book) error) {
	t.Helper()
	if err := withBook(diskWorld(), path, use); err != nil {
		t.Fatal(err)
	}
}

// layNamed lays one of the demo's sessions into the database.
func layNamed(t *testing.T, path, name string) error {
	t.Helper()
	events, session, err := demoSession(diskWorld(), name)
	if err != nil {
		t.Fatal(err)
	}
	return withBook(diskWorld(), path, func(b Book) error {
		uid, err := layDemo(b, path, events)
		if err == nil && uid != session.Details().UID {
			t.Errorf("%s was laid as %q", name, uid)
		}
		return err
	})
}

func TestDemoIsLaidOnce(t *testing.T) {
	t.Parallel()
	path := demoFile(t)
	names := testdata.Names()
	for range 2 {
		for _, name := range names {
			if err := layNamed(t, path, name); err != nil {
				t.Fatal(err)
			}
		}
	}
	on(t, path, func(b Book) error {
		hs, err := b.Headings(0)
		if len(hs) != len(names) {
			t.Errorf("%d sessions are there, want %d", len(hs), len(names))
		}
		if state, _ := demoStateOf(b); state != demoBook {
			t.Errorf("its state is %d", state)
		}
		return err
	})
}

// What was measured on in the demo is there when it is opened again.
func TestDemoIsResumed(t *testing.T) {
	t.Parallel()
	path := demoFile(t)
	if err := layNamed(t, path, "one-bore"); err != nil {
		t.Fatal(err)
	}
	on(t, path, func(b Book) error {
		_, err := b.Keep("demo-one-bore", record.Event{At: time.Unix(1, 0), Body: record.Note{Text: "seen"}})
		return err
	})
	if err := layNamed(t, path, "one-bore"); err != nil {
		t.Fatal(err)
	}
	on(t, path, func(b Book) error {
		events, err := b.Load("demo-one-bore")
		if last := events[len(events)-1]; last.Body != (record.Note{Text: "seen"}) {
			t.Errorf("the last event is %+v", last.Event)
		}
		return err
	})
}

// realBook makes a database that is not the demo's.
func realBook(t *testing.T, path string, stream string, body record.Body) {
	t.Helper()
	on(t, path, func(b Book) error {
		_, err := b.Keep(stream, record.Event{At: time.Unix(1, 0), Body: body})
		return err
	})
}

func TestDemoLeavesOthersAlone(t *testing.T) {
	t.Parallel()
	for name, make := range map[string]func(path string){
		"session": func(path string) { realBook(t, path, "mine", record.Details{UID: "mine", Title: "Mine", Unit: 1}) },
		"shop":    func(path string) { realBook(t, path, "", record.Note{Text: "the shop's"}) },
		"demo's uid": func(path string) {
			realBook(t, path, "demo-launch", record.Details{UID: "demo-launch", Title: "imported", Unit: 1})
		},
		"no database": func(path string) {
			if err := os.WriteFile(path, []byte("something else, and not short of it"), 0o600); err != nil {
				t.Fatal(err)
			}
		},
	} {
		path := demoFile(t)
		make(path)
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := layNamed(t, path, "one-bore"); err == nil {
			t.Errorf("%s: the demo was laid", name)
		}
		if _, err := demoAside(diskWorld(), path, ""); err == nil {
			t.Errorf("%s: it was put aside", name)
		}
		if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
			t.Errorf("%s: it was changed, %v", name, err)
		}
	}
}

func TestDemoAside(t *testing.T) {
	t.Parallel()
	path := demoFile(t)
	if notice, err := demoAside(diskWorld(), path, "Hello."); notice != "Hello." || err != nil {
		t.Errorf("without a demo it said %q, %v", notice, err)
	}
	if err := layNamed(t, path, "one-bore"); err != nil {
		t.Fatal(err)
	}
	notice, err := demoAside(diskWorld(), path, "Hello.")
	if notice != "Hello. The old one is demo-2026-03-02-080000.db now." || err != nil {
		t.Errorf("said %q, %v", notice, err)
	}
	if exists(path) || !exists(filepath.Join(filepath.Dir(path), "demo-2026-03-02-080000.db")) {
		t.Error("the old demo did not move")
	}
	if err := layNamed(t, path, "one-bore"); err != nil {
		t.Fatal(err)
	}
	if _, err := demoAside(diskWorld(), path, ""); !errors.Is(err, fs.ErrExist) || !exists(path) {
		t.Errorf("in the same second it said %v", err)
	}
}

func TestDemoAsideWhileOpen(t *testing.T) {
	t.Parallel()
	path := demoFile(t)
	if err := layNamed(t, path, "one-bore"); err != nil {
		t.Fatal(err)
	}
	on(t, path, func(Book) error {
		if _, err := demoAside(diskWorld(), path, ""); !errors.Is(err, store.ErrBusy) {
			t.Errorf("said %v", err)
		}
		return nil
	})
}

func TestDemoPath(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for real, want := range map[string]string{
		filepath.Join(dir, "borewright.db"):   filepath.Join(dir, "demo.db"),
		filepath.Join(dir, "x", "demo.db"):    "",
		filepath.Join(dir, "x", "./demo.db"):  "",
		filepath.Join(dir, "x", "..", "a.db"): filepath.Join(dir, "demo.db"),
	} {
		cmd := &cli.Command{Flags: []cli.Flag{&cli.StringFlag{Name: databaseOption, Value: real}}}
		got, err := demoPath(cmd, diskWorld())
		if got != want || (err == nil) != (want != "") {
			t.Errorf("beside %s it is %q, %v, want %q", real, got, err, want)
		}
	}
}
