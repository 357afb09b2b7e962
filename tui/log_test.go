package tui

import (
	"strings"
	"testing"

	"borewright/engine/record"
)

// atLog opens the log of the interrupted launch, with what the keys did first.
func atLog(t *testing.T, before ...string) (*setupBench, *logScreen) {
	t.Helper()
	b := newSetupBench(t, "launch")
	b.press("<enter>")
	b.press(before...)
	b.press("l")
	return b, top[*logScreen](b.station)
}

func numbers64(l *logScreen) []int64 {
	var out []int64
	for _, e := range l.shown {
		out = append(out, e.N)
	}
	return out
}

func TestTheLogIsFiltered(t *testing.T) {
	b, l := atLog(t)
	all := len(l.shown)
	if all != len(b.book.sessions[launchUID]) {
		t.Fatalf("%d events are shown of %d", all, len(b.book.sessions[launchUID]))
	}
	b.press("f")
	b.see(" events of bore 4: ")
	for _, e := range l.shown {
		if !e.Concerns("bore/4") {
			t.Errorf("event %d (%s) is not of bore 4", e.N, e.Text)
		}
	}
	bore4 := len(l.shown)
	b.press("*")
	b.see(" events of main journals: ")
	for l.filter.about != "bore" {
		b.press("f")
	}
	b.see(" events of bores: ")
	if len(l.shown) <= bore4 || len(l.shown) >= all {
		t.Errorf("of bores are %d events, of bore 4 %d, of all %d", len(l.shown), bore4, all)
	}
	for l.filter.about != "" {
		b.press("*")
	}
	b.see(" all events: ")
	if len(l.shown) != all {
		t.Errorf("round again %d events are shown", len(l.shown))
	}
}

func TestWordsAreFound(t *testing.T) {
	b, l := atLog(t)
	all := len(l.shown)
	b.press("/", "Bore 2 TOP")
	b.see(" find: Bore 2 TOP|")
	if len(l.shown) == 0 || len(l.shown) >= all {
		t.Fatalf("%d events are shown of %d", len(l.shown), all)
	}
	for _, e := range l.shown {
		if text := strings.ToLower(e.Text); !strings.Contains(text, "bore") || !strings.Contains(text, "top") {
			t.Errorf("event %d (%s) is found", e.N, e.Text)
		}
	}
	found := len(l.shown)
	b.press("<enter>")
	b.see(`all events with "Bore 2 TOP": `)
	b.press("/", "x", "<esc>")
	if len(l.shown) != found || l.typed != nil {
		t.Errorf("given up, %d events are shown, not %d", len(l.shown), found)
	}
	b.press("/", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "no such thing at all")
	b.see("nothing here; f goes on")
	b.press("<enter>", "W")
	b.see("withdraw: no event is shown")
	b.press("<enter>")
	b.see("go to its place: no event is shown")
	b.press("<down>", "<up>", "n", "<esc>")
}

// The marked event stays marked when the filter changes, where it can.
func TestTheMarkStays(t *testing.T) {
	b, l := atLog(t)
	b.press("<down>", "<down>", "<down>")
	was, _ := l.marked()
	b.press("/", "bore", "<enter>")
	now, _ := l.marked()
	if !strings.Contains(was.Text, "bore") || now.N != was.N {
		t.Errorf("event %d (%s) was marked, and now %d is", was.N, was.Text, now.N)
	}
	for l.filter.about != "main-journal" {
		b.press("f")
	}
	b.press("/", "<ctrl+w>", "<enter>")
	older, _ := l.marked()
	if newest := l.shown[0]; older.N != newest.N || older.N > was.N {
		t.Errorf("of the journals event %d is marked; before it was %d of the bores", older.N, was.N)
	}
}

func TestTheLogShowsWhatReplacedWhat(t *testing.T) {
	b, l := atLog(t, "+4", "<enter>", "/", "/", "+5", "<enter>")
	n := l.n
	b.see("(replace")
	b.press("<down>")
	if e, _ := l.marked(); e.N != n-1 || e.ReplacedBy != n {
		t.Fatalf("event %d is marked, replaced by %d", e.N, e.ReplacedBy)
	}
	b.see("(replaced by ")
	b.see(" replaced by ")
	b.press("<up>")
	b.see(" replaces ")
}

func TestAWithdrawnEventSaysWhatTookItBack(t *testing.T) {
	b, l := atLog(t, "+4", "<enter>")
	n := l.n
	b.press("W", "<enter>")
	e, _ := l.marked()
	if e.N != n || e.Live || e.WithdrawnBy != n+1 {
		t.Fatalf("event %d is marked: live %v, withdrawn by %d", e.N, e.Live, e.WithdrawnBy)
	}
	b.see("(withdrawn by ")
	b.see(" withdrawn by ")
	b.press("W", "<enter>")
	if e, _ := l.marked(); e.N != n || !e.Live {
		t.Errorf("event %d is marked: live %v, want %d brought back", e.N, e.Live, n)
	}
	b.see("brought back what event")
}

func TestANoteIsAdded(t *testing.T) {
	b, l := atLog(t)
	b.press("n")
	b.see(" note on bore 4: |")
	b.press("score at 2 o'clock, W?")
	b.press("<enter>")
	n, is := b.last(launchUID).Body.(record.Note)
	if !is || n.On != "bore/4" || n.Text != "score at 2 o'clock, W?" {
		t.Fatalf("recorded %+v", b.last(launchUID).Body)
	}
	b.see("note on bore 4: score at 2 o'clock, W?")
	b.press("f")
	if got := numbers64(l)[0]; got != b.last(launchUID).N {
		t.Errorf("of bore 4 the newest is event %d, not the note", got)
	}
	b.press("n", "<enter>")
	if _, is := b.last(launchUID).Body.(record.Note); !is || l.typed != nil {
		t.Error("a note without words does something")
	}
	before := b.last(launchUID).N
	b.press("n", "x", "<esc>")
	if b.last(launchUID).N != before || l.typed != nil {
		t.Error("a note that was given up is kept")
	}
}

func TestANoteMayBeOnTheSession(t *testing.T) {
	b, l := atLog(t)
	for range l.all {
		b.press("<down>")
	}
	b.press("n", "cold shop", "<enter>")
	if n, is := b.last(launchUID).Body.(record.Note); !is || n.On != "" || n.Text != "cold shop" {
		t.Errorf("recorded %+v", b.last(launchUID).Body)
	}
}

func TestTheLogLeadsToAPlaceFromAnyScreen(t *testing.T) {
	b, _ := atLog(t)
	b.press("<down>", "<enter>")
	m := top[*measure](b.station)
	was := m.where()
	b.press("w", "l", "<down>", "<enter>")
	if got := top[*measure](b.station).where(); got != was {
		t.Errorf("from the summary the log leads to %s, not to %s", got, was)
	}
}

func TestTheLogLooksSo(t *testing.T) {
	b, _ := atLog(t, "+4", "<enter>", "/", "/", "+5", "<enter>")
	b.press("<down>", "f")
	b.golden(`
 borewright: log of Kittiwake, harbour launch
 events of bore 4: 4 of 93
    93  11 Mar 07:30  ek  bore 4, middle, across: +0.0005 in from zero, keyed +~
>   92  11 Mar 07:30  ek  (replaced by 93) bore 4, middle, across: +0.0004 in f~
    91  10 Mar 15:36  ek  bore 4, top, along: +0.0003 in from zero, keyed +3
    90  10 Mar 15:36  ek  bore 4, top, across: +0.0002 in from zero, keyed +2










--------------------------------------------------------------------------------
 92, 11 Mar 2026 07:30:06, ek: bore 4, middle, across: +0.0004 in from zero,
 keyed +4
 replaced by 93, 11 Mar 07:30, ek: bore 4, middle, across: +0.0005 in from
 zero, keyed +5 (replace)


 Up newer  Down older  f filter  / find  n note  W withdraw  ? help  Esc back`)
}
