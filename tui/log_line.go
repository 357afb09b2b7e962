package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// The most bytes that a note, and the words to find, may have.
const (
	mostNote = 500
	mostFind = 60
)

// logLine is a line that is typed on the log: words to find, or a note.
type logLine struct {
	words words
	// finds says that it filters, letter by letter; else it is a note on a
	// feature, or on the session where that is none.
	finds bool
	on    plan.Feature
	title string
	// was is the filter as it stood before.
	was logFilter
}

// find begins to type what is looked for.
func (l *logScreen) find() tea.Cmd {
	l.typed = &logLine{words: newWords(l.filter.words), finds: true, title: "find", was: l.filter}
	return nil
}

// note begins a note on the marked event's feature.
func (l *logScreen) note() tea.Cmd {
	e, _ := l.marked()
	l.typed = &logLine{words: newWords(""), on: e.Of, title: "note on the session"}
	if !e.Of.IsZero() {
		l.typed.title = "note on " + l.desk.Session.Name(e.Of)
	}
	return nil
}

// actions are the keys while the line is typed.
func (x *logLine) actions(l *logScreen) []Action {
	enter := "keep the note"
	if x.finds {
		enter = "show these"
	}
	return []Action{
		on("enter", enter, l.accept),
		quiet(on("esc", "back", l.giveUp)).because("gives up what is typed"),
	}
}

// typing takes a key into the line.
func (l *logScreen) typing(t term.Token) {
	most := mostNote
	if l.typed.finds {
		most = mostFind
	}
	next, refused := l.typed.words.key(t, most)
	if refused != "" {
		l.st.Say(draw.Warn, refused)
		l.st.Ring(2)
		return
	}
	l.st.Hush()
	l.typed.words = next
	if l.typed.finds {
		l.filter.words = next.text()
		l.show()
	}
}

// accept keeps the filter, or the note. A note without words is none.
func (l *logScreen) accept() tea.Cmd {
	x := l.typed
	text := strings.TrimSpace(x.words.text())
	if x.finds || text == "" {
		l.typed = nil
		return nil
	}
	n := record.Note{Text: text}
	if !x.on.IsZero() {
		n.On = x.on.String()
	}
	if err := l.desk.Record(n); err != nil {
		l.st.Say(draw.Bad, err.Error())
		l.st.Ring(2)
		return nil
	}
	l.typed = nil
	l.tell()
	l.st.Say(draw.Plain, "noted: "+text)
	return nil
}

// giveUp leaves the line, and the filter as it was.
func (l *logScreen) giveUp() tea.Cmd {
	if l.typed.finds {
		l.filter = l.typed.was
		l.show()
	}
	l.typed = nil
	return nil
}

// view draws the line with what is typed.
func (x *logLine) view(st *Station, w int) string {
	p := &st.Palette
	head := " " + draw.Clean(x.title) + ": "
	return p.Paint(draw.Marked, head) + p.Paint(draw.Value, x.words.view(max(1, w-draw.Width(head)), cursorMark(st)))
}
