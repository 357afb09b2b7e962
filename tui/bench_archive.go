package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// archiveActions are the keys that put a session away, bring it back, and show
// what is away.
func (b *bench) archiveActions(none string) []Action {
	away, back := none, none
	switch archived := b.marked().State == record.Archived; {
	case none != "":
	case archived:
		away = "it is in the archive already; R brings it back"
	default:
		back = "it is not in the archive"
	}
	show := "show archived"
	if b.known.archived {
		show = "hide archived"
	}
	return []Action{
		on("A", "archive", b.archive).unless(away).because("takes the marked session out of the list, after asking; nothing is deleted"),
		on("R", "restore", func() tea.Cmd { return b.become(b.marked(), record.Restored) }).unless(back).
			because("brings the marked session back out of the archive"),
		quiet(on("a", show, func() tea.Cmd {
			b.keepMark(func() { b.known.showArchived(!b.known.archived) })
			return nil
		})),
	}
}

// archive asks before it puts the marked session away.
func (b *bench) archive() tea.Cmd {
	h := b.marked()
	b.st.Push(&confirm{
		st: b.st, title: "archive a session", yes: "archive it", no: "leave it in the list",
		question: []string{
			"Archive " + quoted(h.Title) + "?", "",
			"It leaves this list and is not found there any more, so that the list shows what is being worked on.",
			"Nothing is deleted: in the list, a shows what is archived and R brings it back.",
		},
		do: func() tea.Cmd { return b.become(h, record.Archived) },
	})
	return nil
}

// become records that a session is archived or restored.
func (b *bench) become(h record.Heading, state string) tea.Cmd {
	return b.with(h.UID, func(d *Desk) tea.Cmd {
		if err := d.Record(record.State{State: state}); err != nil {
			b.st.Say(draw.Bad, quoted(h.Title)+" is not "+state+": "+err.Error())
			return nil
		}
		b.st.Say(draw.Plain, quoted(h.Title)+" is "+state)
		return b.refresh()
	})
}
