package main

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// BenchmarkStart times the station from its start to the frame that shows the
// bench, on a database of 10,000 sessions of 200 events and on an empty one, in
// turns: with both files in the system's cache, and with neither nor the program.
func BenchmarkStart(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	station := built(b, "cmd/borewright")
	full, empty := shop(b, rounds(10_000, 500), 200), shop(b, 0, 0)
	ratio := func(name string, before func()) {
		var ours, floor []float64
		for range rounds(21, 7) {
			before()
			ours = append(ours, started(b, station, full, "Vee eight"))
			before()
			floor = append(floor, started(b, station, empty, "Nothing on the bench"))
		}
		b.ReportMetric(median(ours), name+"-full-ms")
		b.ReportMetric(median(floor), name+"-empty-ms")
		b.ReportMetric(median(ours)/median(floor), name+"-x")
	}
	ratio("warm", func() {})
	ratio("cold", func() { forget(b, full, empty, station) })
}

// started returns how many milliseconds a station took to the frame with a text.
func started(b *testing.B, station, db, text string) float64 {
	b.Helper()
	start := time.Now()
	t := startTimed(b, 80, 24, station, "--db", db)
	took := t.until(b, text).Sub(start)
	t.kill()
	return float64(took) / float64(time.Millisecond)
}

// forget takes files out of the system's cache.
func forget(b *testing.B, paths ...string) {
	b.Helper()
	for _, path := range paths {
		f, err := os.Open(path)
		if err != nil {
			b.Fatal(err)
		}
		_ = unix.Fsync(int(f.Fd())) // only what is on the disk can be forgotten
		if err := unix.Fadvise(int(f.Fd()), 0, 0, unix.FADV_DONTNEED); err != nil {
			b.Fatal(err)
		}
		if err := f.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkResume times Enter on the bench to the measure screen, for a session
// of 500 events and for one that has only just begun, in turns.
func BenchmarkResume(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	station := built(b, "cmd/borewright")
	long, begun := shop(b, 1, 500), shop(b, 1, 0)
	var ours, floor []float64
	for range rounds(41, 9) {
		ours = append(ours, resumed(b, station, long))
		floor = append(floor, resumed(b, station, begun))
	}
	b.ReportMetric(median(ours), "p50-ms")
	b.ReportMetric(median(ours)-median(floor), "adds-ms")
}

// resumed returns how many milliseconds Enter took to the measure screen.
func resumed(b *testing.B, station, db string) float64 {
	b.Helper()
	t := startTimed(b, 80, 24, station, "--db", db)
	t.until(b, "Vee eight")
	t.quiet(50 * time.Millisecond)
	start := time.Now()
	t.write(b, "\r")
	took := t.until(b, " of 423").Sub(start)
	t.kill()
	return float64(took) / float64(time.Millisecond)
}

// BenchmarkVersion times "borewright version" as a process, in turns with a Go
// program that does nothing.
func BenchmarkVersion(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	station, empty := built(b, "cmd/borewright"), built(b, "testdata/bench/empty")
	var ours, floor []float64
	for range rounds(101, 21) {
		ours = append(ours, whole(b, station, "version"))
		floor = append(floor, whole(b, empty))
	}
	b.ReportMetric(median(ours), "version-ms")
	b.ReportMetric(median(floor), "empty-ms")
	b.ReportMetric(median(ours)/median(floor), "version-x")
	info, err := os.Stat(station)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(info.Size())/1e6, "binary-MB")
}

// whole returns how many milliseconds a program took from start to end.
func whole(b *testing.B, program string, args ...string) float64 {
	b.Helper()
	start := time.Now()
	if err := exec.Command(program, args...).Run(); err != nil {
		b.Fatal(err)
	}
	return float64(time.Since(start)) / float64(time.Millisecond)
}

// BenchmarkMemory keys fifty readings on the database of 10,000 sessions and
// says what is resident then.
func BenchmarkMemory(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	station, full := built(b, "cmd/borewright"), shop(b, rounds(10_000, 500), 200)
	t := startTimed(b, 80, 24, station, "--db", full)
	resume(b, t)
	t.write(b, "/81.1\r") // to the first bore
	t.quiet(200 * time.Millisecond)
	for range 50 {
		t.press(b, "6")
		t.press(b, "\r")
	}
	t.quiet(time.Second)
	for _, name := range []string{"VmRSS", "RssAnon", "RssFile", "VmHWM"} {
		b.ReportMetric(resident(b, t.program.Process.Pid, name), name+"-MB")
	}
}

// resident returns a figure of a process's status in megabytes.
func resident(b *testing.B, pid int, name string) float64 {
	b.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Fatal(err)
	}
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, name+":"); ok {
			kb, err := strconv.Atoi(strings.Fields(rest)[0])
			if err != nil {
				b.Fatal(err)
			}
			return float64(kb) * 1024 / 1e6
		}
	}
	b.Fatalf("no %s in\n%s", name, status)
	return 0
}
