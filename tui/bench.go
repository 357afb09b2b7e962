package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// benchLimit is how many sessions the bench lists.
const benchLimit = 200

// bench lists the sessions, newest touched first; Enter resumes one at the
// very place where it was left.
type bench struct {
	st      *Station
	list    list
	rows    []record.Heading
	loaded  bool
	asked   int
	opening bool
	w, h    int
}

func newBench(st *Station) *bench { return &bench{st: st} }

type headings []record.Heading

// opened is the events of a session that is about to be resumed.
type opened struct {
	uid    string
	events []record.Sealed
}

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

func (b *bench) refresh() tea.Cmd {
	b.asked++
	book := b.st.Book
	return ask(b.asked, func() (headings, error) {
		hs, err := book.Headings(benchLimit)
		return headings(hs), err
	})
}

// Update takes the answers and moves the cursor.
func (b *bench) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case answer[headings]:
		b.take(msg)
	case answer[opened]:
		b.seat(msg)
	case returned:
		return b.refresh()
	}
	return nil
}

func (b *bench) take(a answer[headings]) {
	if a.id != b.asked {
		return
	}
	b.loaded = true
	if a.err != nil {
		b.st.Say(draw.Bad, a.err.Error())
		return
	}
	b.rows = a.value
	b.list.window(len(b.rows), 1)
	for _, w := range b.st.Book.Warnings() {
		b.st.Say(draw.Warn, w)
	}
}

// open resumes a session.
func (b *bench) open(uid string) tea.Cmd {
	if d, ok := b.st.deskOf(uid); ok {
		b.st.Push(newMeasure(b.st, d))
		return nil
	}
	b.opening = true
	book := b.st.Book
	return ask(0, func() (opened, error) {
		events, err := book.Load(uid)
		return opened{uid, events}, err
	})
}

func (b *bench) seat(a answer[opened]) {
	if !b.opening {
		return
	}
	b.opening = false
	if a.err != nil {
		b.st.Say(draw.Bad, "the session was not opened: "+a.err.Error())
		return
	}
	d, err := newDesk(b.st, a.value.events)
	if err != nil {
		b.st.Say(draw.Bad, "the session was not opened: "+err.Error())
		return
	}
	b.st.Push(newMeasure(b.st, d))
}

// Resize sets the size of the body.
func (b *bench) Resize(w, h int) { b.w, b.h = w, h }

// Title names the screen.
func (b *bench) Title() string { return "the bench" }

// Typing takes no characters.
func (b *bench) Typing() Typing { return NotTyping }

// Actions are the bench's keys.
func (b *bench) Actions() []Action {
	none := ""
	if len(b.rows) == 0 {
		none = "there is no session yet: n begins one"
	}
	return []Action{
		on("enter", "resume", func() tea.Cmd { return b.open(b.rows[b.list.at].UID) }).unless(none).
			because("goes on at the very place where the session was left"),
		on("n", "new session", func() tea.Cmd {
			b.st.Push(newSetup(b.st, nil))
			return nil
		}).because("asks what is on the bench, then measuring begins"),
		on("up|-", "up", func() tea.Cmd { return b.move(-1) }),
		on("down|+", "down", func() tea.Cmd { return b.move(1) }),
		on("pgup", "", func() tea.Cmd { return b.move(-b.room()) }),
		on("pgdown", "", func() tea.Cmd { return b.move(b.room()) }),
		on("q", "quit", func() tea.Cmd {
			b.st.Quit()
			return nil
		}).because("leaves once everything is kept"),
	}
}

func (b *bench) move(by int) tea.Cmd {
	b.list.move(by, len(b.rows))
	return nil
}

// Each session takes two lines and a blank one; a heading stands above.
const benchRow, benchTop = 3, 2

func (b *bench) room() int { return max(1, (b.h-benchTop)/benchRow) }

// View draws the list.
func (b *bench) View() []string {
	p := &b.st.Palette
	switch {
	case !b.loaded:
		return []string{"", "  Reading the sessions..."}
	case len(b.rows) == 0:
		return b.empty()
	}
	lines := []string{"  " + p.Paint(draw.Dim, fmt.Sprintf("%d on the bench, last touched first", len(b.rows))), ""}
	first, last := b.list.window(len(b.rows), b.room())
	for i := first; i < last; i++ {
		lines = append(lines, b.row(b.rows[i], i == b.list.at)...)
	}
	return lines
}

func (b *bench) empty() []string {
	p := &b.st.Palette
	return []string{
		"", "  " + p.Paint(draw.Title, "Nothing on the bench yet."), "",
		"  Press " + p.Paint(draw.Key, "n") + " to begin a session: pick what is on the bench, say the size of the",
		"  ring or micrometer that the bore gauge is set on, and key the first reading.", "",
		"  Every reading is kept as soon as the bell rings. Nothing needs saving.",
	}
}

func (b *bench) row(h record.Heading, here bool) []string {
	p := &b.st.Palette
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = b.st.Signs.Here+" ", draw.Marked
	}
	when := Ago(h.Last, b.st.look())
	room := b.w - 4 - draw.Width(when)
	title := draw.Clean(h.Title)
	if h.State != "" {
		title += " (" + h.State + ")"
	}
	return []string{
		" " + p.Paint(tone, mark+draw.Fit(title, room)+when),
		"   " + p.Paint(draw.Dim, draw.Fit(b.about(h), b.w-4)),
		"",
	}
}

// about says what was last measured and when, and then whose it is, which may
// be cut off.
func (b *bench) about(h record.Heading) string {
	text := "nothing measured yet"
	if h.Readings > 0 {
		text = fmt.Sprintf("%d readings, last %s %s: %s at %s", h.Readings,
			h.LastPlace.Of.Family.Noun(), draw.Clean(h.LastLabel), draw.Clean(h.LastKeyed), h.LastAt.Format("15:04"))
	}
	for _, s := range []string{h.Engine, h.Customer} {
		if s != "" {
			text += ", " + draw.Clean(s)
		}
	}
	return text
}

// Ago says when something was, as seen from now: the time today, the weekday
// within a week, else the date.
func Ago(at, now time.Time) string {
	at = at.In(now.Location())
	midnight := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	switch {
	case at.IsZero():
		return ""
	case !at.Before(midnight):
		return "today " + at.Format("15:04")
	case !at.Before(midnight.AddDate(0, 0, -1)):
		return "yesterday " + at.Format("15:04")
	case !at.Before(midnight.AddDate(0, 0, -6)):
		return at.Format("Monday 15:04")
	default:
		return at.Format("2 Jan 2006")
	}
}
