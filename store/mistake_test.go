package store_test

import (
	"errors"
	"strings"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// crashes is what a store's Crash wrote down.
type crashes struct{ reports []string }

func (c *crashes) note(report string) string {
	c.reports = append(c.reports, report)
	return "the-crash.txt"
}

// only fails unless one fault was written down, with its stack.
func (c *crashes) only(t *testing.T, fault string) {
	t.Helper()
	if len(c.reports) != 1 || !strings.HasPrefix(c.reports[0], fault+"\n") || !strings.Contains(c.reports[0], "mistake_test.go") {
		t.Errorf("written down: %q", c.reports)
	}
}

// TestWriterMistake: a panic that is not bbolt's stops the queue, not the
// program, and is written down.
func TestWriterMistake(t *testing.T) {
	var x fault
	var d store.Drawer
	var c crashes
	m := d.Open(store.Options{Crash: c.note}.WithFault(x.ask))
	x.set(func(string) error { panic("index out of range") })
	if _, err := m.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	err := m.Wait(t.Context())
	if !errors.Is(err, store.ErrWriter) || !strings.Contains(err.Error(), "index out of range") || !strings.HasSuffix(err.Error(), "the-crash.txt") {
		t.Errorf("wait: %v", err)
	}
	c.only(t, "index out of range")
	if err := m.Append("b", storetest.Lines(storetest.Begin("b")...)); !errors.Is(err, store.ErrWriter) {
		t.Errorf("append: %v", err)
	}
	x.set(nil)
	m.Retry()
	if err := m.Close(); err != nil {
		t.Error(err)
	}
	m = d.Open(store.Options{})
	if events, err := m.Load("a"); err != nil || len(events) != len(storetest.Begin("a")) {
		t.Errorf("kept in the end: %d events, %v", len(events), err)
	}
}

// TestWriterMistakeUnheard: without anywhere to write it down it is still said.
func TestWriterMistakeUnheard(t *testing.T) {
	var x fault
	m := store.Memory(store.Options{}.WithFault(x.ask))
	x.set(func(string) error { panic("index out of range") })
	if _, err := m.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := m.Wait(t.Context()); !errors.Is(err, store.ErrWriter) || !strings.HasSuffix(err.Error(), "index out of range") {
		t.Errorf("wait: %v", err)
	}
}

// TestMistakeOfWhoeverHears: what is kept is kept although whoever hears of it
// breaks off, which is written down and becomes a warning.
func TestMistakeOfWhoeverHears(t *testing.T) {
	var c crashes
	m := store.Memory(store.Options{Crash: c.note, Notify: func(store.Outcome) { panic("out of true") }})
	if _, err := m.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := m.Wait(t.Context()); err != nil || m.Pending("a") != 0 {
		t.Errorf("wait: %v, %d pending", err, m.Pending("a"))
	}
	c.only(t, "out of true")
	if w := m.Warnings(); len(w) != 1 || !strings.Contains(w[0], "out of true") || !strings.HasSuffix(w[0], "the-crash.txt") {
		t.Errorf("warnings: %q", w)
	}
	if _, err := m.Keep("a", storetest.Reading(1)); err != nil {
		t.Fatal(err)
	}
	if err := m.Close(); err != nil {
		t.Error(err)
	}
}

// TestMistakeBesideACommit: a writer that breaks off between two commits stands
// still and says so; it does not take the process with it.
func TestMistakeBesideACommit(t *testing.T) {
	var x fault
	var c crashes
	m := store.Memory(store.Options{Crash: c.note}.WithFault(x.ask))
	x.set(func(string) error { m.ForgetStreams(); return nil })
	if _, err := m.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := m.Wait(t.Context()); !errors.Is(err, store.ErrWriter) {
		t.Errorf("wait: %v", err)
	}
	if len(c.reports) == 0 || !strings.Contains(c.reports[0], "settle") {
		t.Errorf("written down: %q", c.reports)
	}
	var unkept *store.UnkeptError
	if err := m.Close(); !errors.As(err, &unkept) {
		t.Errorf("close: %v", err)
	}
}
