package storetest

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"
	"syscall"

	"borewright/engine/record"
	"borewright/store"
)

// failing makes every attempt fail at the stage, until the bench is told else.
func (d *desk) failing(stage string, err error) {
	d.bench.Fault(func(at string) error {
		if at == stage {
			return err
		}
		return nil
	})
}

// story is the outcomes as text: 3-4 for a success, !3-4 for a failure.
func story(told []store.Outcome) []string {
	var out []string
	for _, o := range told {
		mark := ""
		if o.Err != nil {
			mark = "!"
		}
		out = append(out, fmt.Sprintf("%s%s%d-%d", mark, o.UID, o.First, o.Last))
	}
	return out
}

func (d *desk) wantStory(want ...string) {
	d.t.Helper()
	if got := story(d.outcomes()); !slices.Equal(got, want) {
		d.t.Errorf("reported %q, want %q", got, want)
	}
}

func staysStopped(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	d.drain()
	d.failing("write", syscall.ENOSPC)
	d.keep("a", Reading(1))
	err := d.settle()
	var unkept *store.UnkeptError
	if !errors.As(err, &unkept) || unkept.Events != 1 || !errors.Is(err, store.ErrFull) {
		t.Fatalf("wait: %v", err)
	}
	d.wantStory("a1-2", "!a3-3")
	if o := d.outcomes()[1]; !errors.Is(o.Err, store.ErrFull) || !errors.Is(o.Err, syscall.ENOSPC) {
		t.Errorf("the outcome is %v", o.Err)
	}
	d.Retry()
	if err := d.settle(); !errors.Is(err, store.ErrFull) {
		t.Errorf("wait: %v", err)
	}
	d.bench.Fault(nil)
	if d.Pending("a") != 1 {
		t.Errorf("%d pending", d.Pending("a"))
	}
	d.Retry()
	d.drain()
	d.wantStory("a1-2", "!a3-3", "!a3-3", "a3-3")
}

func triesAgain(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	d.keep("b", Begin("b")...)
	d.drain()
	told := len(d.outcomes())
	d.failing("write", syscall.EROFS)
	d.keep("a", Reading(1))
	if err := d.settle(); !errors.Is(err, store.ErrReadOnly) {
		t.Fatalf("wait: %v", err)
	}
	d.keep("b", Reading(1), Reading(2))
	_ = d.settle()
	d.bench.Fault(nil)
	d.keep("a", Reading(2))
	d.drain()
	var done []string
	for _, s := range story(d.outcomes()[told:]) {
		if s[0] != '!' {
			done = append(done, s)
		}
	}
	if want := []string{"a3-3", "b3-4", "a4-4"}; !slices.Equal(done, want) {
		t.Errorf("kept in the order %q, want %q", done, want)
	}
}

// held makes the first attempt wait at "write" until it is released, and fail
// then with the error. It returns when the attempt is there.
func (d *desk) held(err error, begin func()) (release func()) {
	reached, released := make(chan struct{}), make(chan struct{})
	var once sync.Once
	d.bench.Fault(func(stage string) error {
		if stage == "write" {
			d.tries.Add(1)
		}
		first := false
		once.Do(func() { first = true })
		if first {
			close(reached)
			<-released
			return err
		}
		return nil
	})
	begin()
	<-reached
	return func() { close(released) }
}

// triesWhenAsked asks for another attempt while one is failing.
func triesWhenAsked(d *desk) {
	d.keep("a", Begin("a")...)
	d.drain()
	release := d.held(syscall.ENOSPC, func() { d.keep("a", Reading(1)) })
	d.Retry()
	release()
	d.drain()
	d.wantStory("a1-2", "!a3-3", "a3-3")
	release = d.held(syscall.ENOSPC, func() { d.keep("a", Reading(2)) })
	d.keep("a", Reading(3))
	release()
	d.drain()
	d.wantStory("a1-2", "!a3-3", "a3-3", "!a4-4", "a4-4", "a5-5")
}

// commitsTogether: what waits is kept in few transactions, but not in one that
// has no end.
func commitsTogether(d *desk) {
	d.keep("a", Begin("a")...)
	d.drain()
	many := make([]record.Event, 100)
	for i := range many {
		many[i] = Reading(i)
	}
	for _, try := range []struct{ jobs, events, most int }{{50, 1, 2}, {30, 100, 4}} {
		d.tries.Store(0)
		release := d.held(nil, func() { d.keep("a", Reading(0)) })
		for range try.jobs {
			d.keep("a", many[:try.events]...)
		}
		release()
		d.drain()
		if n := int(d.tries.Load()); n != try.most {
			d.t.Errorf("%d jobs of %d events took %d transactions, not %d", try.jobs, try.events, n, try.most)
		}
	}
}

func survivesLateFailure(d *desk) {
	t := d.t
	d.failing("written", syscall.EIO)
	want := d.keep("a", Begin("a")...)
	if err := d.settle(); !errors.Is(err, store.ErrDisk) {
		t.Fatalf("wait: %v", err)
	}
	want = append(want, d.keep("a", Reading(1))...)
	want = append(want, d.keep("a", Reading(2))...)
	_ = d.settle()
	d.sameLines(want)
	d.bench.Fault(nil)
	d.Retry()
	d.drain()
	d.sameLines(want)
}

func showsWhatWaits(d *desk) {
	t := d.t
	want := d.keep("a", Begin("a")...)
	d.keep("b", Begin("b")...)
	d.drain()
	d.failing("write", syscall.ENOSPC)
	want = append(want, d.keep("a", Reading(1), Reading(2))...)
	d.keep("c", Begin("c")...)
	d.sameLines(want)
	if len(d.load("c")) != 2 || d.Pending("a") != 2 || d.Pending("c") != 2 || d.Pending("b") != 0 {
		t.Errorf("pending: a %d, b %d, c %d", d.Pending("a"), d.Pending("b"), d.Pending("c"))
	}
	h, err := d.Headings(2)
	if err != nil || len(h) != 2 || h[0].UID != "c" || h[1].UID != "a" || h[1].Readings != 2 {
		t.Errorf("headings %+v %v", h, err)
	}
	if head, err := d.Head("a"); head != want[3].Head || err != nil {
		t.Errorf("head %v %v", head, err)
	}
}

func waitsNoLonger(d *desk) {
	t := d.t
	reached, release := make(chan struct{}), make(chan struct{})
	var once sync.Once
	d.bench.Fault(func(string) error {
		once.Do(func() { close(reached) })
		<-release
		return nil
	})
	d.keep("a", Begin("a")...)
	<-reached
	d.keep("a", Reading(1)) // returns although the disk does not
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	err := d.Wait(ctx)
	var unkept *store.UnkeptError
	if !errors.As(err, &unkept) || unkept.Events != 3 || !errors.Is(err, context.Canceled) {
		t.Errorf("wait: %v", err)
	}
	d.bench.Fault(nil)
	close(release)
	d.drain()
}

func closesUnkept(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	d.drain()
	d.failing("write", syscall.ENOSPC)
	d.keep("a", Reading(1), Reading(2))
	d.keep("", Note("a remark"))
	err := d.Close()
	var unkept *store.UnkeptError
	if !errors.As(err, &unkept) || unkept.Events != 3 || !errors.Is(err, store.ErrFull) {
		t.Errorf("close: %v", err)
	}
	d.bench.Fault(nil)
	d.open()
	if got := d.load("a"); len(got) != 2 {
		t.Errorf("%d events of a are there", len(got))
	}
	d.keep("a", Reading(7))
	d.drain()
}

func isClosed(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Errorf("close again: %v", err)
	}
	d.wantStory("a1-2")
	_, keep := d.Keep("a", Reading(1))
	_, load := d.Load("a")
	_, headings := d.Headings(0)
	for name, err := range map[string]error{
		"keep": keep, "load": load, "headings": headings,
		"append": d.Append("a", Lines(Begin("a")...)), "rebuild": d.Rebuild(),
	} {
		if !errors.Is(err, store.ErrClosed) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func outlivesListener(d *desk) {
	t := d.t
	d.hear = func(store.Outcome) { panic("the listener fell over") }
	d.keep("a", Begin("a")...)
	d.keep("a", Reading(1))
	d.drain()
	if w := d.Warnings(); len(w) != 1 {
		t.Errorf("warnings %q", w)
	}
}

func letsListenerKeep(d *desk) {
	t := d.t
	done := make(chan struct{})
	d.hear = func(o store.Outcome) {
		if o.Last == 5 {
			close(done)
			return
		}
		if _, err := d.Keep("a", Reading(int(o.Last))); err != nil {
			t.Error(err)
		}
		_ = d.Pending("a")
	}
	d.keep("a", Begin("a")...)
	<-done
}

func tellsUnknownFailures(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	d.drain()
	d.failing("write", fmt.Errorf("growing: %w", io.ErrUnexpectedEOF))
	d.keep("a", Reading(1))
	err := d.settle()
	if !errors.Is(err, store.ErrDisk) || !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("wait: %v", err)
	}
}

func keepsFromEverywhere(d *desk) {
	t := d.t
	var all sync.WaitGroup
	for _, uid := range []string{"a", "b", "c", "d"} {
		all.Go(func() {
			if _, err := d.Keep(uid, Begin(uid)...); err != nil {
				t.Error(err)
			}
			for i := range 25 {
				if _, err := d.Keep(uid, Reading(i)); err != nil {
					t.Error(err)
				}
				if events, err := d.Load(uid); err != nil || len(events) != i+3 {
					t.Errorf("after reading %d of %s: %d events, %v", i, uid, len(events), err)
				}
				if h, err := d.Headings(0); err != nil || len(h) > 4 {
					t.Errorf("headings %v %v", h, err)
				}
			}
		})
	}
	all.Wait()
	d.drain()
	last := map[string]int64{}
	for _, o := range d.outcomes() {
		if o.First != last[o.UID]+1 {
			t.Fatalf("%s: event %d was reported after %d", o.UID, o.First, last[o.UID])
		}
		last[o.UID] = o.Last
	}
	for uid, n := range last {
		if n != 27 {
			t.Errorf("%s ends at %d", uid, n)
		}
	}
}
