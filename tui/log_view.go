package tui

import (
	"fmt"

	"borewright/engine"
	"borewright/tui/draw"
)

// logFoot are the lines below the events: a rule, and what is to be said of
// the marked one. Above them stands one line that says which are shown.
const logFoot = 6

// room is how many events are in view.
func (l *logScreen) room() int { return max(1, l.h-logFoot-1) }

// View draws the entries, and the marked one in full below them.
func (l *logScreen) View() []string {
	l.tell()
	lines := []string{l.filterLine()}
	first, last := l.list.window(len(l.shown), l.room())
	for i := first; i < last; i++ {
		lines = append(lines, l.line(l.shown[i], i == l.list.at))
	}
	if len(l.shown) == 0 {
		lines = append(lines, l.st.Palette.Paint(draw.Dim, "  nothing here; f goes on to the next filter, / finds other words"))
	}
	lines = draw.Box(lines, l.w, l.room()+1)
	lines = append(lines, l.st.Palette.Paint(draw.Frame, draw.Rule(l.position(), l.w, l.st.ASCII)))
	return append(lines, draw.Box(l.foot(), l.w, logFoot-1)...)
}

// position says which of the events are in view.
func (l *logScreen) position() string {
	if len(l.shown) <= l.room() {
		return ""
	}
	return fmt.Sprintf("%d to %d of %d, newest first", l.list.top+1, min(len(l.shown), l.list.top+l.room()), len(l.shown))
}

// logText is an entry in one line, as it is shown and as words are found in it.
func logText(e engine.Entry) string {
	text := draw.Clean(e.Text)
	switch {
	case !e.Live:
		text = fmt.Sprintf("(withdrawn by %d) ", e.WithdrawnBy) + text
	case e.ReplacedBy > 0:
		text = fmt.Sprintf("(replaced by %d) ", e.ReplacedBy) + text
	}
	return fmt.Sprintf("%4d  %s  %-3s %s", e.N, e.At.Format("2 Jan 15:04"), draw.Clean(e.By), text)
}

func (l *logScreen) line(e engine.Entry, here bool) string {
	mark, tone := "  ", draw.Plain
	switch {
	case here:
		mark, tone = l.st.Signs.Here+" ", draw.Marked
	case !e.Live || e.ReplacedBy > 0:
		tone = draw.Dim
	}
	return l.st.Palette.Paint(tone, draw.Fit(mark+l.st.Signs.Text(logText(e)), l.w))
}

// foot says of the marked event all there is: itself, what stands in its stead
// or took it back, and what it replaced. A note is typed there too.
func (l *logScreen) foot() []string {
	if l.typed != nil && !l.typed.finds {
		return []string{l.typed.view(l.st, l.w)}
	}
	e, ok := l.marked()
	if !ok {
		return nil
	}
	lines := wrapped(l.st, l.w, draw.Plain, fmt.Sprintf("%d, %s%s: %s", e.N, e.At.Format("2 Jan 2006 15:04:05"), byWhom(e), e.Text), 3)
	switch {
	case !e.Live:
		lines = append(lines, l.other("withdrawn by ", e.WithdrawnBy)...)
	case e.ReplacedBy > 0:
		lines = append(lines, l.other("replaced by ", e.ReplacedBy)...)
	}
	for _, old := range l.all {
		if old.ReplacedBy == e.N {
			lines = append(lines, l.other("replaces ", old.N)...)
		}
	}
	return lines
}

// other tells another event beside the marked one.
func (l *logScreen) other(how string, n int64) []string {
	e := l.entry(n)
	return wrapped(l.st, l.w, draw.Warn, fmt.Sprintf("%s%d, %s%s: %s", how, n, e.At.Format("2 Jan 15:04"), byWhom(e), e.Text), 2)
}

func byWhom(e engine.Entry) string {
	if e.By == "" {
		return ""
	}
	return ", " + e.By
}
