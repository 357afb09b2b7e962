package tui

import (
	"fmt"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
	"borewright/tui/draw"
)

// longEvents is how many events the session has on which drawing and keying are
// measured.
const longEvents = 100_000

// longBench is a station on a session of longEvents, at a bore to be read.
type longBench struct {
	r    *router
	book *shelf
	uid  string
}

func newLongBench(b *testing.B, w, h int) *longBench {
	b.Helper()
	const uid = "long"
	events, err := recordtest.Seal(recordtest.Events(recordtest.Long(uid, longEvents)))
	if err != nil {
		b.Fatal(err)
	}
	book := &shelf{sessions: map[string][]record.Sealed{uid: events}, order: []string{uid}, inbox: NewInbox(), kept: map[string]int64{uid: longEvents}}
	now := events[len(events)-1].At
	st := &Station{Options: Options{
		Book: book, By: "ek", Now: now.Local, UID: func() string { return "x" },
		Palette: draw.NewPalette(true, termenv.ANSI256), Signs: draw.NewSigns(false), Open: uid,
	}}
	x := &longBench{r: newRouter(st, newBench(st)), book: book, uid: uid}
	x.r.Update(tea.WindowSizeMsg{Width: w, Height: h})
	x.run(x.r.Init())
	if _, ok := x.r.top().(*measure); !ok {
		b.Fatalf("the screen on top is %T", x.r.top())
	}
	return x
}

// run runs a command to rest.
func (x *longBench) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			x.run(c)
		}
	default:
		_, next := x.r.Update(msg)
		x.run(next)
	}
}

// key presses a key, and hears what became of it.
func (x *longBench) key(msg tea.KeyMsg) {
	x.r.Update(msg)
	for len(x.book.inbox.mail) > 0 {
		x.r.Update(<-x.book.inbox.mail)
	}
}

// digit is the key of a character.
func digit(r rune) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }

// BenchmarkDraw draws the measure screen with a figure half keyed.
func BenchmarkDraw(b *testing.B) {
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			x := newLongBench(b, size[0], size[1])
			x.key(digit('+'))
			x.key(digit('3'))
			b.ReportAllocs()
			for b.Loop() {
				if lines := len(x.r.picture()); lines != size[1] {
					b.Fatalf("%d lines", lines)
				}
			}
		})
	}
}

// back leads to the first bore again once all are read, by honing them.
func (x *longBench) back(b *testing.B) {
	b.Helper()
	m := x.r.top().(*measure)
	if m.keys.Held.Reason+m.keys.Asking.What != "" {
		b.Fatalf("not taken: %q, %q", m.keys.Held.Reason, m.keys.Asking.What)
	}
	if m.place.Of.Family == plan.Bore {
		return
	}
	if err := m.desk.Record(recordtest.Honed()); err != nil {
		b.Fatal(err)
	}
	m.move(m.desk.Session.Enter(plan.Feature{Family: plan.Bore, At: 1}))
}

// BenchmarkKey takes a digit in and draws; BenchmarkEnter takes the reading in,
// with what it touches, and draws. The other key is not counted.
func BenchmarkKey(b *testing.B)   { benchmarkKey(b, false) }
func BenchmarkEnter(b *testing.B) { benchmarkKey(b, true) }

func benchmarkKey(b *testing.B, enter bool) {
	b.Helper()
	x := newLongBench(b, 80, 24)
	counted, other := digit('6'), tea.KeyMsg{Type: tea.KeyEnter}
	if enter {
		counted, other = other, counted
	}
	press := func(k tea.KeyMsg) {
		x.key(k)
		x.r.picture()
	}
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		x.back(b)
		if enter {
			press(other)
		}
		b.StartTimer()
		press(counted)
		b.StopTimer()
		if !enter {
			press(other)
		}
		b.StartTimer()
	}
}
