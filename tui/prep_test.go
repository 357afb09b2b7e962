package tui

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/term"
)

// atPrep opens the sign-off of the launch with a preset, by its digit.
func atPrep(t *testing.T, digit string, keys ...string) (*station, *prepScreen) {
	t.Helper()
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "p", digit)
	p := top[*prepScreen](s)
	s.keys(keys...)
	return s, p
}

// times repeats a key.
func times(n int, key string) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = key
	}
	return out
}

// washed are the keys that do a block after machining up to the wash.
func washed() []string {
	keys := append([]string{"11", "<enter>"}, times(12, "<enter>")...) // plugs, bore ends
	return append(keys, times(4+9+1, "<enter>")...)                    // edges, galleries, wash
}

// tickOf is the newest tick.
func (s *station) tickOf() record.Done {
	s.t.Helper()
	d, ok := s.last(launchUID).Body.(record.Done)
	if !ok {
		s.t.Fatalf("the last event is %+v", s.last(launchUID).Body)
	}
	return d
}

func TestAPresetBeginsAPrepList(t *testing.T) {
	s, p := atPrep(t, "3")
	list, ok := s.last(launchUID).Body.(record.Steps)
	if !ok || len(list.List) != 9 || p.step().ID != prep.PlugsOut {
		t.Fatalf("recorded %+v, at %s", s.last(launchUID).Body, p.step().ID)
	}
	s.keys("<esc>")
	top[*measure](s)
	s.keys("p")
	top[*prepScreen](s)
	s, _ = atPrep(t, "3", "<esc>", "<esc>")
	s.keys("<enter>", "p")
	top[*prepScreen](s)
}

func TestCountingIsDigitsAndEnter(t *testing.T) {
	s, p := atPrep(t, "3", "<enter>")
	if s.st.bells != 0 {
		t.Errorf("Enter on nothing keyed rang %d bells", s.st.bells)
	}
	s.keys("11", "<enter>")
	d := s.tickOf()
	if d.Step != prep.PlugsOut || d.Way != prep.Out || d.Count != 11 || d.Keyed != "11" || d.Forced != "" {
		t.Errorf("recorded %+v", d)
	}
	if p.step().ID != prep.DeburrBores || p.place != "bore/1 top" || s.st.bells != 1 {
		t.Errorf("went on to %s at %q, %d bells", p.step().ID, p.place, s.st.bells)
	}
}

func TestPlacesAreTickedOneAfterAnother(t *testing.T) {
	s, p := atPrep(t, "3", "11", "<enter>", "<right>", "<enter>")
	if d := s.tickOf(); d.Place != "bore/1 bottom" || p.place != "bore/2 top" {
		t.Errorf("ticked %q, then at %q", d.Place, p.place)
	}
	s.keys("/2", "//", "<left>")
	if p.place != "bore/1 bottom" {
		t.Errorf("forward, back and left lead to %q", p.place)
	}
	s.keys("<enter>")
	if !strings.Contains(s.st.status.text, "ticked already") || s.tickOf().Place != "bore/1 bottom" {
		t.Errorf("Enter at a ticked place says %q", s.st.status.text)
	}
	s.keys("<down>", "<down>", "-", "+")
	if p.step().ID != prep.Brush {
		t.Errorf("down, down, up, down leads to %s", p.step().ID)
	}
}

func TestTickingEarlyIsHeldAndForcedByStar(t *testing.T) {
	s, p := atPrep(t, "3", "/8", "5", "<enter>", "<enter>")
	n := len(s.book.sessions[launchUID])
	if view := s.r.View(); !strings.Contains(view, "HELD: bores deburred comes first") || s.st.bells != 2 {
		t.Fatalf("%d bells, and\n%s", s.st.bells, view)
	}
	s.keys("<enter>", "7")
	if len(s.book.sessions[launchUID]) != n {
		t.Error("Enter or a digit ticked what is held")
	}
	s.keys("/")
	if p.keys.At != 0 || len(s.book.sessions[launchUID]) != n || p.step().ID != prep.Wash {
		t.Errorf("/ left %+v at %s", p.keys, p.step().ID)
	}
	s.keys("<enter>", "*")
	if d := s.tickOf(); d.Step != prep.Wash || !strings.HasPrefix(d.Forced, "bores deburred comes first, 0 of 12 places done") {
		t.Errorf("forced it is recorded as %+v", d)
	}
	if !strings.Contains(s.r.View(), "wash               forced") {
		t.Errorf("the list does not say that it was forced:\n%s", s.r.View())
	}
	s.keys("*")
	if !strings.Contains(s.st.status.text, "Enter ticks") {
		t.Errorf("* with nothing held says %q", s.st.status.text)
	}
}

func TestElevenOutAndTenInStaysAndIsSaidEverywhere(t *testing.T) {
	s, p := atPrep(t, "3", append(washed(), "<enter>", "<enter>", "10", "<enter>")...)
	if p.step().ID != prep.PlugsIn {
		t.Errorf("with one plug missing it went on to %s", p.step().ID)
	}
	const want = "1 of 11 gallery plugs not back"
	for _, keys := range [][]string{nil, {"w"}, {"<esc>", "<esc>", "<esc>"}, {"p"}} {
		s.keys(keys...)
		if view := s.r.View(); !strings.Contains(view, want) {
			t.Errorf("behind %v it is not said:\n%s", keys, view)
		}
	}
	top[*prepScreen](s)
}

func TestWhatStaysOutIsAccountedForByKeypad(t *testing.T) {
	s, p := atPrep(t, "3", append(washed(), "<enter>", "<enter>", "9", "<enter>")...)
	s.keys("/1", "3", "<enter>")
	if !strings.Contains(s.st.status.text, "1 to 2") {
		t.Errorf("three of two missing: %q", s.st.status.text)
	}
	s.keys("/", "/", "/1", "1", "<enter>", "2", "<enter>")
	d := s.tickOf()
	if d.Way != prep.Accounted || d.Count != 1 || d.Choice != prep.Reasons()[1] {
		t.Errorf("accounted for as %+v", d)
	}
	s.keys("/1", "1", "<enter>", "2", "<enter>")
	if d := s.tickOf(); d.Count != 2 || p.step().ID != prep.LastWipe {
		t.Errorf("the second one too: %+v, at %s", d, p.step().ID)
	}
	s.keys("/1")
	if !strings.Contains(s.st.status.text, "account for what stays out") {
		t.Errorf("accounting where nothing is counted says %q", s.st.status.text)
	}
}

func TestWithdrawingTheLastTickGoesToIt(t *testing.T) {
	s, p := atPrep(t, "3", "/7")
	if !strings.Contains(s.st.status.text, "nothing is ticked yet") {
		t.Errorf("with nothing ticked: %q", s.st.status.text)
	}
	s.keys("0", "11", "<enter>", "<enter>", "/7")
	if _, ok := s.last(launchUID).Body.(record.Withdrawn); !ok || p.place != "bore/1 top" || p.state().Done(prep.DeburrBores) {
		t.Errorf("recorded %+v, at %q", s.last(launchUID).Body, p.place)
	}
}

func TestWorkOnMetalFromTheSignOff(t *testing.T) {
	s, p := atPrep(t, "3", washed()...)
	s.keys("/9", "9", "<enter>")
	if !strings.Contains(s.st.status.text, "there is no bore 9") {
		t.Errorf("bore 9 of six: %q", s.st.status.text)
	}
	s.keys("/", "/", "/9", "4", "<enter>", "1", "<enter>")
	w, ok := s.last(launchUID).Body.(record.Work)
	bore := plan.Feature{Family: plan.Bore, At: 4}
	if !ok || w.Did != "honed" || !w.Metal || !slices.Equal(w.Changes, []plan.Feature{bore}) {
		t.Fatalf("recorded %+v", s.last(launchUID).Body)
	}
	if p.step().ID != prep.DeburrBores || p.place != "bore/4 top" {
		t.Errorf("after honing bore 4 it goes to %s at %q", p.step().ID, p.place)
	}
	if view := s.r.View(); !strings.Contains(view, "galleries brushed and wash") || !strings.Contains(view, "withdrawn by work on bore 4, and 1 more") || !strings.Contains(view, "again") {
		t.Errorf("the screen does not say so:\n%s", view)
	}
}

// Deburring is work on metal: a bore that was read is as found after it.
func TestATickThatIsWorkMakesReadingsAsFound(t *testing.T) {
	s, p := atPrep(t, "3", "11", "<enter>", "<enter>", "<enter>")
	var works []record.Work
	for _, e := range s.book.sessions[launchUID] {
		if w, ok := e.Body.(record.Work); ok {
			works = append(works, w)
		}
	}
	if len(works) != 1 || works[0].Did != prep.Deburred || works[0].Changes[0].String() != "bore/1" {
		t.Errorf("two ends of a bore that was read are work %+v", works)
	}
	if x, _ := p.desk.Now.Feature(works[0].Changes[0]); x.Read != 0 || x.Planned == 0 || !x.Worked {
		t.Errorf("bore 1 has %d readings left", x.Read)
	}
}

func TestWhatACableSendsTicksNothing(t *testing.T) {
	s, p := atPrep(t, "3")
	n := len(s.book.sessions[launchUID])
	burst := func(text string) {
		for _, r := range text {
			k := term.Token{Kind: term.Digit, Rune: r, Burst: true, At: noon}
			if r == '\r' {
				k.Kind = term.Enter
			}
			s.run(s.r.key(k))
		}
	}
	burst("11\r")
	s.keys("/", "11", "<enter>")
	burst("37503\r")
	if got := len(s.book.sessions[launchUID]); got != n+1 || p.step().ID != prep.DeburrBores || p.state().Done(prep.DeburrBores) {
		t.Errorf("%d events came of two values by cable and one by hand, at %s", got-n, p.step().ID)
	}
	if !strings.Contains(s.st.status.text, "by hand") {
		t.Errorf("it says %q", s.st.status.text)
	}
}

func TestChoicesAndFiguresAreKeyed(t *testing.T) {
	s, p := atPrep(t, "1", "3", "<enter>")
	if !strings.Contains(s.st.status.text, "choose 1 to 2") {
		t.Errorf("a third kind of lifter: %q", s.st.status.text)
	}
	s.keys("/", "1", "<enter>", "1", "<enter>")
	if d := s.tickOf(); d.Step != prep.OilMeant || d.Choice != prep.FullOil {
		t.Errorf("chosen %+v", d)
	}
	s.keys("<up>")
	if !strings.Contains(s.r.View(), "10 to 20 %") {
		t.Errorf("the reason is not shown:\n%s", s.r.View())
	}
	s.keys("/8", "12", "<enter>", "-.002", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "below 0.001 in") {
		t.Errorf("a proud cam bearing is not held:\n%s", view)
	}
	s.keys("*")
	if d := s.tickOf(); d.Value != "-0.002 in" || d.Keyed != "-.002" || !strings.Contains(d.Forced, "below 0.001 in") {
		t.Errorf("forced as %+v", d)
	}
	if !strings.Contains(s.r.View(), "-0.002 in is below 0.001") || p.state().Done(prep.CamIn) {
		t.Errorf("the finding is not said:\n%s", s.r.View())
	}
}

func TestTheBellWaitsForTheDiskInTheSignOffToo(t *testing.T) {
	s, _ := atPrep(t, "3")
	s.book.hold = true
	before := s.st.bells
	s.keys("11", "<enter>")
	if s.st.bells != before {
		t.Error("a tick that is not kept yet rang")
	}
	s.book.err = errors.New("the disk is full")
	s.book.settle(launchUID)
	s.mail()
	if !strings.Contains(s.r.View(), "NOT KEPT") || s.st.bells != before+2 {
		t.Errorf("a failure rang %d bells and shows\n%s", s.st.bells-before, s.r.View())
	}
	s.book.err = nil
	s.book.settle(launchUID)
	s.mail()
	if s.st.bells != before+3 {
		t.Errorf("kept at last it rang %d bells", s.st.bells-before)
	}
}

func TestMeasuringUnwashedIsAllowedAndNoted(t *testing.T) {
	s, _ := atPrep(t, "3", "<esc>")
	if !strings.Contains(s.r.View(), "not yet deburred, not yet washed: a note st") {
		t.Errorf("nothing warns:\n%s", s.r.View())
	}
	s.keys("+4", "<enter>")
	m := top[*measure](s)
	if got := m.desk.Session.Notes(plan.Feature{Family: plan.Bore, At: 4}); len(got) != 2 {
		t.Errorf("what was read bears %v", got)
	}
	s.keys("p")
	s.keys(washed()...)
	if got := m.desk.Session.Notes(plan.Feature{Family: plan.Bore, At: 5}); len(got) != 0 {
		t.Errorf("bore 5, not read, bears %v", got)
	}
}

func TestTheListIsChanged(t *testing.T) {
	s, p := atPrep(t, "3", "/4")
	e := top[*prepEdit](s)
	s.keys("2", "<esc>")
	if _, _, ok := p.steps().Find(prep.PlugsOut); !ok {
		t.Error("2 alone takes the step out")
	}
	s.keys("2", "<enter>")
	if _, _, ok := p.steps().Find(prep.PlugsOut); ok {
		t.Error("2 did not take the step out")
	}
	s.keys("1")
	a := top[*prepAdd](s)
	for a.offers()[a.list.at].name != "gallery plugs out" {
		s.keys("<down>")
	}
	s.keys("<enter>", "<esc>")
	if _, at, ok := p.steps().Find(prep.PlugsOut); !ok || at != 0 {
		t.Errorf("added it stands at %d", at)
	}
	s.keys("3")
	f := top[*prepForm](s)
	s.keys("s", "t", "a", "m", "p", "s", "<enter>", "<down>")
	s.keys("<right>", "<enter>") // counted, by the choice in focus
	if f.now.Kind != prep.Counted {
		t.Errorf("the kind is %s", f.now.Kind)
	}
	s.key("f2")
	own := p.steps()[len(p.steps())-1]
	if own.Name != "stamps" || own.Kind != prep.Counted || !slices.Equal(own.NotBefore, []string{prep.PlugsOut}) {
		t.Errorf("the step of one's own is %+v", own)
	}
	top[*prepEdit](s)
	s.keys("<enter>")
	f = top[*prepForm](s)
	f.form.jump("count")
	s.keys("11")
	s.key("f2")
	if got := p.steps()[e.list.at]; got.ID != prep.PlugsOut || got.Count != 11 {
		t.Errorf("with its count changed the step is %+v", got)
	}
	s.keys("<esc>", "10", "<enter>")
	if !strings.Contains(s.r.View(), "HELD: the list says 11, not 10") {
		t.Errorf("ten where the list says eleven:\n%s", s.r.View())
	}
}

func TestAStepWithAnOpenTallyStays(t *testing.T) {
	s, p := atPrep(t, "3", "11", "<enter>", "/4", "<up>", "2")
	if _, _, ok := p.steps().Find(prep.PlugsOut); !ok || !strings.Contains(s.st.status.text, "gallery plugs: 11 not back") {
		t.Errorf("taken out while eleven plugs are: %q", s.st.status.text)
	}
}

func TestAnEmptiedListIsLeft(t *testing.T) {
	s, _ := atPrep(t, "4", "e")
	for range 8 {
		s.keys("2", "<enter>")
	}
	if !strings.Contains(s.r.View(), "the list is empty") {
		t.Fatalf("eight steps taken out leave\n%s", s.r.View())
	}
	s.keys("<enter>", "<esc>")
	top[*measure](s)
	s.keys("p")
	top[*prepPresets](s)
}

func TestPrepScreensAreDrawnSo(t *testing.T) {
	for name, keys := range map[string][]string{
		"presets": {"p", "<down>"},
		"counted": {"p", "3", "1"},
		"places":  {"p", "3", "11", "<enter>", "<enter>", "<enter>", "<enter>"},
		"held":    {"p", "1", "/8", "9", "<enter>", "<enter>"},
		"menu":    {"p", "2", "/"},
		"oil":     append([]string{"p", "1"}, "1", "<enter>", "2", "<enter>", "/8", "17", "<enter>", "4", "<enter>", "<up>"),
		"figure":  {"p", "5", "<enter>", "45", "<enter>"},
		"ten-in":  append(append([]string{"p", "3"}, washed()...), "<enter>", "<enter>", "10", "<enter>"),
		"reopened": append(append([]string{"p", "3"}, washed()...), "<enter>", "<enter>", "11", "<enter>", "<enter>",
			"/9", "4", "<enter>", "4", "<enter>", "<down>", "<down>", "<down>"),
		"list":     {"p", "1", "e", "<down>"},
		"own-step": {"p", "3", "e", "3", "stamps"},
	} {
		s := newStation(t, 80, 24, "launch")
		s.keys("<enter>")
		s.keys(keys...)
		screenGolden(t, "prep-"+name+"-80x24", s)
	}
}
