package tui

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/sheet"
	"borewright/tui/draw"
)

// sheetScreen shows the build sheet as it would leave the shop, lets its form
// and units be chosen, and writes it.
type sheetScreen struct {
	st    *Station
	desk  *Desk
	form  sheet.Form
	units int // of sheetUnits
	// asked is the newest question for a sheet, made its answer, bad why there
	// is none.
	asked int
	made  *sheet.Made
	bad   error
	// writing is the newest attempt to write; there says that a file was in the
	// way, went where the sheet went.
	writing int
	there   bool
	went    string
	// lines are what is shown of the sheet in linesWide cells.
	lines     []paintedLine
	linesWide int
	list      list
	w, h      int
}

// written is where a sheet went.
type written struct{ path string }

func newSheet(st *Station, d *Desk) *sheetScreen { return &sheetScreen{st: st, desk: d} }

// sheetKey is the key that opens the sheet of a session.
func (st *Station) sheetKey(d *Desk) Action {
	return on("e", "sheet", func() tea.Cmd {
		st.Push(newSheet(st, d))
		return nil
	}).because("the record that leaves the shop: looked at, then written as a page, a document or tables")
}

// sheet opens the sheet of the marked session.
func (b *bench) sheet() tea.Cmd {
	return b.with(b.marked().UID, func(d *Desk) tea.Cmd {
		b.st.Push(newSheet(b.st, d))
		return nil
	})
}

// Init makes the sheet.
func (s *sheetScreen) Init() tea.Cmd { return s.make() }

// Update takes in the sheet that was made, and where it went.
func (s *sheetScreen) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case answer[sheet.Made]:
		if msg.id == s.asked {
			s.made, s.bad, s.lines = &msg.value, msg.err, nil
			if s.bad != nil {
				s.made = nil
			}
		}
	case answer[written]:
		if msg.id == s.writing {
			s.ended(msg.value.path, msg.err)
		}
	}
	return nil
}

// Resize sets the size of the body.
func (s *sheetScreen) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *sheetScreen) Title() string { return "build sheet, " + s.desk.Title() }

func (s *sheetScreen) session() *Desk { return s.desk }

// Typing takes no characters.
func (s *sheetScreen) Typing() Typing { return NotTyping }

// Actions are the sheet's keys.
func (s *sheetScreen) Actions() []Action {
	tables := ""
	if !s.form.Document() {
		tables = "tables and JSON have the units of the session"
	}
	free := s.whyNot()
	if free == "" && !s.there {
		free = "there is no file in the way"
	}
	return []Action{
		on("enter", "write it", func() tea.Cmd { return s.write(false) }).unless(s.whyNot()).
			because("writes the file that is named above; one that is there is left as it is"),
		on("o", "write over", func() tea.Cmd { return s.write(true) }).unless(free).
			because("writes over the file that is in the way"),
		on("f|*|right", "form", func() tea.Cmd { return s.turn(1) }).
			because("a page for a browser, a document to print, tables of readings or results, or the assessment for other programs"),
		quiet(on("left", "form before", func() tea.Cmd { return s.turn(-1) })),
		on("u", "units", s.unit).unless(tables).because("inch, millimetre or both"),
		quiet(on("up|-", "up", func() tea.Cmd { return s.scroll(-1) })),
		quiet(on("down|+", "down", func() tea.Cmd { return s.scroll(1) })),
		on("pgup", "", func() tea.Cmd { return s.scroll(-s.room()) }),
		on("pgdown", "", func() tea.Cmd { return s.scroll(s.room()) }),
	}
}

// Explain says more on the help page.
func (s *sheetScreen) Explain() []string {
	return []string{
		"  The sheet is made of the events that are kept, and quotes their number and their",
		"  digest: borewright sheet --check FILE tells later whether it still matches.",
		"  Pictures are drawn in the page and in the document; here they are only named.",
	}
}

// whyNot says why nothing can be written now, or "".
func (s *sheetScreen) whyNot() string {
	switch {
	case s.st.Folder == nil:
		return "this station has no folder to write into"
	case s.bad != nil:
		return s.bad.Error()
	case s.made == nil:
		return "the sheet is still being made"
	case s.desk.Pending() > 0:
		return fmt.Sprintf("%d of the session's events are not kept yet", s.desk.Pending())
	default:
		return ""
	}
}

// make makes the sheet away from the screen, of the events as they are now.
func (s *sheetScreen) make() tea.Cmd {
	s.asked++
	s.made, s.bad, s.there, s.went = nil, nil, false, ""
	events := slices.Clone(s.desk.Session.Events())
	form, units := s.form, s.unitsNow()
	return ask(s.asked, func() (sheet.Made, error) {
		session, err := engine.Replay(events)
		if err != nil {
			return sheet.Made{}, err
		}
		return sheet.Make(form, session, units)
	})
}

// turn goes on to another form.
func (s *sheetScreen) turn(by int) tea.Cmd {
	all := sheet.Forms()
	at := (slices.Index(all, s.form) + by + len(all)) % len(all)
	s.form, s.list = all[at], list{}
	return s.make()
}

// sheetUnits are the units in the order of the session: its own first.
func (s *sheetScreen) sheetUnits() []sheet.Units {
	own, other := s.desk.Session.Unit(), s.desk.Session.OtherUnit()
	return []sheet.Units{sheet.Units(own.String()), sheet.Units(other.String()), sheet.Both}
}

func (s *sheetScreen) unitsNow() sheet.Units { return s.sheetUnits()[s.units] }

func (s *sheetScreen) unit() tea.Cmd {
	s.units = (s.units + 1) % len(s.sheetUnits())
	return s.make()
}

// fileName is the name of the file, by the session's title.
func (s *sheetScreen) fileName() string {
	return cmp.Or(draw.Clean(s.desk.Title()), "build sheet") + s.form.Suffix()
}

// write writes the sheet into the folder.
func (s *sheetScreen) write(over bool) tea.Cmd {
	s.writing++
	folder, name, data := s.st.Folder, s.fileName(), s.made.Data
	shut := s.desk.Shut
	return ask(s.writing, func() (written, error) {
		if shut != nil {
			return written{}, shut
		}
		path, err := folder.Write(name, data, over)
		return written{path}, err
	})
}

// ended says where the sheet went, or why it did not.
func (s *sheetScreen) ended(path string, err error) {
	s.there = errors.Is(err, ErrThere)
	if err != nil {
		s.went = ""
		text := "NOT WRITTEN: " + err.Error()
		if s.there {
			text += "; o writes over it"
		}
		s.st.Say(draw.Bad, text)
		s.st.Ring(2)
		return
	}
	s.went = path
	s.st.Say(draw.Good, "written to "+path)
	s.st.Ring(1)
}
