package store_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/store"
	"borewright/store/storetest"
)

// readDB makes the test binary a program that reads all of the large database it
// names before its pages are walked, and says what came of it.
const readDB = "STORE_TEST_READ"

// many keeps so many sessions of so many notes that every list of them has
// branches, and there are more pages than are walked before the file is open.
var (
	manySessions = pageSize / 20
	manyNotes    = 55
)

func many(t *testing.T, path string) {
	t.Helper()
	db := open(t, path, store.Options{})
	text := strings.Repeat("what was said of it ", 45)
	for i := range manySessions {
		uid := fmt.Sprintf("session-%d", i)
		events := storetest.Begin(uid)
		for range manyNotes {
			events = append(events, storetest.Note(text))
		}
		if _, err := db.Keep(uid, events...); err != nil {
			t.Fatal(err)
		}
	}
	closed(t, db)
}

// readAtOnce is that program: it prints "sound" when it read all that many kept,
// "damaged" when it was refused, twice over: what is closed can be opened.
func readAtOnce(path string) int {
	err := readUnwalked(path)
	if errors.Is(err, store.ErrDamaged) {
		err = readUnwalked(path)
	}
	switch {
	case errors.Is(err, store.ErrDamaged):
		fmt.Println("damaged")
	case err != nil:
		fmt.Println(err)
	default:
		fmt.Println("sound")
	}
	return 0
}

var errUnwalked = errors.New("the walk never began")

func readUnwalked(path string) error {
	over := make(chan struct{})
	db, err := store.Open(path, store.Options{}.WithFault(func(stage string) error {
		if stage == "walk" {
			<-over
			return errUnwalked
		}
		return nil
	}))
	if err != nil {
		return err
	}
	err = readAll(db)
	close(over)
	return errors.Join(err, db.Close())
}

func readAll(db *store.DB) error {
	for i := range manySessions {
		uid := fmt.Sprintf("session-%d", i)
		events, err := db.Load(uid)
		if err != nil {
			return err
		}
		if want := len(storetest.Begin(uid)) + manyNotes; len(events) != want {
			return fmt.Errorf("%s has %d events, not %d", uid, len(events), want)
		}
		if head, err := db.Head(uid); err != nil || head != events[len(events)-1].Head {
			return errors.Join(err, fmt.Errorf("%s ends at %v", uid, head))
		}
	}
	headings, err := db.Headings(0)
	if err == nil && len(headings) != manySessions {
		err = fmt.Errorf("%d sessions are listed", len(headings))
	}
	return err
}

// tree is where pages of a bucket lie: its root, which is a branch, and a leaf in
// its middle. Of the buckets themselves both are their one page.
type tree struct{ root, leaf int }

// treeOf finds the tree of a bucket, that of the buckets when it has no name.
func treeOf(t *testing.T, path string, data []byte, bucket string) tree {
	t.Helper()
	at := int(binary.LittleEndian.Uint64(data[newestMeta(data)+16:]))
	if bucket == "" {
		return tree{at, at}
	}
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	_ = db.View(func(tx *bolt.Tx) error { at = int(tx.Bucket([]byte(bucket)).Root()); return nil })
	found := tree{at, at}
	for binary.LittleEndian.Uint16(pageOf(data, found.leaf)[8:]) != leaf {
		found.leaf = int(binary.LittleEndian.Uint64(pageOf(data, found.leaf)[16+16*(countOf(data, found.leaf)/2)+8:]))
	}
	if found.leaf == at {
		t.Fatalf("%s has no branch", bucket)
	}
	return found
}

// harms are ways to damage a tree that bbolt does not live through.
var harms = []struct {
	name string
	harm func(data []byte, in tree)
}{
	{"a branch whose child is itself", func(data []byte, in tree) {
		binary.LittleEndian.PutUint16(pageOf(data, in.root)[8:], branch)
		setChild(data, in.root, 0, in.root)
	}},
	{"a last child that is the branch", func(data []byte, in tree) {
		setChild(data, in.root, countOf(data, in.root)-1, in.root)
	}},
	{"a child past the end", func(data []byte, in tree) { setChild(data, in.root, 0, len(data)/pageSize+100) }},
	{"a leaf replaced by a branch that leads back", func(data []byte, in tree) {
		copy(pageOf(data, in.leaf), pageOf(data, in.root))
		binary.LittleEndian.PutUint64(pageOf(data, in.leaf), uint64(in.leaf))
		setChild(data, in.leaf, 0, in.root)
	}},
	{"an entry outside its page", func(data []byte, in tree) {
		binary.LittleEndian.PutUint32(pageOf(data, in.leaf)[16+4:], 1<<30)
	}},
	{"an entry that says it takes 2 GB", func(data []byte, in tree) {
		binary.LittleEndian.PutUint32(pageOf(data, in.leaf)[16+12:], 1<<31-1)
	}},
}

func pageOf(data []byte, id int) []byte { return data[id*pageSize:][:pageSize] }

func countOf(data []byte, id int) int { return int(binary.LittleEndian.Uint16(pageOf(data, id)[10:])) }

// setChild makes the i-th child of a branch another page.
func setChild(data []byte, id, i, child int) {
	binary.LittleEndian.PutUint64(pageOf(data, id)[16+16*i+8:], uint64(child))
}

// TestUnwalkedFileIsReadSafely damages a large file in the ways that bbolt does
// not live through and reads it while its pages are not walked yet: a clear error,
// in time.
func TestUnwalkedFileIsReadSafely(t *testing.T) {
	dir := fastDir(t)
	path := filepath.Join(dir, "good.db")
	many(t, path)
	good := read(t, path)
	if pages := len(good) / pageSize; pages < 2500 {
		t.Fatalf("the file has %d pages only", pages)
	}
	if said := readByChild(t, path); said != "sound" {
		t.Fatalf("the file that nobody damaged is %s", said)
	}
	tries, lived := 0, 0
	buckets := []string{"events"}
	if *damaged >= usualDamage {
		buckets = append(buckets, "")
	}
	if everyDamage() {
		buckets = append(buckets, "headings", "uids", "recent")
	}
	for _, bucket := range buckets {
		in := treeOf(t, path, good, bucket)
		for _, h := range harms {
			t.Run(bucket+", "+h.name, func(t *testing.T) {
				bad := bytes.Clone(good)
				h.harm(bad, in)
				tries++
				if said := readByChild(t, write(t, filepath.Join(dir, "bad.db"), bad)); said != "damaged" {
					t.Fatal(said)
				}
				lived++
			})
		}
	}
	storetest.Proof(t, "a large file, damaged and read before its pages are walked", tries, tries-lived, store.ErrDamaged.Error())
}

// childLimit is after how long another process is taken to hang: on a busy machine
// and with the race detector reading a large file took more than 20 s.
const childLimit = 3 * time.Minute

// readByChild has another process read the file, and returns what it printed, or
// how it died.
func readByChild(t *testing.T, path string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), childLimit)
	defer cancel()
	cmd := exec.CommandContext(ctx, os.Args[0])
	cmd.Env = append(os.Environ(), readDB+"="+path)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		died, _, _ := strings.Cut(errs.String(), "\n")
		return fmt.Sprintf("%v: %s", err, died)
	}
	return strings.TrimSpace(string(out))
}

// TestDamageIsHeard: damage on a page that nobody reads is heard of while the store
// is idle, and only damage is.
func TestDamageIsHeard(t *testing.T) {
	path := filepath.Join(fastDir(t), "x.db")
	many(t, path)
	good := read(t, path)
	bad := bytes.Clone(good)
	binary.LittleEndian.PutUint32(pageOf(bad, treeOf(t, path, good, "events").leaf)[16+4:], 1<<30)
	heard := make(chan error, 1)
	hears := store.Options{Damaged: func(err error) { heard <- err }}
	db := open(t, path, hears)
	if err := db.Close(); err != nil || len(heard) > 0 {
		t.Fatalf("of the sound file: %v, %d heard", err, len(heard))
	}
	db, err := store.Open(write(t, path, bad), hears)
	if err != nil {
		t.Fatal(err)
	}
	select {
	case err := <-heard:
		if !errors.Is(err, store.ErrDamaged) || !slices.Contains(db.Warnings(), err.Error()) {
			t.Errorf("heard %v, and it warns %q", err, db.Warnings())
		}
	case <-time.After(childLimit):
		t.Error("nothing is heard")
	}
	_ = db.Close()
}

// TestBackupBesideDamage: a copy that was under way when the walk found damage is no
// backup, and the database is blamed, not the copy.
func TestBackupBesideDamage(t *testing.T) {
	path := filepath.Join(fastDir(t), "x.db")
	many(t, path)
	bad := read(t, path)
	binary.LittleEndian.PutUint32(pageOf(bad, treeOf(t, path, bad, "events").leaf)[16+4:], 1<<30)
	write(t, path, bad)
	heard := make(chan struct{})
	db, err := store.Open(path, store.Options{Damaged: func(error) { close(heard) }}.WithFault(func(stage string) error {
		if stage == "copy" {
			<-heard
		}
		return nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	var at *store.FileError
	if err := db.Backup(filepath.Join(t.TempDir(), "copy.db")); !errors.As(err, &at) || at.Path != path || !errors.Is(at.Kind, store.ErrDamaged) {
		t.Errorf("it says %v", err)
	}
	_ = db.Close()
}
