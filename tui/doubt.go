package tui

import (
	"fmt"
	"math"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// doubtPage says how well one judged figure is known: what its doubt is made
// of, how sure its verdict is, and what would settle it.
type doubtPage struct {
	st      *Station
	desk    *Desk
	finding engine.Finding
	top     int
	w, h    int
}

func newDoubt(st *Station, d *Desk, f engine.Finding) *doubtPage {
	return &doubtPage{st: st, desk: d, finding: f}
}

// doubtKey is the key that opens the doubt of a finding; ok is false where
// there is none.
func (st *Station) doubtKey(d *Desk, of func() (engine.Finding, bool)) Action {
	none := ""
	if f, ok := of(); !ok || !f.Value.Measured() {
		none = "nothing that a limit judges is measured here yet"
	}
	return quiet(on("d", "doubt", func() tea.Cmd {
		f, _ := of()
		st.Push(newDoubt(st, d, f))
		return nil
	}).unless(none)).because("how well the worst figure here is known: what its doubt is made of, and what would settle it")
}

// worstOf returns the worst finding that is of a feature, or of a clearance
// that it takes part in, and is measured.
func (d *Desk) worstOf(f plan.Feature) (worst engine.Finding, ok bool) {
	for _, x := range d.Now.Findings {
		if (x.Of == f || x.With == f) && x.Value.Measured() {
			return *x, true
		}
	}
	return worst, false
}

// Init needs nothing.
func (s *doubtPage) Init() tea.Cmd { return nil }

// Update takes nothing.
func (s *doubtPage) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *doubtPage) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *doubtPage) Title() string { return "doubt, " + s.desk.Title() }

// Typing takes no characters.
func (s *doubtPage) Typing() Typing { return NotTyping }

// Actions are its keys.
func (s *doubtPage) Actions() []Action {
	all := ""
	if len(s.lines()) <= s.h {
		all = "all of it is in view"
	}
	return []Action{
		on("enter", "go to the place", func() tea.Cmd {
			f := s.finding
			s.st.Pop(goTo{place: plan.Place{Of: f.Of, Level: f.Level, Dir: f.Dir}, of: f.Of})
			return nil
		}),
		on("up|-", "up", func() tea.Cmd { return s.scroll(-1) }).unless(all),
		on("down|+", "down", func() tea.Cmd { return s.scroll(1) }).unless(all),
		s.st.unitKey(s.desk),
	}
}

// Explain says more on the help page.
func (s *doubtPage) Explain() []string {
	return []string{
		"  A standard uncertainty is what one contribution may be out by, as a standard",
		"  deviation. Squared they add up; the share is of that sum. Degrees of freedom say",
		"  how many readings a contribution rests on; known is one that was stated. What is",
		"  common to both sides of a difference cancels, and adds nothing.",
		"  The doubt is of measuring alone: it knows nothing of a slip of the hand.",
	}
}

func (s *doubtPage) scroll(by int) tea.Cmd {
	s.top = max(0, min(s.top+by, len(s.lines())-s.h))
	return nil
}

// now is the finding as it stands: it may have changed since the page was opened.
func (s *doubtPage) now() engine.Finding {
	for _, f := range s.desk.Now.Findings {
		if f.Of == s.finding.Of && f.With == s.finding.With && f.On == s.finding.On && f.By == s.finding.By {
			return *f
		}
	}
	return s.finding
}

// View draws the lines that have room.
func (s *doubtPage) View() []string {
	lines := s.lines()
	top := max(0, min(s.top, len(lines)-s.h))
	return lines[top:min(len(lines), top+s.h)]
}

// lines are the whole page.
func (s *doubtPage) lines() []string {
	f, p := s.now(), &s.st.Palette
	out := s.say(draw.Title, f.Text)
	out = append(out, s.verdict(f)...)
	if f.Doubt.Budget.U == 0 {
		return append(append(out, ""), s.say(draw.Warn, "Nothing is known of how well this was read: no gauge with a graduation or a reading step stands behind it. g, gauges, is where to give it one; a repeat (*) tells how well it repeats.")...)
	}
	c, u := s.desk.Session.Coverage(), s.desk.Session.Unit()
	out = append(out, "")
	out = append(out, s.say(draw.Plain, "It is known to "+f.Doubt.Budget.Text(c, u)+".")...)
	out = append(out, s.say(draw.Value, capital(f.Doubt.Budget.Sentence())+".")...)
	out = append(out, p.Paint(draw.Frame, draw.Rule("what the doubt is made of", s.w, s.st.ASCII)))
	out = append(out, s.budget(f.Doubt.Budget, u)...)
	return append(out, s.settling(f)...)
}

func (s *doubtPage) say(tone draw.Tone, text string) []string {
	return wrapped(s.st, s.w, tone, text, 4)
}

// verdict says the verdict, how sure it is, and how it was decided.
func (s *doubtPage) verdict(f engine.Finding) []string {
	text := capital(engine.VerdictText(f.Judgement))
	if f.Doubt.Budget.U > 0 && f.Judgement.Verdict != limit.NoLimits {
		text += "; the chance that it is truly inside is " + chanceText(f.Doubt.Chance)
	}
	if s.desk.Session.Rules().Decision == "guarded" {
		text += ". Decided with guard bands: nearer to a limit than its doubt is too close to call"
	} else {
		text += ". Decided by the figure alone, its doubt shown beside it"
	}
	return s.say(verdictTone(f.Judgement), s.st.Signs.For(verdictTone(f.Judgement))+" "+text+".")
}

// chanceText is a probability in whole percent, never certain.
func chanceText(p float64) string {
	switch {
	case p > 0.99:
		return "above 99 %"
	case p < 0.01:
		return "below 1 %"
	default:
		return fmt.Sprintf("%.0f %%", 100*p)
	}
}

// The widths of a budget's columns; the name has the rest.
const budgetU, budgetShare, budgetDF, mostBudgetName = 12, 6, 8, 60

// budget is the table of contributions, with what they come to.
func (s *doubtPage) budget(b doubt.Budget, u length.Unit) []string {
	p := &s.st.Palette
	name := min(mostBudgetName, s.w-budgetU-budgetShare-budgetDF-5)
	row := func(tone draw.Tone, cells ...string) string {
		return p.Paint(tone, draw.Cut(" "+draw.Fit(s.st.Signs.Text(draw.Clean(cells[0])), name)+draw.FitRight(cells[1], budgetU+1)+
			draw.FitRight(cells[2], budgetShare+1)+draw.FitRight(cells[3], budgetDF+1), s.w))
	}
	out := []string{row(draw.Dim, "", "standard, "+u.String(), "share", "freedom")}
	for _, l := range b.Lines {
		out = append(out, row(draw.Plain, l.Name, pmText(l.U, u), fmt.Sprintf("%.0f %%", 100*l.Share), dfText(l.DF)))
	}
	for _, name := range b.Cancelled {
		out = append(out, row(draw.Good, name, "cancels", "0 %", ""))
	}
	return append(out, row(draw.Value, "combined", pmText(b.U, u), "100 %", dfText(b.DF)),
		row(draw.Value, "expanded, "+s.desk.Session.Coverage().String(), pmText(b.Expanded(s.desk.Session.Coverage()), u), "", ""))
}

// pmText is a doubt in picometres with two decimals more than sizes have.
func pmText(pm float64, u length.Unit) string {
	return length.Of(length.Length(math.RoundToEven(pm))).Format(u, u.Decimals()+2)
}

func dfText(df float64) string {
	if math.IsInf(df, 0) {
		return "known"
	}
	return fmt.Sprintf("%.0f", math.Floor(df))
}

// settling says what would settle the verdict, and what a spread shows by
// itself.
func (s *doubtPage) settling(f engine.Finding) []string {
	out := []string{""}
	u := s.desk.Session.Unit()
	if f.Doubt.Noise.Measured() {
		out = append(out, s.say(draw.Dim, "Noise floor: readings of something perfect would show a spread of about "+
			f.Doubt.Noise.Format(u, u.Decimals()+1)+" "+u.String()+" here by the gauge's scatter alone.")...)
	}
	switch {
	case f.Judgement.Suspect:
		out = append(out, s.say(draw.Warn, "It rests on a gauge whose zero could not be believed: measure again first (a on the measure screen).")...)
	case f.Doubt.Settles != "":
		out = append(out, s.say(draw.Marked, "What would settle it: "+strings.TrimSuffix(f.Doubt.Settles, ".")+".")...)
	default:
		out = append(out, s.say(draw.Dim, "It is further from its limits than its doubt: nothing more needs reading to settle it.")...)
	}
	return out
}
