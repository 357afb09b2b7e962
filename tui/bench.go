package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// bench lists the sessions, newest touched first; Enter resumes one at the
// very place where it was left.
type bench struct {
	st     *Station
	list   list
	known  catalogue
	loaded bool
	// asked is the newest question for sessions; wanted is the session that is
	// being opened for what follows.
	asked  int
	wanted int
	then   func(*Desk) tea.Cmd
	// finding are the words that are being typed, or nil; before is what was
	// looked for when that began.
	finding *words
	before  string
	w, h    int
}

func newBench(st *Station) *bench { return &bench{st: st} }

// Init asks for the sessions, and for the one to open at once.
func (b *bench) Init() tea.Cmd {
	if b.st.Notice != "" {
		b.st.Say(draw.Plain, b.st.Notice)
	}
	cmds := []tea.Cmd{b.refresh()}
	if b.st.Open != "" {
		cmds = append(cmds, b.open(b.st.Open))
	}
	return tea.Batch(cmds...)
}

// Update takes the answers and the words that are typed.
func (b *bench) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case term.Token:
		b.typed(msg)
	case answer[headings]:
		return b.take(msg)
	case answer[opened]:
		return b.seat(msg)
	case answer[backedUp]:
		b.tellBackup(msg)
	case returned:
		return b.refresh()
	case begun:
		b.st.Push(newMeasure(b.st, msg.desk))
	}
	return nil
}

// Resize sets the size of the body.
func (b *bench) Resize(w, h int) { b.w, b.h = w, h }

// Title names the screen.
func (b *bench) Title() string { return "the bench" }

// Typing takes every character while words are typed.
func (b *bench) Typing() Typing {
	if b.finding != nil {
		return Words
	}
	return NotTyping
}

// Actions are the bench's keys, or those of finding.
func (b *bench) Actions() []Action {
	if b.finding != nil {
		return b.findActions()
	}
	none := ""
	if len(b.known.shown) == 0 {
		none = "no session is shown: n begins one"
	}
	begins := "n|enter"
	var out []Action
	if !b.bare() {
		begins = "n"
		out = append(out, on("enter", "resume", func() tea.Cmd { return b.open(b.marked().UID) }).unless(none).
			because("goes on at the very place where the session was left"))
	}
	out = append(out,
		on(begins, "new session", func() tea.Cmd {
			b.st.Push(newSetup(b.st, nil))
			return nil
		}).because("asks what is on the bench, then measuring begins"),
		quiet(on("p", "prep", b.prep).unless(none)).because("opens the sign-off of the marked session: what is not ready yet"),
		quiet(on("e", "sheet", b.sheet).unless(none)).because("opens the build sheet of the marked session, to look at and to write"),
		on("f|/", "find", b.find).because("by any word, or part of one, of title, customer or engine, as it is typed"),
		on("d", "duplicate", b.duplicate).unless(none).
			because("begins a session for the next engine with the setup of the marked one; its gauges are zeroed anew"),
	)
	out = append(out, b.archiveActions(none)...)
	out = append(out, b.backupAction())
	out = append(out, b.moves("up|-", "down|+")...)
	if b.known.words != "" {
		out = append(out, on("esc", "all sessions", b.findNothing).because("shows again what does not have the words"))
	}
	return append(out, on("q", "quit", func() tea.Cmd {
		b.st.Quit()
		return nil
	}).because("leaves once everything is kept"))
}

// bare reports whether there is no session at all: Enter begins the first one then,
// for a keypad has no n.
func (b *bench) bare() bool {
	return b.loaded && len(b.known.all) == 0
}

// moves are the keys that move the mark.
func (b *bench) moves(up, down string) []Action {
	return []Action{
		quiet(on(up, "up", func() tea.Cmd { return b.move(-1) })),
		quiet(on(down, "down", func() tea.Cmd { return b.move(1) })),
		on("pgup", "", func() tea.Cmd { return b.move(-b.room()) }),
		on("pgdown", "", func() tea.Cmd { return b.move(b.room()) }),
	}
}

func (b *bench) move(by int) tea.Cmd {
	b.list.move(by, len(b.known.shown))
	return nil
}

// marked is the session under the mark, none when nothing is shown.
func (b *bench) marked() record.Heading {
	if n := len(b.known.shown); n > 0 {
		return *b.known.shown[max(0, min(b.list.at, n-1))]
	}
	return record.Heading{}
}

// keepMark does something to what is shown and leaves the mark on its session,
// or where it stood when that one is gone.
func (b *bench) keepMark(change func()) {
	uid := b.marked().UID
	change()
	if at := b.known.index(uid); at >= 0 {
		b.list.at = at
	}
	b.list.move(0, len(b.known.shown))
}
