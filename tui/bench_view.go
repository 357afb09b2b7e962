package tui

import (
	"fmt"
	"time"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// Each session takes two lines and one that is blank unless its prep is not
// ready; a heading stands above.
const benchRow, benchTop = 3, 2

func (b *bench) room() int { return max(1, (b.h-benchTop)/benchRow) }

// View draws the list.
func (b *bench) View() []string {
	switch {
	case !b.loaded:
		return []string{"", "  Reading the sessions..."}
	case b.bare():
		return b.empty()
	}
	lines := []string{b.head(), ""}
	shown := b.known.shown
	if len(shown) == 0 {
		return append(lines, b.nothing()...)
	}
	first, last := b.list.window(len(shown), b.room())
	for i := first; i < last; i++ {
		lines = append(lines, b.row(shown[i], i == b.list.at)...)
	}
	return lines
}

// head says what is looked for, or how many sessions there are.
func (b *bench) head() string {
	p := &b.st.Palette
	count := b.count()
	if b.finding == nil && b.known.words == "" {
		return "  " + p.Paint(draw.Dim, count)
	}
	text := draw.Clean(b.known.words)
	if b.finding != nil {
		text = b.finding.view(max(10, b.w/2-8), cursorMark(b.st))
	}
	return "  " + p.Paint(draw.Marked, "find: ") + p.Paint(draw.Value, text) + "  " + p.Paint(draw.Dim, count)
}

// count says how many sessions there are, or are found, and how many are not
// shown because they are archived.
func (b *bench) count() string {
	out, in := b.known.counts()
	text := fmt.Sprintf("%d on the bench, last touched first", out)
	if b.known.words != "" || b.finding != nil {
		text = fmt.Sprintf("%d found, last touched first", len(b.known.shown))
	}
	switch {
	case !b.known.whole:
		return text + "; reading the rest..."
	case in > 0 && b.known.archived:
		return text + fmt.Sprintf("; %d archived among them", in)
	case in > 0 && b.known.words == "" && b.finding == nil:
		return text + fmt.Sprintf("; %d archived: a shows them", in)
	}
	return text
}

func (b *bench) empty() []string {
	p := &b.st.Palette
	return []string{
		"", "  " + p.Paint(draw.Title, "Nothing on the bench yet."), "",
		"  Press " + p.Paint(draw.Key, "Enter") + ", or " + p.Paint(draw.Key, "n") + ", to begin a session: pick what is on the bench, say the",
		"  size of the ring or micrometer that the bore gauge is set on, and key the",
		"  first reading.", "",
		"  Every reading is kept as soon as the bell rings. Nothing needs saving.",
	}
}

// nothing says why no session is shown.
func (b *bench) nothing() []string {
	_, in := b.known.counts()
	switch {
	case b.known.words != "" && in > 0 && !b.known.archived:
		return []string{"  No session on the bench has these words; a looks among the archived ones too."}
	case b.known.words != "":
		return []string{"  No session has these words in its title, customer or engine."}
	default:
		return []string{"  Every session is archived: a shows them, n begins a new one."}
	}
}

func (b *bench) row(h *record.Heading, here bool) []string {
	p := &b.st.Palette
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = b.st.Signs.Here+" ", draw.Marked
	}
	when := Ago(h.Last, b.st.look())
	if h.State != "" {
		when = h.State + ", " + when
	}
	room := b.w - 4 - draw.Width(when)
	return []string{
		" " + p.Paint(tone, mark+draw.Fit(draw.Clean(h.Title), room)+when),
		"   " + p.Paint(draw.Dim, draw.Fit(b.about(h, b.w-4), b.w-4)),
		b.ready(h),
	}
}

// about says what was last measured, and when where that is an hour before it
// was last touched; then whose it is, as far as there is room for it.
func (b *bench) about(h *record.Heading, room int) string {
	text := "nothing measured yet"
	if h.Readings > 0 {
		text = fmt.Sprintf("%s, last %s %s: %s", counted(int(h.Readings), "reading", "readings"),
			h.LastPlace.Of.Family.Noun(), draw.Clean(h.LastLabel), draw.Clean(h.LastKeyed))
		if h.Last.Sub(h.LastAt).Abs() > time.Hour {
			text += ", " + Ago(h.LastAt, b.st.look())
		}
	}
	for _, s := range []string{h.Engine, h.Customer} {
		more := ", " + draw.Clean(s)
		if s == "" || draw.Width(text+more) > room {
			continue
		}
		text += more
	}
	return text
}

// Ago says when something was, as seen from now and on now's clock: the time
// today, the weekday within a week, else the date; with the time where that is
// not today yet, as after the clock was put back.
func Ago(at, now time.Time) string {
	at = at.In(now.Location())
	midnight := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	switch {
	case at.IsZero():
		return ""
	case !at.Before(midnight.AddDate(0, 0, 1)):
		return at.Format("2 Jan 2006 15:04")
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
