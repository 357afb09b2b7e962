package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
	"borewright/testdata"
)

// need is what a command needs of the database.
type need uint8

const (
	nothing  need = iota // it never opens it
	reading              // it works on a backup too
	writing              // it would write to it
	stations             // it opens the station on it
)

// opened are ways to use every command there is, by its name, "" for none: a new
// command needs its rows here. In FOLDER lie launch.json, which is in the
// database, other.json and other.csv, which are not, study.csv and sheet.html.
var opened = []struct {
	name, args string
	need       need
}{
	{"", "", stations},
	{"demo", "", stations},
	{"demo", "--complete", stations},
	{"demo", "--fresh", stations},
	{"list", "", reading},
	{"list", "launch --json", reading},
	{"assess", "FOLDER/launch.json", nothing},
	{"sheet", "demo-launch", reading},
	{"sheet", "demo-launch --to pdf -o FOLDER/out.pdf", reading},
	{"sheet", "--check FOLDER/sheet.html", reading},
	{"export", "demo-launch", reading},
	{"export", "demo-launch -o FOLDER/out.json", reading},
	{"import", "FOLDER/other.json", writing},
	{"import", "FOLDER/launch.json --as-new", writing},
	{"import", "FOLDER/other.csv --yes", writing},
	{"import", "FOLDER/other.csv --into demo-launch --yes", writing},
	{"study", "FOLDER/study.csv", nothing},
	{"backup", "FOLDER/out.db", reading},
	{"verify", "", reading},
	{"verify", "--json", reading},
	{"salvage", "FOLDER/out.db", reading},
	{"salvage", "FOLDER/out.db --with DATABASE", reading},
	{"verify-inside", "", reading},
	{"schema", "", nothing},
	{"version", "", nothing},
	{"help", "", nothing},
}

// busyBench is a folder with a database, a backup of it and files to work with.
type busyBench struct{ folder, path, backup string }

// newBusyBench makes one, with the demo's database beside it.
func newBusyBench(t *testing.T) busyBench {
	t.Helper()
	b := busyBench{folder: t.TempDir()}
	b.path = filepath.Join(b.folder, "borewright.db")
	b.backup = b.backedUp(t, b.path, "launch")
	b.backedUp(t, filepath.Join(b.folder, "demo.db"), "launch")
	launch, _ := testdata.Session("launch")
	for name, data := range map[string]string{
		"launch.json": string(launch),
		"other.json":  oneBore(t),
		"other.csv":   "feature,level,direction,read (in)\nbore/6,bottom,along,3.7503\n",
		"study.csv":   "operator,part,trial,value\nA,1,1,1.01\nA,1,2,1.02\nA,2,1,2.01\nA,2,2,2.03\nB,1,1,1.00\nB,1,2,1.02\nB,2,1,2.02\nB,2,2,2.01\n",
	} {
		if err := os.WriteFile(filepath.Join(b.folder, name), []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if errs, code := b.run(t, b.path, "sheet", "demo-launch -o FOLDER/sheet.html"); code != 0 {
		t.Fatalf("no sheet: %s", errs)
	}
	return b
}

// backedUp lays a demo session into a database and returns the path of a backup.
func (b busyBench) backedUp(t *testing.T, path, session string) (backup string) {
	t.Helper()
	if err := layNamed(t, path, session); err != nil {
		t.Fatal(err)
	}
	on(t, path, func(book Book) (err error) {
		for range 2 {
			if backup, err = book.(*store.DB).BackupNow(diskWorld().Now(), backupsKept); err != nil {
				return err
			}
		}
		return nil
	})
	return backup
}

// hold keeps both databases open until the test ends.
func (b busyBench) hold(t *testing.T) {
	t.Helper()
	for _, name := range []string{"borewright.db", "demo.db"} {
		held, err := store.Open(filepath.Join(b.folder, name), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := held.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}

// run runs a command on a terminal and returns what went wrong.
func (b busyBench) run(t *testing.T, db, name, args string) (errs string, code int) {
	t.Helper()
	in, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close() //nolint:errcheck // nothing is read
	var e bytes.Buffer
	w := diskWorld()
	w.In, w.Out, w.Err = in, io.Discard, &e
	w.Terminal = func() bool { return true }
	w.Verify = func(_ context.Context, path string) (store.Report, error) { return store.Verify(path) }
	args = strings.NewReplacer("FOLDER", b.folder, "DATABASE", b.path).Replace(args)
	words := append([]string{"borewright", "--db", db, name}, strings.Fields(args)...)
	if name == "" {
		words = words[:3]
	}
	code = run(words, w)
	return e.String(), code
}

// TestEveryCommandIsKnownHere holds the table to the commands there are.
func TestEveryCommandIsKnownHere(t *testing.T) {
	t.Parallel()
	known := map[string]bool{}
	for _, row := range opened {
		known[row.name] = true
	}
	commands := map[string]bool{"": true}
	for _, cmd := range root(diskWorld()).Commands {
		commands[cmd.Name] = true
		if !known[cmd.Name] {
			t.Errorf("nothing is said here of what %s needs of the database", cmd.Name)
		}
	}
	for name := range known {
		if !commands[name] {
			t.Errorf("there is no command %s", name)
		}
	}
}

// TestEveryCommandWhileAStationIsOpen: each that needs the database says so, ends
// with 1 and names the newest backup; the others do not care.
func TestEveryCommandWhileAStationIsOpen(t *testing.T) {
	t.Parallel()
	b := newBusyBench(t)
	b.hold(t)
	var all sync.WaitGroup // each waits a second for the database: together, whatever the processors
	for _, row := range opened {
		all.Go(func() { b.whileOpen(t, row.name, row.args, row.need) })
	}
	all.Wait()
	// What is searched too may be the one that is open.
	errs, code := b.run(t, b.backup, "salvage", "FOLDER/out.db --with DATABASE")
	if code != 1 || !strings.Contains(errs, "--db "+filepath.ToSlash(b.backup)+"\n") {
		t.Errorf("with an open database it ended with %d and said %q", code, errs)
	}
	storetest.Proof(t, "every command that needs the database, while a station is open", len(opened), 0,
		"borewright: the database is already open in another window: ...; its newest backup can be read meanwhile with --db ...")
}

func (b busyBench) whileOpen(t *testing.T, name, args string, need need) {
	t.Helper()
	errs, code := b.run(t, b.path, name, args)
	backup := b.backup
	if name == "demo" {
		backup = store.Backups(filepath.Join(b.folder, "demo.db"))[1]
	}
	says := "its newest backup can be read meanwhile with --db " + filepath.ToSlash(backup)
	switch {
	case need == nothing:
		if code != 0 || errs != "" {
			t.Errorf("%s %s ended with %d and said %q", name, args, code, errs)
		}
	case name == "verify-inside": // verify says it
	case code != 1 || !strings.Contains(errs, store.ErrBusy.Error()) || !strings.Contains(errs, says) || strings.Count(errs, "\n") != 1:
		t.Errorf("%s %s ended with %d and said %q", name, args, code, errs)
	}
}

// TestEveryCommandOnABackup: what only reads works on a backup, what would write
// says that it is one, and the backup stays as it is.
func TestEveryCommandOnABackup(t *testing.T) {
	t.Parallel()
	b := newBusyBench(t)
	before, err := os.ReadFile(b.backup)
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, row := range opened {
		if row.need == nothing || row.need == stations {
			continue
		}
		tried++
		errs, code := b.run(t, b.backup, row.name, row.args)
		refused := code == 1 && errs == "borewright: "+store.ErrBackup.Error()+": "+b.backup+"\n"
		if fine := code == 0 && errs == ""; row.need == reading && !fine || row.need == writing && !refused {
			t.Errorf("%s %s ended with %d and said %q", row.name, row.args, code, errs)
		}
		for _, made := range []string{"out.pdf", "out.json", "out.db"} {
			_ = os.Remove(filepath.Join(b.folder, made))
		}
	}
	if after, err := os.ReadFile(b.backup); err != nil || !bytes.Equal(after, before) {
		t.Errorf("the backup was changed: %v", err)
	}
	storetest.Proof(t, "every command on a backup, which stays as it is to the byte", tried, 0,
		"borewright: "+store.ErrBackup.Error()+": ...")
}
