package tui

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/tui/draw"
)

// logFilter says which events are shown. The zero value shows all.
type logFilter struct {
	// about is a feature ("bore/4") or a family ("bore"), as events name them.
	about string
	// words are all found in what is shown, in capital or small letters.
	words string
}

// passes reports whether an entry is shown.
func (f logFilter) passes(e engine.Entry) bool {
	if f.about != "" && !e.Concerns(f.about) {
		return false
	}
	text := strings.ToLower(logText(e))
	for _, word := range strings.Fields(strings.ToLower(f.words)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// show picks the entries that are shown; the marked one stays marked, or the
// one nearest to it in time does.
func (l *logScreen) show() {
	var at int64
	if len(l.shown) > 0 {
		at = l.shown[max(0, min(l.list.at, len(l.shown)-1))].N
	}
	l.shown = nil
	for _, e := range l.all {
		if l.filter.passes(e) {
			l.shown = append(l.shown, e)
		}
	}
	if at > 0 {
		older := slices.IndexFunc(l.shown, func(e engine.Entry) bool { return e.N <= at })
		l.list.at = older
		if older < 0 {
			l.list.at = max(0, len(l.shown)-1)
		}
	}
}

// abouts are what the filter goes round, from all events on.
func (l *logScreen) abouts() []string {
	out := []string{""}
	if !l.at.IsZero() {
		out = append(out, l.at.String())
	}
	for _, g := range l.desk.Session.Plan().Families {
		out = append(out, string(g.Family))
	}
	return out
}

// cycle goes on to the next filter.
func (l *logScreen) cycle() tea.Cmd {
	all := l.abouts()
	l.filter.about = all[(slices.Index(all, l.filter.about)+1)%len(all)]
	l.show()
	return nil
}

// aboutText names what is shown in words.
func (l *logScreen) aboutText() string {
	text := "all events"
	if l.filter.about != "" {
		text = "events of " + l.desk.Session.NameOf(l.filter.about)
	}
	if l.filter.words != "" {
		text += fmt.Sprintf(" with %q", l.filter.words)
	}
	return text
}

// filterLine says above the events which are shown.
func (l *logScreen) filterLine() string {
	p := &l.st.Palette
	if l.typed != nil && l.typed.finds {
		return l.typed.view(l.st, l.w)
	}
	count := fmt.Sprintf("%d", len(l.shown))
	if len(l.shown) != len(l.all) {
		count += fmt.Sprintf(" of %d", len(l.all))
	}
	return p.Paint(draw.Title, draw.Fit(" "+draw.Clean(l.aboutText())+": "+count, l.w))
}
