package store_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"runtime/debug"
	"strconv"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// childDB makes the test binary a program that keeps readings in the database
// it names and prints the number of each one that is kept.
const childDB = "STORE_TEST_CHILD"

// TestMain is such a program, or collects garbage a fourth as often for the tests:
// what one holds is small, and they compute a sixth less.
func TestMain(m *testing.M) {
	if path := os.Getenv(childDB); path != "" {
		os.Exit(child(path))
	}
	if path := os.Getenv(recordDB); path != "" {
		os.Exit(recorded(path))
	}
	if path := os.Getenv(readDB); path != "" {
		os.Exit(readAtOnce(path))
	}
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}

func child(path string) int {
	room := make(chan struct{}, 3)
	db, err := store.Open(path, store.Options{Notify: func(o store.Outcome) {
		if o.Err != nil {
			fmt.Fprintln(os.Stderr, o.Err)
			os.Exit(1)
		}
		fmt.Println(o.Last)
		<-room
	}})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	for i := range 100_000 {
		room <- struct{}{}
		if _, err := db.Keep("a", storetest.Reading(i)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
	}
	return 0
}

// TestKill kills the program 20 times while it keeps readings: everything that
// was called kept is there, and the file opens at once.
func TestKill(t *testing.T) {
	path := temp(t)
	db := open(t, path, store.Options{})
	if _, err := db.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	for round := range 20 {
		acknowledged := killed(t, path, 1+round*3%17)
		db := open(t, path, store.Options{})
		events, err := db.Load("a")
		if err != nil || len(events) < acknowledged || len(events) > acknowledged+4 {
			t.Errorf("round %d: %d events, of which %d were acknowledged, %v", round, len(events), acknowledged, err)
		}
		if w := db.Warnings(); len(w) != 0 {
			t.Errorf("round %d: warnings %q", round, w)
		}
		storetest.Check(t, db)
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
}

// killed runs the child, kills it once it has acknowledged so many and returns
// the last number it acknowledged.
func killed(t *testing.T, path string, after int) int {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), os.Args[0])
	cmd.Env = append(os.Environ(), childDB+"="+path)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	last := 0
	lines := bufio.NewScanner(out)
	for n := 1; lines.Scan(); n++ {
		if last, err = strconv.Atoi(lines.Text()); err != nil {
			t.Fatal(err)
		}
		if n == after {
			if err := cmd.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	_ = cmd.Wait() // it was killed
	if last == 0 {
		t.Fatal("nothing was acknowledged")
	}
	return last
}
