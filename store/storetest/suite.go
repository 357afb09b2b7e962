package storetest

import (
	"bytes"
	"errors"
	"slices"
	"testing"

	"borewright/engine/length"
	"borewright/engine/record"
	"borewright/store"
)

// Run runs the suite. The bench is a new and empty one at each call.
func Run(t *testing.T, bench func(t *testing.T) Bench) {
	t.Helper()
	for name, test := range map[string]func(*desk){
		"keeps and finds again":      keepsAndFinds,
		"begins with details":        beginsWithDetails,
		"takes all or none":          takesAllOrNone,
		"knows the shop":             knowsTheShop,
		"lists the newest first":     listsNewestFirst,
		"stays stopped in order":     staysStopped,
		"tries again at next keep":   triesAgain,
		"tries again when asked":     triesWhenAsked,
		"commits together":           commitsTogether,
		"survives a late failure":    survivesLateFailure,
		"shows what waits":           showsWhatWaits,
		"waits no longer than told":  waitsNoLonger,
		"appends what continues":     appendsWhatContinues,
		"appends nothing else":       appendsNothingElse,
		"appends all or nothing":     appendsAllOrNothing,
		"appends before later ones":  appendsBeforeLater,
		"appends although it failed": appendsLate,
		"closes with what is unkept": closesUnkept,
		"is closed":                  isClosed,
		"outlives a bad listener":    outlivesListener,
		"lets the listener keep":     letsListenerKeep,
		"tells unknown failures":     tellsUnknownFailures,
		"keeps from everywhere":      keepsFromEverywhere,
		"rebuilds the same":          rebuildsTheSame,
	} {
		t.Run(name, func(t *testing.T) { test(newDesk(t, bench(t))) })
	}
	t.Run("agrees with a plain map", func(t *testing.T) { machine(t, bench) })
}

func keepsAndFinds(d *desk) {
	t := d.t
	kept := d.keep("a", Begin("a")...)
	for i := range 30 {
		kept = append(kept, d.keep("a", Reading(i))...)
	}
	for i, s := range kept {
		if s.N != int64(i)+1 || s.Head.Hash != record.SumOf(s.Bytes) || i > 0 && s.Prev != kept[i-1].Head.Hash {
			t.Fatalf("event %d is sealed as %d after %s", i+1, s.N, s.Prev)
		}
	}
	d.drain()
	next := int64(1)
	for _, o := range d.outcomes() {
		if o.UID != "a" || o.First != next || o.Last < o.First || o.Err != nil {
			t.Fatalf("outcome %+v, want event %d on", o, next)
		}
		next = o.Last + 1
	}
	if next != 33 {
		t.Fatalf("the last outcome is of event %d, not 32", next-1)
	}
	d.reopen()
	if n := d.Pending("a"); n != 0 {
		t.Errorf("%d are pending", n)
	}
	d.sameLines(kept)
}

// sameLines fails the test unless session "a" is what was kept, byte for byte.
func (d *desk) sameLines(kept []record.Sealed) {
	d.t.Helper()
	lines, err := d.Lines("a")
	if err != nil || !slices.EqualFunc(kept, lines, func(s record.Sealed, line []byte) bool { return bytes.Equal(s.Bytes, line) }) {
		d.t.Fatalf("%d lines came back, not the %d that were kept, byte for byte: %v", len(lines), len(kept), err)
	}
	if events := d.load("a"); !slices.EqualFunc(events, lines, Is) {
		d.t.Fatalf("%d events came back, not the %d that were kept", len(events), len(kept))
	}
}

func beginsWithDetails(d *desk) {
	t := d.t
	if _, err := d.Load("nobody"); !errors.Is(err, store.ErrNoSession) {
		t.Errorf("load: %v", err)
	}
	if h, err := d.Head("nobody"); h != (record.Head{}) || err != nil {
		t.Errorf("head %v %v", h, err)
	}
	if _, err := d.Keep("nobody", Reading(1)); !errors.Is(err, store.ErrNoSession) {
		t.Errorf("keep: %v", err)
	}
	if _, err := d.Keep("a", Begin("b")...); !errors.Is(err, store.ErrOtherSession) {
		t.Errorf("keep: %v", err)
	}
	d.keep("a", Begin("a")...)
	again := record.Event{At: Start, Body: record.Details{UID: "b", Title: "Another", Unit: length.In}}
	if _, err := d.Keep("a", again); !errors.Is(err, store.ErrOtherSession) {
		t.Errorf("keep: %v", err)
	}
	again.Body = record.Details{UID: "a", Title: "Renamed", Unit: length.In}
	d.keep("a", again)
	if h, err := d.Headings(0); err != nil || len(h) != 1 || h[0].Title != "Renamed" {
		t.Errorf("headings %+v %v", h, err)
	}
}

func takesAllOrNone(d *desk) {
	t := d.t
	d.keep("a", Begin("a")...)
	d.drain()
	told := len(d.outcomes())
	bad := Reading(2)
	bad.Body = record.Reading{}
	if s, err := d.Keep("a", Reading(1), bad, Reading(3)); err == nil || s != nil {
		t.Fatalf("a reading of nothing was sealed: %v", s)
	}
	if s, err := d.Keep("a"); s != nil || err != nil {
		t.Errorf("keeping nothing: %v %v", s, err)
	}
	if h, _ := d.Head("a"); h.N != 2 || d.Pending("a") != 0 || len(d.outcomes()) != told {
		t.Errorf("head %v, %d pending: something was taken", h, d.Pending("a"))
	}
}

func knowsTheShop(d *desk) {
	t := d.t
	if got := d.load(""); len(got) != 0 {
		t.Errorf("a new shop has %d events", len(got))
	}
	if _, err := d.Keep("", Begin("shop")...); err == nil {
		t.Error("the shop took details")
	}
	d.keep("", Note("bought shells"))
	d.keep(record.ShopUID, Note("sold shells"))
	d.drain()
	d.reopen()
	if got := d.load(record.ShopUID); len(got) != 2 || got[1].Body.(record.Note).Text != "sold shells" {
		t.Errorf("the shop is %v", got)
	}
	if h, err := d.Headings(0); len(h) != 0 || err != nil {
		t.Errorf("the shop is listed: %v %v", h, err)
	}
}

func listsNewestFirst(d *desk) {
	t := d.t
	want := func(limit int, uids ...string) {
		t.Helper()
		d.drain()
		h, err := d.Headings(limit)
		var got []string
		for _, h := range h {
			got = append(got, h.UID)
		}
		if err != nil || !slices.Equal(got, uids) {
			t.Errorf("the newest %d are %q, want %q (%v)", limit, got, uids, err)
		}
	}
	want(0)
	for _, uid := range []string{"a", "b", "c"} {
		d.keep(uid, Begin(uid)...)
	}
	want(0, "c", "b", "a")
	d.keep("a", Reading(1))
	want(0, "a", "c", "b")
	d.keep("", Note("the shop moves nothing"))
	d.keep("a", Reading(2))
	want(2, "a", "c")
	d.keep("b", Reading(1))
	d.keep("c", Reading(1))
	want(5, "c", "b", "a")
	d.reopen()
	want(0, "c", "b", "a")
	d.keep("a", record.Event{At: Start, Body: record.State{State: record.Archived}})
	want(0, "a", "c", "b")
	yesterday := record.Event{At: Start.AddDate(0, 0, -1), By: "AB", Body: record.Note{Text: "the clock was put back"}}
	d.keep("b", yesterday)
	want(0, "b", "a", "c")
	d.reopen()
	want(0, "b", "a", "c")
}

func rebuildsTheSame(d *desk) {
	t := d.t
	for i, uid := range []string{"a", "b", "c"} {
		d.keep(uid, Begin(uid)...)
		d.keep(uid, Reading(10*i))
	}
	d.keep("", Note("a remark"))
	d.drain()
	before, err := d.Headings(0)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Rebuild(); err != nil {
		t.Fatal(err)
	}
	after, err := d.Headings(0)
	if err != nil || asJSON(t, after) != asJSON(t, before) {
		t.Errorf("the list became\n%s\nfrom\n%s\n%v", asJSON(t, after), asJSON(t, before), err)
	}
	d.keep("a", Reading(50))
	d.drain()
}
