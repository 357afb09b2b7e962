package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// worst is the summary: which cylinder and which main is worst, and every
// finding ranked.
type worst struct {
	st   *Station
	desk *Desk
	list list
	w, h int
}

func newWorst(st *Station, d *Desk) *worst { return &worst{st: st, desk: d} }

// Init needs nothing.
func (s *worst) Init() tea.Cmd { return nil }

// Update passes on where a screen above asks to go.
func (s *worst) Update(msg tea.Msg) tea.Cmd {
	if g, ok := msg.(goTo); ok {
		s.st.Pop(g)
	}
	return nil
}

// Resize sets the size of the body.
func (s *worst) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *worst) Title() string { return "worst first, " + s.desk.Session.Details().Title }

// Typing takes no characters.
func (s *worst) Typing() Typing { return NotTyping }

// Actions are the summary's keys.
func (s *worst) Actions() []Action {
	none := ""
	if len(s.findings()) == 0 {
		none = "no limit is given to judge by"
	}
	return []Action{
		on("enter", "go to the place", s.visit).unless(none).
			because("opens the place where the marked finding is worst; key there to measure it again"),
		on("up|-", "up", func() tea.Cmd { return s.move(-1) }),
		on("down|+", "down", func() tea.Cmd { return s.move(1) }),
		on("pgup", "", func() tea.Cmd { return s.move(-s.room()) }),
		on("pgdown", "", func() tea.Cmd { return s.move(s.room()) }),
		on("l", "log", func() tea.Cmd {
			s.st.Push(newLog(s.st, s.desk, s.markedFeature()))
			return nil
		}),
		s.st.unitKey(s.desk),
	}
}

func (s *worst) findings() []engine.Finding { return s.desk.Now.Findings }

func (s *worst) move(by int) tea.Cmd {
	s.list.move(by, len(s.findings()))
	return nil
}

// markedFeature is the feature of the marked finding, or none.
func (s *worst) markedFeature() plan.Feature {
	if fs := s.findings(); s.list.at < len(fs) {
		return fs[s.list.at].Of
	}
	return plan.Feature{}
}

// visit drills into the marked finding's place.
func (s *worst) visit() tea.Cmd {
	f := s.findings()[s.list.at]
	s.st.Pop(goTo{place: plan.Place{Of: f.Of, Level: f.Level, Dir: f.Dir}, of: f.Of})
	return nil
}

// The two headings in large digits, and the lines of the two orders.
const (
	worstBig    = 5
	worstOrders = 3
)

func (s *worst) room() int { return max(3, s.h-worstBig-worstOrders) }

// View draws the two worst large, the findings, and the order of the lines.
func (s *worst) View() []string {
	half := s.w/2 - 1
	lines := draw.Beside(2,
		s.headline(s.desk.Now.Cylinders, "worst cylinder", half),
		s.headline(s.desk.Now.Mains, "worst main", half))
	lines = draw.Box(append(lines, s.ranked(s.room())...), s.w, s.h-worstOrders)
	return append(lines, "", s.order("cylinders", s.desk.Now.Cylinders), s.order("mains", s.desk.Now.Mains))
}

// ranked draws the findings around the marked one, a heading above each
// verdict's.
func (s *worst) ranked(room int) []string {
	fs := s.findings()
	first, last := s.list.window(len(fs), max(1, room-s.headings()))
	var lines []string
	verdict := ""
	for i := first; i < last && len(lines) < room; i++ {
		if v := fs[i].Judgement.Verdict.String(); v != verdict {
			verdict = v
			lines = append(lines, draw.Rule(s.heading(v, i == first), s.w, s.st.ASCII))
		}
		lines = append(lines, s.line(fs[i], i == s.list.at))
	}
	return lines
}

// headings is how many verdicts there are among the findings.
func (s *worst) headings() int {
	seen := map[limit.Verdict]bool{}
	for _, f := range s.findings() {
		seen[f.Judgement.Verdict] = true
	}
	return len(seen)
}

// heading names a verdict and how many findings bear it.
func (s *worst) heading(verdict string, first bool) string {
	n := 0
	for _, f := range s.findings() {
		if f.Judgement.Verdict.String() == verdict {
			n++
		}
	}
	text := fmt.Sprintf("%s: %d", verdict, n)
	if first {
		text += "   (share of the margin used, 1.00 on the limit)"
	}
	return text
}

// headline is the worst member of a line: its label large, its finding beside.
func (s *worst) headline(rs []engine.Ranking, title string, w int) []string {
	p := &s.st.Palette
	if len(rs) == 0 {
		return draw.Box(nil, w, worstBig)
	}
	f, ok := rs[0].Worst()
	if !ok || f.Judgement.Verdict == limit.NotMeasured {
		return draw.Box([]string{p.Paint(draw.Title, title), p.Paint(draw.Dim, "nothing measured that a limit judges")}, w, worstBig)
	}
	tone := verdictTone(f.Judgement)
	big := draw.Big(rs[0].Label, worstBig, s.st.ASCII)
	for i := range big {
		big[i] = p.Paint(tone, big[i])
	}
	room := max(10, w-draw.Widest(big)-2)
	text := []string{p.Paint(draw.Title, title), p.Paint(tone, strings.ToUpper(f.Judgement.Verdict.String()))}
	text = append(text, draw.Wrap(f.Text, room)...)
	return draw.Box(draw.Beside(2, big, draw.Box(text, room, worstBig)), w, worstBig)
}

func (s *worst) line(f engine.Finding, here bool) string {
	p := &s.st.Palette
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = s.st.Signs.Here+" ", draw.Marked
	}
	v := verdictTone(f.Judgement)
	return p.Paint(tone, mark) + p.Paint(v, s.st.Signs.For(v)+draw.FitRight(marginText(f.Judgement), 6)) + "  " +
		p.Paint(tone, draw.Fit(f.Text, s.w-11))
}

// marginText is the share of the margin that is used, 1.00 on the limit.
func marginText(j limit.Judgement) string {
	switch {
	case !j.Ranked || j.Verdict == limit.NotMeasured:
		return ""
	case j.Margin > 99:
		return ">99"
	default:
		return engine.MarginText(j.Margin)
	}
}

// verdictTone is the tone in which a verdict is shown.
func verdictTone(j limit.Judgement) draw.Tone {
	switch {
	case j.Verdict == limit.Outside:
		return draw.Bad
	case j.Verdict == limit.TooClose || j.Suspect:
		return draw.Warn
	case j.Verdict.Inside():
		return draw.Good
	default:
		return draw.Dim
	}
}

// order names the members of a line, worst first.
func (s *worst) order(title string, rs []engine.Ranking) string {
	p := &s.st.Palette
	text := " " + p.Paint(draw.Dim, title+", worst first:")
	var open []string
	for _, r := range rs {
		f, ok := r.Worst()
		if !ok || f.Judgement.Verdict == limit.NotMeasured {
			open = append(open, r.Label)
			continue
		}
		tone := verdictTone(f.Judgement)
		text += " " + p.Paint(tone, r.Label+s.st.Signs.For(tone))
	}
	if len(open) > 0 {
		text += p.Paint(draw.Dim, fmt.Sprintf("   not finished: %s", strings.Join(open, " ")))
	}
	return text
}

// goTo asks the screen beneath to go to a place, or where the feature is to be
// taken up when the place names no level.
type goTo struct {
	place plan.Place
	of    plan.Feature
}
