package tui

import (
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
	"borewright/tui/term"
)

// The least window that holds all essentials.
const (
	minWidth  = 80
	minHeight = 24
)

// The frame takes a line above the body and two below it.
const frameLines = 3

func (r *router) body() (w, h int) { return r.w, max(0, r.h-frameLines) }

func (r *router) tooSmall() bool { return r.w < minWidth || r.h < minHeight }

func (r *router) resize(w, h int) {
	r.w, r.h = w, h
	for _, s := range r.stack {
		s.Resize(r.body())
	}
}

// View is the picture as the library wants it, in one piece.
func (r *router) View() string { return strings.Join(r.picture(), "\n") }

// picture draws the frame and the top screen: exactly as many lines as the window
// has, each as wide as it.
func (r *router) picture() []string {
	defer r.note()
	switch {
	case r.w == 0:
		return nil
	case r.tooSmall():
		return draw.Box(r.smallPage(), r.w, r.h)
	}
	w, h := r.body()
	lines := append(make([]string, 0, r.h), r.header())
	status, body := r.statusLines(), r.top().View()
	room := h + 1 - len(status)
	lines = append(lines, body[:min(len(body), room)]...)
	for range room - len(body) {
		lines = append(lines, "")
	}
	lines = append(append(lines, status...), r.footer())
	for i, line := range lines {
		lines[i] = draw.Fit(r.st.Palette.Safe(line), w)
	}
	return lines
}

func (r *router) smallPage() []string {
	return []string{
		"borewright needs a window of at least 80 x 24.",
		"Make the window larger, or the type smaller.",
		"Nothing is lost meanwhile.",
	}
}

// header names where the station is, and what is not kept.
func (r *router) header() string {
	p := &r.st.Palette
	left := " borewright: " + draw.Clean(r.mark()+r.top().Title())
	if r.st.Apart != "" {
		left += " (" + r.st.Apart + ")"
	}
	right, tone := r.keeping()
	if right == "" {
		right, tone = r.st.cableText()
	}
	if right != "" {
		right = draw.Cut(right, r.w/2) + " "
	}
	room := r.w - draw.Width(right)
	return p.Paint(draw.Title, draw.Fit(left, room)) + p.Paint(tone, right)
}

// keeping says what is not kept yet.
func (r *router) keeping() (string, draw.Tone) {
	text, tone := "", draw.Dim
	for _, d := range r.st.Pending() {
		if d.Failed != nil {
			return d.Keeping(), draw.Bad
		}
		text = d.Keeping()
	}
	return text, tone
}

// statusMost is how many lines a sentence takes at most; what it needs beyond
// its own it takes from the foot of the body while it stands.
const statusMost = 3

// statusLines are the sentence above the footer, at least one line.
func (r *router) statusLines() []string {
	s := r.st.status
	if s.text == "" {
		return []string{""}
	}
	lines := draw.Wrap(s.text, r.w-2)
	if len(lines) > statusMost {
		lines = append(lines[:statusMost-1], strings.Join(lines[statusMost-1:], " "))
	}
	for i, line := range lines {
		lines[i] = r.st.Palette.Paint(s.tone, draw.Fit(" "+line, r.w))
	}
	return lines
}

// helpWord is what the key of the help page says; it is always in the footer.
const helpWord = "help"

// footer shows as many of the screen's keys as have room, and how to get help.
func (r *router) footer() string {
	p := &r.st.Palette
	var b strings.Builder
	b.Grow(4 * r.w) // the styles take as much as the words, and more
	all := slices.DeleteFunc(r.actions(), func(a Action) bool { return a.Off != "" || a.Help == "" || a.Quiet })
	wide := func(a Action) int { return draw.Width(keyLabel(a.Keys[0])) + draw.Width(a.Help) + 3 }
	kept := 0 // for help, until it is written
	if i := slices.IndexFunc(all, isHelp); i >= 0 {
		kept = wide(all[i])
	}
	used := 0
	for _, a := range all {
		if isHelp(a) {
			kept = 0
		}
		if n := wide(a); used+n+kept <= r.w {
			used += n
			b.WriteString(" " + p.Paint(draw.Key, keyLabel(a.Keys[0])) + " " + p.Paint(draw.Dim, a.Help) + " ")
		}
	}
	return b.String()
}

func isHelp(a Action) bool { return a.Help == helpWord }

// keyLabel is how a key is written on the screen.
func keyLabel(key string) string {
	switch key {
	case "enter", "esc", "tab", "space", "up", "down", "left", "right":
		return strings.ToUpper(key[:1]) + key[1:]
	case "pgup":
		return "PgUp"
	case "pgdown":
		return "PgDn"
	case "f1", "f2", "f3":
		return strings.ToUpper(key)
	default:
		return key
	}
}

// interrupt answers Ctrl+C: once it warns, twice within a second it leaves. A
// gauge that frames its values with control characters sends it too, with a value
// before it: that leaves nothing.
func (r *router) interrupt(t term.Token) tea.Cmd {
	if t.Burst {
		return nil
	}
	if r.asked {
		r.st.Quit()
		return nil
	}
	r.asked = true
	r.st.Say(draw.Warn, "Ctrl+C once more within a second leaves the station")
	return tea.Tick(calmAfter, func(time.Time) tea.Msg { return calm{} })
}
