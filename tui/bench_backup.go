package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// backedUp is where a backup is.
type backedUp string

// backupAction is the key that copies everything while it is in use.
func (b *bench) backupAction() Action {
	off := ""
	if b.st.Backup == nil {
		off = "nothing is kept in a file that can be copied"
	}
	return quiet(on("b", "back up", b.backUp).unless(off)).
		because("copies everything that is kept into one more file beside it, and checks the copy; measuring goes on meanwhile")
}

func (b *bench) backUp() tea.Cmd {
	b.st.Say(draw.Plain, "backing up")
	return ask(0, func() (backedUp, error) {
		path, err := b.st.Backup()
		return backedUp(path), err
	})
}

// tellBackup says where the copy is, or why there is none.
func (b *bench) tellBackup(a answer[backedUp]) {
	if a.err != nil {
		b.st.Say(draw.Bad, "no backup was made: "+a.err.Error())
		b.st.Ring(2)
		return
	}
	b.st.Say(draw.Good, "backed up and checked: "+string(a.value))
}
