package store_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"borewright/store/storetest"
	"borewright/store/storetest/powercut"
)

var (
	recordAnew = flag.Bool("record", false, "let TestRecordPowerCut record the store anew with strace")
	keepTrace  = flag.Bool("keep-trace", false, "let TestRecordPowerCut keep what it records in "+keptTrace)
)

// TestRecordPowerCut is TestPowerCut on a trace that is recorded now. With it
// the system is told to leave out every fdatasync, which must be found out.
func TestRecordPowerCut(t *testing.T) {
	if !*recordAnew && !*keepTrace {
		t.Skip("a trace is recorded with -record; the kept one is replayed always")
	}
	ops := recordTrace(t)
	if *keepTrace {
		packed, err := powercut.Pack(ops)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(keptTrace, packed, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	b := cutBench{t: t, path: filepath.Join(t.TempDir(), "bench", cutDB)}
	powercut.Each(ops, *cuts, 2, func(s powercut.State) bool {
		if _, err := b.find(s); err != nil {
			t.Errorf("cut before step %d, turn %d: %v", s.Step, s.Turn, err)
		}
		return b.lost == 0 && !t.Failed()
	})
	storetest.Proof(t, fmt.Sprintf("power cut at %d flushes and between, sectors torn (recorded now)", flushes(ops)),
		b.states, b.lost, b.saw())
	catches(t, recordTrace(t, "-e", "inject=fdatasync:retval=0"), "the same on a store whose every fdatasync does nothing")
}

// recordTrace runs the recorded program under strace, which may be told to
// meddle, and returns its trace.
func recordTrace(t *testing.T, meddle ...string) []powercut.Op {
	t.Helper()
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skipf("a trace cannot be recorded: %v", err)
	}
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "strace")
	args := append([]string{"-f", "-xx", "-s", "16777216", "-o", out, "-e", "trace=" + powercut.Calls}, meddle...)
	cmd := exec.CommandContext(t.Context(), strace, append(args, os.Args[0])...)
	cmd.Env = append(os.Environ(), recordDB+"="+filepath.Join(dir, cutDB))
	var failed *exec.ExitError
	if printed, err := cmd.Output(); errors.As(err, &failed) {
		t.Skipf("nothing can be recorded here: %v\n%s%s", err, printed, failed.Stderr)
	} else if err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	ops, err := powercut.ReadStrace(f, dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(meddle) == 0 {
		wholeTrace(t, ops, filepath.Join(dir, cutDB))
	}
	return ops
}

// wholeTrace fails the test unless the steps come to what the file holds.
func wholeTrace(t *testing.T, ops []powercut.Op, path string) {
	t.Helper()
	disk := powercut.NewDisk()
	for _, o := range ops {
		disk.Do(o)
	}
	want := read(t, path)
	if got := disk.Whole()[filepath.Base(path)]; !bytes.Equal(got, want) {
		t.Fatalf("the trace comes to a file of %d bytes that is not the one of %d bytes that was written", len(got), len(want))
	}
}
