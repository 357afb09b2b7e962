//go:build unix

package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/engine/record/recordtest"
	"borewright/store"
)

// built builds a package of this module and returns the program's path.
func built(b *testing.B, pkg string) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), filepath.Base(pkg))
	cmd := exec.Command("go", "build", "-buildvcs=false", "-o", path, "borewright/"+pkg)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0") // as the README builds it: with it 0.6 of 4 ms are the C library's
	if out, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("building %s: %v\n%s", pkg, err, out)
	}
	return path
}

// shop makes a database of so many sessions, each of so many events.
func shop(b *testing.B, sessions, events int) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), fmt.Sprintf("shop-%dx%d.db", sessions, events))
	db, err := store.Open(path, store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for i := range sessions {
		keepLong(b, db, fmt.Sprintf("%05d", i), events)
	}
	if err := db.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// batch is how many events are put into the queue before it is waited for.
const batch = 1000

// keepLong keeps a session of so many events.
func keepLong(b *testing.B, db *store.DB, uid string, n int) {
	b.Helper()
	bodies := recordtest.Setup(uid)
	if n > len(bodies) {
		bodies = recordtest.Long(uid, n)
	}
	events := recordtest.Events(bodies)
	shift(events)
	for len(events) > 0 {
		next := events[:min(batch, len(events))]
		if _, err := db.Keep(uid, next...); err != nil {
			b.Fatal(err)
		}
		events = events[len(next):]
		if db.Pending(uid) >= batch || len(events) > 0 {
			waitFor(b, db)
		}
	}
}

// shift moves events so that the last of them just happened: no zero is stale.
func shift(events []record.Event) {
	by := time.Until(events[len(events)-1].At).Truncate(time.Second)
	for i := range events {
		events[i].At = events[i].At.Add(-by)
	}
}

func waitFor(b *testing.B, db *store.DB) {
	b.Helper()
	if err := db.Wait(context.Background()); err != nil {
		b.Fatal(err)
	}
}

// copyOf copies a file beside itself.
func copyOf(b *testing.B, path string) string {
	b.Helper()
	from, err := os.Open(path)
	if err != nil {
		b.Fatal(err)
	}
	defer from.Close() //nolint:errcheck // it was only read
	to, err := os.Create(filepath.Join(b.TempDir(), filepath.Base(path)))
	if err != nil {
		b.Fatal(err)
	}
	if _, err := io.Copy(to, from); err != nil {
		b.Fatal(err)
	}
	if err := to.Close(); err != nil {
		b.Fatal(err)
	}
	return to.Name()
}
