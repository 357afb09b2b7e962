package main

import (
	"errors"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

// lossy is a database that keeps nothing more from some point on.
type lossy struct {
	*store.Mem
	pending map[string]int
	err     error
}

func (b lossy) Pending(uid string) int { return b.pending[uid] }

func (b lossy) Close() error { return b.err }

func TestTallyNamesWhatIsLost(t *testing.T) {
	t.Parallel()
	full := &store.UnkeptError{Events: 3, Cause: store.ErrFull}
	broken := errors.New("the lock is lost")
	for name, c := range map[string]struct {
		pending map[string]int
		err     error
		want    string
	}{
		"kept":          {nil, nil, ""},
		"other error":   {map[string]int{"a": 1}, broken, "the lock is lost"},
		"some of one":   {map[string]int{"a": 2}, full, "not kept: events 2 to 3 of session a; 3 events are not kept: the disk is full"},
		"some of both":  {map[string]int{"a": 1, "b": 2}, full, "not kept: event 3 of session a, events 1 to 2 of session b; 3 events are not kept: the disk is full"},
		"of no session": {nil, full, "3 events are not kept: the disk is full"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			book := newTally(lossy{store.Memory(store.Options{}), c.pending, c.err}, &daily{})
			for _, of := range []string{"a", "a", "b", "a", "b"} {
				var body record.Body = record.Note{Text: "remark"}
				if book.last[of] == 0 {
					body = record.Details{UID: of, Title: of, Unit: 1}
				}
				if _, err := book.Keep(of, record.Event{At: time.Unix(1, 0), Body: body}); err != nil {
					t.Fatal(err)
				}
			}
			err := book.Close()
			if (err == nil) != (c.want == "") || err != nil && err.Error() != c.want {
				t.Errorf("said %v, want %q", err, c.want)
			}
			if c.err != nil && !errors.Is(err, c.err) {
				t.Errorf("%v hides its cause", err)
			}
		})
	}
}

func TestTallyCountsOnlyWhatWasTaken(t *testing.T) {
	t.Parallel()
	book := newTally(shelved{store.Memory(store.Options{})}, &daily{})
	if _, err := book.Keep("a", record.Event{At: time.Unix(1, 0), Body: record.Note{Text: "no session"}}); err == nil {
		t.Fatal("a session without details was taken")
	}
	if len(book.order) != 0 || len(book.last) != 0 {
		t.Errorf("counted %v, %v", book.order, book.last)
	}
}
