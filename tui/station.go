package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// Options are what the station needs from outside.
type Options struct {
	Book  Book
	Inbox *Inbox
	// Folder is where sheets are written; without one none are.
	Folder Folder
	// Backup copies what is kept while it is in use, checks the copy and returns
	// where it is; nil where there is nothing to be copied.
	Backup func() (path string, err error)
	// Now is the time of an event; Watch is the clock that is only looked at, for
	// what is shown and for the rhythm of keys, and is Now when nil.
	Now, Watch func() time.Time
	// Keyed is called whenever keys come, or is nil.
	Keyed func()
	// UID makes a random session id; By are the initials written into events.
	UID func() string
	By  string
	// Output is the terminal; the bell is rung on it.
	Output *term.Output
	// Palette and Signs are how things are drawn.
	Palette draw.Palette
	Signs   draw.Signs
	ASCII   bool
	// Cable is a serial gauge, or nil.
	Cable *Cable
	// Open is the session to open at once, or "" for the bench.
	Open string
	// Crash writes down a fault of the program's own and returns where.
	Crash func(report string) (where string)
	// Notice is shown when the station opens, such as that this is a demo.
	Notice string
	// Apart says in the heading of every page why this is not the shop's database
	// at work, such as "invented"; "" where it is.
	Apart string
}

// Station is what every screen shares: the options, and the moves that the
// router makes once a screen has dealt with a token.
type Station struct {
	Options
	desks  []*Desk // every session opened since the station started
	moves  []move
	status status
	bells  int
	// cableAway is why the cable is away, or nil; cableKnown says that it was
	// looked for, cableTook that the last line of it was taken for a value.
	cableAway             error
	cableKnown, cableTook bool
}

// move is a change of the stack: push a screen, or pop the top one and hand
// its result to the screen beneath.
type move struct {
	push   Screen
	result any
	quit   bool
}

// status is the line above the footer.
type status struct {
	tone draw.Tone
	text string
}

// Pending returns the sessions that have events not yet kept.
func (st *Station) Pending() []*Desk {
	var out []*Desk
	for _, d := range st.desks {
		if d.Pending() > 0 {
			out = append(out, d)
		}
	}
	return out
}

// Push puts a screen on top once the present token is done.
func (st *Station) Push(s Screen) { st.moves = append(st.moves, move{push: s}) }

// Pop leaves the top screen; the one beneath gets the result as a message,
// when it is not nil.
func (st *Station) Pop(result any) { st.moves = append(st.moves, move{result: result}) }

// Quit ends the station, by way of what is not kept yet.
func (st *Station) Quit() { st.moves = append(st.moves, move{quit: true}) }

// Say shows a sentence until the next one.
func (st *Station) Say(tone draw.Tone, text string) { st.status = status{tone, draw.Clean(text)} }

// Hush takes the sentence away.
func (st *Station) Hush() { st.status = status{} }

// Ring rings the bell so many times: one for taken and kept, two for held or
// refused.
func (st *Station) Ring(n int) {
	st.bells += n
	if st.Output != nil {
		st.Output.Bell(n)
	}
}

// look looks at the clock.
func (st *Station) look() time.Time {
	if st.Watch != nil {
		return st.Watch()
	}
	return st.Now()
}

// event makes an event of now.
func (st *Station) event(b record.Body) record.Event {
	return record.Event{At: st.Now(), By: st.By, Body: b}
}

// answer is a message that goes to the screens; id tells a late one.
type answer[T any] struct {
	id    int
	value T
	err   error
}

// ask runs a piece of work away from the screen and brings its answer back.
func ask[T any](id int, work func() (T, error)) tea.Cmd {
	return func() tea.Msg {
		v, err := work()
		return answer[T]{id, v, err}
	}
}
