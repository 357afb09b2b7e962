package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// atWorst opens the worst screen of a demo session.
func atWorst(t *testing.T, w, h int, session string) (*station, *worst) {
	t.Helper()
	s := newStation(t, w, h, session)
	s.keys("<enter>", "w")
	return s, top[*worst](s)
}

func TestTheWorstScreenLooksSo(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {140, 45}, {200, 60}} {
		for _, session := range []string{"launch", "launch-complete", "hillclimb"} {
			s, _ := atWorst(t, size[0], size[1], session)
			screenGolden(t, fmt.Sprintf("worst-%s-%dx%d", session, size[0], size[1]), s)
		}
	}
}

func TestTheWorstScreenSharesItsBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, lineups := rapid.IntRange(minHeight-frameLines, 120).Draw(t, "h"), rapid.IntRange(0, 2).Draw(t, "lineups")
		l := layoutWorst(h, lineups)
		rows := l.big + l.list
		for i, forms := range l.forms {
			rows += l.lineupHigh(i)
			if forms < leastForm || forms > tallest {
				t.Errorf("a form of %d rows", forms)
			}
		}
		if rows != h {
			t.Errorf("%d of %d rows are shared out: %+v", rows, h, l)
		}
		if l.list < leastList || l.big < minBig || min(lineups, 1) > len(l.forms) {
			t.Errorf("too little room in %d rows: %+v", h, l)
		}
		if next := layoutWorst(h+1, lineups); len(next.forms) < len(l.forms) {
			t.Errorf("a lineup is gone in %d rows: %+v", h+1, next)
		}
	})
}

func TestThePicturesGrow(t *testing.T) {
	for _, tt := range []struct {
		h, lineups int
		want       worstLayout
	}{
		{21, 2, worstLayout{big: 5, forms: []int{3}, list: 9}},
		{21, 0, worstLayout{big: 5, list: 16}},
		{27, 2, worstLayout{big: 5, forms: []int{5}, what: true, list: 12}},
		{42, 2, worstLayout{big: 7, forms: []int{6, 5}, what: true, list: 14}},
		{57, 2, worstLayout{big: 10, forms: []int{9, 8}, what: true, list: 20}},
	} {
		if got := layoutWorst(tt.h, tt.lineups); fmt.Sprint(got) != fmt.Sprint(tt.want) {
			t.Errorf("%d rows: %+v, want %+v", tt.h, got, tt.want)
		}
	}
}

// At the least window five findings stand below the picture, with the headings
// of the verdicts between them and the remedy of the marked one.
func TestFiveFindingsStandBelowThePicture(t *testing.T) {
	for _, session := range []string{"launch", "launch-complete", "hillclimb"} {
		_, w := atWorst(t, 80, 24, session)
		n := 0
		for _, line := range w.View() {
			for _, f := range w.findings() {
				if len(f.Text) > 20 && strings.Contains(line, f.Text[:20]) && !strings.Contains(line, "worst") {
					n++
					break
				}
			}
		}
		if n < 5 {
			t.Errorf("%s: %d findings in\n%s", session, n, strings.Join(w.View(), "\n"))
		}
	}
}

// The marked finding is always in view and no row is wasted, whichever way the
// mark went.
func TestTheMarkedFindingIsInView(t *testing.T) {
	_, w := atWorst(t, 80, 24, "launch")
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.IntRange(4, 30).Draw(t, "room")
		w.move(rapid.SampledFrom([]int{-100, -7, -1, 1, 3, 7, 100}).Draw(t, "by"))
		lines := w.ranked(room)
		if len(lines) > room || len(lines) < room-1 {
			t.Errorf("%d lines in %d rows", len(lines), room)
		}
		marked := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, w.st.Signs.Here) })
		if marked < 0 || !strings.Contains(lines[marked], w.findings()[w.list.at].Text[:10]) {
			t.Errorf("finding %d is not marked in\n%s", w.list.at, strings.Join(lines, "\n"))
		}
	})
}

// What is too long for a line is cut, but never where it is marked.
func TestTheMarkedFindingIsShownInFull(t *testing.T) {
	s, w := atWorst(t, 80, 24, "launch")
	s.keys("u")
	want := "clearance 0.0203, too tight: at least 0.0254 mm (0.0010 in)"
	if got := strings.Join(w.ranked(9), " "); strings.Contains(got, "(0.0010 in)") || !strings.Contains(got, "~") {
		t.Errorf("a sentence of more than a line is not cut: %q", got)
	}
	s.keys("<down>")
	lines := w.ranked(9)
	if got := strings.Join(strings.Fields(strings.Join(lines, " ")), " "); !strings.Contains(got, want) || len(lines) != 9 {
		t.Errorf("marked it is shown in %d lines as %q", len(lines), got)
	}
}

func TestMembersStandInTheirOrderAndTheMarkFollows(t *testing.T) {
	s, w := atWorst(t, 140, 45, "launch")
	var labels, marked []string
	note := func() {
		labels, marked = nil, nil
		for _, l := range w.lineups() {
			for _, m := range l.members {
				labels = append(labels, m.Label)
				if m.marked {
					marked = append(marked, m.Label)
				}
			}
		}
	}
	note()
	if got := strings.Join(labels, ""); got != "1234561234567" {
		t.Errorf("the members stand as %s", got)
	}
	if !slices.Equal(marked, []string{"2"}) {
		t.Errorf("the worst bore is marked at %v", marked)
	}
	s.keys("<down>")
	if note(); !slices.Equal(marked, []string{"3"}) || !strings.Contains(s.r.View(), "►3✗ OUTSIDE") {
		t.Errorf("the second finding is marked at %v", marked)
	}
}

// A shared rod journal and end play count where they belong: for two cylinders,
// and for none of the mains.
func TestThrustStandsLastAndIsNoDigit(t *testing.T) {
	d := setup.New(length.MM, plan.Default(plan.Inline, 2, false), plan.MainBearing, plan.EndPlay)
	d.Title = "with thrust"
	for _, f := range []plan.Family{plan.MainBearing, plan.EndPlay} {
		d.SetMeasured(f, true)
	}
	bearing := d.Of(plan.MainBearing)
	bearing.SetNominal(mustWrite(t, "48.040 mm"))
	bearing.SetMaster(gauge.OnRing, bearing.Nominal)
	d.Of(plan.EndPlay).SetLimit(limit.EndPlay, "", setup.NewHigh, mustWrite(t, "0.20 mm"))
	s, w := begin(t, d)
	play := w.desk.Session.Places()
	at := play[len(play)-1]
	r := record.Reading{Of: at.Of, Level: at.Level, Dir: at.Dir, Keyed: "0.30", Via: record.ViaFile, Size: mustWrite(t, "0.30 mm"), As: record.First}
	if err := w.desk.Record(r); err != nil {
		t.Fatal(err)
	}
	ms := w.lineups()[0].members
	if last := ms[len(ms)-1].Label; len(ms) != 4 || last != "thrust" {
		t.Errorf("%d members, the last is %s", len(ms), last)
	}
	if view := s.r.View(); !strings.Contains(view, " thrust") || !strings.Contains(view, "worst main: OUTSIDE") {
		t.Errorf("the worst main is the thrust:\n%s", view)
	}
}

func mustWrite(t *testing.T, text string) length.Written {
	t.Helper()
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// begin opens the worst screen of a session that a draft begins.
func begin(t *testing.T, d setup.Draft) (*station, *worst) {
	t.Helper()
	s := newStation(t, 80, 24)
	bodies, err := d.Events("uid-of-this-test")
	if err != nil {
		t.Fatal(err)
	}
	desk, err := s.st.begin(bodies)
	if err != nil {
		t.Fatal(err)
	}
	w := newWorst(s.st, desk)
	s.st.Push(w)
	s.run(s.r.settle())
	return s, w
}

// Every layout, from one cylinder to sixteen, has its picture in every window,
// and each member is in it.
func TestEveryLayoutHasItsPicture(t *testing.T) {
	for _, layout := range []plan.Layout{
		plan.Default(plan.Inline, 1, false), plan.Default(plan.Inline, 8, false), plan.Default(plan.Vee, 8, true),
		plan.Default(plan.Vee, 16, true), plan.Default(plan.Flat, 12, false),
	} {
		d := setup.New(length.MM, layout, plan.Bore, plan.MainBearing)
		d.Title = "layout"
		for _, f := range []plan.Family{plan.Bore, plan.MainBearing} {
			d.SetMeasured(f, true)
			d.Of(f).SetNominal(mustWrite(t, "80.000 mm"))
			d.Of(f).SetMaster(gauge.OnRing, mustWrite(t, "80.000 mm"))
		}
		s, w := begin(t, d)
		for _, size := range [][2]int{{80, 24}, {100, 30}, {140, 45}, {200, 60}} {
			s.r.resize(size[0], size[1])
			lines := w.View()
			if len(lines) > size[1]-frameLines || draw.Widest(lines) > size[0] {
				t.Errorf("%d cylinders at %v: %d lines of up to %d cells", layout.Cylinders, size, len(lines), draw.Widest(lines))
			}
			head := lines[w.layout(2).big+1]
			for n := 1; n <= layout.Cylinders; n++ {
				if !strings.Contains(head, fmt.Sprint(" ", n)) && !strings.Contains(head, fmt.Sprint(w.st.Signs.Here, n)) {
					t.Errorf("cylinder %d is not in %q at %v", n, head, size)
				}
			}
		}
	}
}

func TestWithoutClearancesTheMeanSizeIsShown(t *testing.T) {
	presets := setup.Presets()
	d := presets[len(presets)-1].Draft()
	d.Of(plan.Bore).SetLimit(limit.OverallSpread, "", setup.NewHigh, mustWrite(t, "0.15 mm"))
	s, w := begin(t, d)
	for i, p := range w.desk.Session.Places() {
		size := mustWrite(t, []string{"80.118 mm", "80.075 mm", "80.060 mm", "80.048 mm", "80.021 mm", "80.015 mm"}[i])
		r := record.Reading{Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: size.Number(), Via: record.ViaFile, Size: size, As: record.First}
		if err := w.desk.Record(r); err != nil {
			t.Fatal(err)
		}
	}
	if view := s.r.View(); !strings.Contains(view, "mean size") || strings.Contains(view, "worst main") {
		t.Errorf("one bore alone:\n%s", view)
	}
	screenGolden(t, "worst-one-bore-80x24", s)
	for room, want := range map[int]string{7: " 67.056", 6: "67.056", 5: ""} {
		if got := memberSize(member{size: "67.056"}, room); got != want {
			t.Errorf("%d cells: %q, want %q", room, got, want)
		}
	}
	if l := w.lineups()[0]; l.by != "" || l.members[0].size != "80.056" {
		t.Errorf("the lineup has %q, %+v", l.by, l.members[0])
	}
}

func TestASessionWithoutDiametersHasNoPicture(t *testing.T) {
	d := setup.New(length.MM, plan.Default(plan.Inline, 2, false), plan.EndPlay)
	d.Title = "play alone"
	d.SetMeasured(plan.EndPlay, true)
	_, w := begin(t, d)
	if got := w.lineups(); len(got) != 0 || len(w.View()) > 21 {
		t.Errorf("%d lineups in %d lines", len(got), len(w.View()))
	}
}

func TestAMembersVerdictIsSaidAsLongAsThereIsRoom(t *testing.T) {
	for _, tt := range []struct {
		j    limit.Judgement
		room int
		want string
	}{
		{limit.Judgement{Verdict: limit.Outside}, 20, "OUTSIDE"},
		{limit.Judgement{Verdict: limit.Outside}, 6, "OUT"},
		{limit.Judgement{Verdict: limit.Outside}, 2, ""},
		{limit.Judgement{Verdict: limit.NotMeasured}, 12, "not finished"},
		{limit.Judgement{Verdict: limit.NotMeasured}, 11, "to do"},
		{limit.Judgement{Verdict: limit.TooClose}, 9, "too close"},
		{limit.Judgement{Verdict: limit.InsideWear}, 8, "by wear"},
		{limit.Judgement{Verdict: limit.InsideNew}, 8, "inside"},
		{limit.Judgement{Verdict: limit.InsideNew, Suspect: true}, 8, "suspect"},
	} {
		if got := memberVerdict(tt.j, tt.room); got != tt.want {
			t.Errorf("%v in %d cells: %q, want %q", tt.j.Verdict, tt.room, got, tt.want)
		}
	}
}

// However narrow the members are, no word or figure runs into the next.
func TestFiguresOfNeighboursStandApart(t *testing.T) {
	for n := 1; n <= 17; n++ {
		for w := 80; w <= 200; w += 10 {
			g := gridOf(w, n)
			if g.names+n*g.member > w || g.inner() < draw.ProfileLeast-1 || g.words() >= g.member {
				t.Errorf("%d members in %d cells: %+v", n, w, g)
			}
		}
	}
}

// A clearance is whole or not there: a cut figure would be another figure.
func TestAClearanceIsNeverCut(t *testing.T) {
	_, w := atWorst(t, 80, 24, "launch")
	for room, want := range map[int]string{12: " 0.0036 ✓", 9: " 0.0036 ✓", 8: " 0.0036", 7: " 0.0036", 6: "0.0036", 5: ".0036", 4: ""} {
		if got := w.memberClearance(member{clearance: "0.0036", tone: draw.Good}, room); got != want {
			t.Errorf("%d cells: %q, want %q", room, got, want)
		}
	}
	if got := w.memberClearance(member{}, 9); got != "" {
		t.Errorf("no clearance is shown as %q", got)
	}
}

// Everything the screen says with colour it says with signs and words too: a
// verdict's sign stands in the text without any colour.
func TestThePictureIsUnderstoodWithoutColour(t *testing.T) {
	s, _ := atWorst(t, 80, 24, "launch")
	view := s.r.View()
	for _, want := range []string{"►2✗ OUTSIDE", "1✓ inside", "4. to do", "0.0035 ✓", "]> [", "worst main: OUTSIDE", "6✓ 4✓ 1✓", "░ ✗░"} {
		if !strings.Contains(view, want) {
			t.Errorf("%q is not in\n%s", want, view)
		}
	}
}

// A note on a finding's figures is never cut away, however little room there is.
func TestNotesStayInTheList(t *testing.T) {
	f := engine.Finding{Text: "bore 4, across: taper (end to end) 0.0007 of 0.0005 in allowed (not yet washed)", Notes: []string{"not yet washed"}}
	for w, want := range map[int]string{
		90: f.Text,
		70: "bore 4, across: taper (end to end) 0.0007 of 0.0005 in allowed (note)",
		40: "bore 4, across: taper (end to ~ (note)",
	} {
		if got := brief(f, w); got != want {
			t.Errorf("%d cells: %q, want %q", w, got, want)
		}
	}
}

func TestNotesOfWhatIsReadNowFit(t *testing.T) {
	two, three := []string{"not yet deburred", "not yet washed"}, []string{"not yet deburred", "not yet washed", "not yet soaked"}
	for _, c := range []struct {
		notes []string
		w     int
		want  string
	}{
		{two, 80, "not yet deburred, not yet washed: a note stays on what is read now"},
		{two, 52, "not yet deburred, not yet washed: a note stays"},
		{three, 52, "not yet deburred, washed, soaked: a note stays"},
	} {
		if got := noteOf(c.notes, c.w); got != c.want {
			t.Errorf("%d cells: %q, want %q", c.w, got, c.want)
		}
	}
}
