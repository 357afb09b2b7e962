package storetest

import (
	"bytes"
	"errors"
	"sync"
	"syscall"

	"borewright/engine/record"
	"borewright/store"
)

func appendsWhatContinues(d *desk) {
	t := d.t
	lines := Lines(append(Begin("a"), Reading(1), Reading(2), Reading(3))...)
	if err := d.Append("a", lines[:3]); err != nil {
		t.Fatal(err)
	}
	if d.Pending("a") != 0 {
		t.Errorf("%d pending after an append", d.Pending("a"))
	}
	if err := d.Append("a", lines[3:]); err != nil {
		t.Fatal(err)
	}
	if err := d.Append("a", nil); err != nil {
		t.Errorf("appending nothing: %v", err)
	}
	d.reopen()
	for i, s := range d.load("a") {
		if !Is(s, lines[i]) {
			t.Errorf("event %d is not verbatim", i+1)
		}
	}
	d.keep("a", Reading(4))
	if h, _ := d.Headings(1); len(h) != 1 || h[0].Head.N != 6 {
		t.Errorf("headings %+v", h)
	}
}

func appendsNothingElse(d *desk) {
	t := d.t
	ours := Lines(append(Begin("a"), Reading(1), Reading(2))...)
	other := Lines(append(Begin("a"), Reading(7), Reading(2))...)
	if err := d.Append("a", ours[:3]); err != nil {
		t.Fatal(err)
	}
	altered := bytes.Replace(ours[3], []byte(`"AB"`), []byte(`"AC"`), 1)
	unknown := bytes.Replace(ours[3], []byte(`,"is"`), []byte(`,"colour":"red","is"`), 1)
	for name, try := range map[string]struct {
		uid   string
		lines [][]byte
		want  error
	}{
		"what is there":    {"a", ours[:3], store.ErrNotNext},
		"a gap":            {"b", ours[1:], store.ErrNotNext},
		"another chain":    {"a", other[3:], store.ErrNotNext},
		"altered last":     {"a", [][]byte{altered, ours[3]}, store.ErrNotNext},
		"an unknown field": {"a", [][]byte{unknown}, store.ErrNotNext},
		"no event":         {"a", [][]byte{[]byte("{}")}, store.ErrNotNext},
		"another session":  {"b", ours, store.ErrOtherSession},
		"no details":       {"b", Lines(Note("x")), store.ErrNoSession},
		"shop details":     {"", ours, store.ErrOtherSession},
	} {
		if err := d.Append(try.uid, try.lines); !errors.Is(err, try.want) {
			t.Errorf("%s: %v, want %v", name, err, try.want)
		}
	}
	if h, err := d.Headings(0); err != nil || len(h) != 1 || h[0].Head.N != 3 {
		t.Errorf("something was kept: %+v %v", h, err)
	}
}

func appendsAllOrNothing(d *desk) {
	t := d.t
	d.failing("write", syscall.ENOSPC)
	lines := Lines(append(Begin("a"), Reading(1))...)
	if err := d.Append("a", lines); !errors.Is(err, store.ErrFull) {
		t.Errorf("append: %v", err)
	}
	if _, err := d.Load("a"); !errors.Is(err, store.ErrNoSession) || d.Pending("a") != 0 {
		t.Errorf("load: %v, %d pending", err, d.Pending("a"))
	}
	d.bench.Fault(nil)
	d.drain()
	if err := d.Append("a", lines[:2]); err != nil {
		t.Fatal(err)
	}
	d.failing("write", syscall.ENOSPC)
	if err := d.Append("a", lines[2:]); !errors.Is(err, store.ErrFull) {
		t.Errorf("append: %v", err)
	}
	if h, err := d.Head("a"); h.N != 2 || err != nil {
		t.Errorf("head %v %v", h, err)
	}
}

// appendsLate fails imports after they were kept: the store must not believe
// that they were not, and must find room for others beside them.
func appendsLate(d *desk) {
	t := d.t
	d.failing("written", syscall.EIO)
	for _, uid := range []string{"a", "b"} {
		if err := d.Append(uid, Lines(append(Begin(uid), Reading(1))...)); !errors.Is(err, store.ErrDisk) {
			t.Errorf("append: %v", err)
		}
		if h, err := d.Head(uid); h.N != 3 || err != nil || d.Pending(uid) != 0 {
			t.Errorf("head of %s: %v %v, %d pending", uid, h, err, d.Pending(uid))
		}
	}
	d.bench.Fault(nil)
	d.keep("c", Begin("c")...)
	d.keep("a", Reading(2))
	d.drain()
}

// appendsBeforeLater fails an import behind which a reading was keyed: it has
// to stay, because the reading follows it.
func appendsBeforeLater(d *desk) {
	t := d.t
	reached, release := make(chan struct{}), make(chan struct{})
	var once sync.Once
	d.bench.Fault(func(string) error {
		once.Do(func() { close(reached) })
		<-release
		return syscall.ENOSPC
	})
	result := make(chan error, 1)
	lines := Lines(append(Begin("a"), Reading(1))...)
	go func() { result <- d.Append("a", lines) }()
	<-reached
	d.keep("a", Reading(2))
	close(release)
	if err := <-result; !errors.Is(err, store.ErrFull) {
		t.Errorf("append: %v", err)
	}
	_ = d.settle()
	if d.Pending("a") != 4 {
		t.Errorf("%d pending", d.Pending("a"))
	}
	d.bench.Fault(nil)
	d.Retry()
	d.drain()
	if got := d.load("a"); len(got) != 4 || got[3].Is() != record.IsReading {
		t.Errorf("%d events", len(got))
	}
}
