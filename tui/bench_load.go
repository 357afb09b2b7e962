package tui

import (
	"strconv"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// benchFirst is how many sessions the bench asks for first, as many as a tall
// window shows; the rest follows.
const benchFirst = 60

// headings are sessions as the book lists them: the newest, or all.
type headings struct {
	list  []listed
	whole bool
}

// restAfter is how long the newest sessions stand alone on the bench: to read all
// of 10,000 at once with the first frame held that up by 20 ms.
const restAfter = 200 * time.Millisecond

// refresh asks for the newest sessions.
func (b *bench) refresh() tea.Cmd { return b.headings(benchFirst, 0) }

// headings asks after a while for so many sessions, for all when limit is 0.
func (b *bench) headings(limit int, after time.Duration) tea.Cmd {
	b.asked++
	book := b.st.Book
	return ask(b.asked, func() (headings, error) {
		time.Sleep(after)
		hs, err := book.Headings(limit)
		return headings{listedOf(hs), limit == 0 || len(hs) < limit}, err
	})
}

// take takes the sessions in, and asks for the rest of them when it has not
// got them yet.
func (b *bench) take(a answer[headings]) tea.Cmd {
	if a.id != b.asked {
		return nil
	}
	b.loaded = true
	if a.err != nil {
		b.st.Say(draw.Bad, a.err.Error())
		return nil
	}
	b.keepMark(func() { b.known.take(a.value.list, a.value.whole) })
	for _, w := range b.st.Book.Warnings() {
		b.st.Say(draw.Warn, w)
	}
	if !b.known.whole {
		return b.headings(0, restAfter)
	}
	return nil
}

// opened is the events of a session that is being opened.
type opened struct {
	uid    string
	events []record.Sealed
}

// open resumes a session.
func (b *bench) open(uid string) tea.Cmd {
	return b.with(uid, func(d *Desk) tea.Cmd {
		b.st.Push(newMeasure(b.st, d))
		return nil
	})
}

// with opens a session unless it lies open already, and does something with it;
// what was to be done with another one meanwhile is dropped.
func (b *bench) with(uid string, then func(*Desk) tea.Cmd) tea.Cmd {
	if d, ok := b.st.deskOf(uid); ok {
		return then(d)
	}
	b.wanted++
	b.then = then
	book := b.st.Book
	return ask(b.wanted, func() (opened, error) {
		events, err := book.Load(uid)
		return opened{uid, events}, err
	})
}

// seat opens the session that was asked for last.
func (b *bench) seat(a answer[opened]) tea.Cmd {
	if a.id != b.wanted || b.then == nil {
		return nil
	}
	then := b.then
	b.then = nil
	d, err := b.desk(a)
	if err != nil {
		b.st.Say(draw.Bad, "the session was not opened: "+err.Error())
		return nil
	}
	before := b.st.status
	next := then(d)
	if now := b.st.status; d.Shut != nil && (now == before || now.tone != draw.Bad) {
		b.st.Say(draw.Bad, d.notice())
	}
	return next
}

// desk opens what was read of a session. One of which only the beginning can be
// read lies open with that, only to be looked at.
func (b *bench) desk(a answer[opened]) (*Desk, error) {
	if a.err != nil && len(a.value.events) == 0 {
		return nil, a.err
	}
	if d, ok := b.st.deskOf(a.value.uid); ok {
		return d, nil
	}
	d, err := newDesk(b.st, a.value.events)
	if err != nil || a.err == nil {
		return d, err
	}
	d.Shut = a.err
	return d, nil
}

// begun is a session that the setup has just begun.
type begun struct{ desk *Desk }

// quoted is a title in a sentence.
func quoted(title string) string { return strconv.Quote(draw.Clean(title)) }
