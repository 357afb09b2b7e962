package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// yard is ten thousand sessions, newest first: invented engines of invented
// owners, every hundredth archived.
func yard(n int) []record.Heading {
	engines := []string{"inline six", "vee eight", "flat four", "Reihenmotor, Grünwald"}
	owners := []string{"Ferry steps boatyard", "Hill club", "nobody yet"}
	out := make([]record.Heading, n)
	for i := range out {
		out[i] = record.Heading{
			UID: fmt.Sprintf("s%d", i), Title: fmt.Sprintf("Job %05d", n-i), Engine: engines[i%len(engines)],
			Customer: owners[i%len(owners)], Last: noon.Add(-time.Duration(i) * time.Hour), Unit: length.MM,
		}
		if i%100 == 99 {
			out[i].State = record.Archived
		}
	}
	return out
}

func TestTheBenchShowsTheNewestBeforeItHasTheRest(t *testing.T) {
	s := newStation(t, 80, 24)
	s.book.yard = yard(10_000)
	b := newBench(s.st)
	first := b.Init()
	if got := strings.Join(b.View(), "\n"); !strings.Contains(got, "Reading the sessions") {
		t.Errorf("the first frame waits:\n%s", got)
	}
	b.Resize(80, 21)
	rest := b.Update(first())
	if got := strings.Join(b.View(), "\n"); !strings.Contains(got, "60 on the bench, last touched first; reading the rest...") || !strings.Contains(got, "Job 10000") {
		t.Errorf("with the newest it shows\n%s", got)
	}
	b.move(50)
	b.find()
	for _, r := range "ferry" {
		b.typed(term.Token{Kind: term.Text, Rune: r})
	}
	b.move(3)
	marked := b.marked().UID
	if rest = b.Update(rest()); rest != nil {
		t.Error("there is still more to ask for")
	}
	if got := b.marked().UID; got != marked {
		t.Errorf("the rest moved the mark from %s to %s", marked, got)
	}
	if got := strings.Join(b.View(), "\n"); !strings.Contains(got, "3300 found") {
		t.Errorf("with all of them it shows\n%s", got)
	}
}

func TestOneReadingIsNotReadings(t *testing.T) {
	s := newStation(t, 80, 24)
	s.book.yard = yard(2)
	for i, n := range []int64{1, 2} {
		h := &s.book.yard[i]
		h.Readings, h.LastPlace.Of, h.LastLabel, h.LastKeyed, h.LastAt = n, plan.Feature{Family: plan.Bore, At: 1}, "1", "+2", h.Last
	}
	b := newBench(s.st)
	b.Resize(80, 21)
	b.Update(b.Init()())
	got := strings.Join(b.View(), "\n")
	for _, want := range []string{" 1 reading, last bore 1: +2", " 2 readings, last bore 1: +2"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing:\n%s", want, got)
		}
	}
}

func TestFindingAsYouType(t *testing.T) {
	s := newStation(t, 80, 24)
	s.book.yard = yard(10_000)
	*top[*bench](s) = *newBench(s.st)
	s.run(s.r.Init())
	for typed, want := range map[string]int{
		"":                   9900,
		"job":                9900,
		"HILL":               3300,
		"grunwald":           2400,
		"Grünwald":           2400,
		"grünwald reihen":    2400,
		"reihen grünwald":    2400,
		"00042":              1,
		"steps 42 six ferry": -1,
		"zeppelin":           0,
		"job job":            9900,
		"ferry hill":         0,
	} {
		b := top[*bench](s)
		s.keys("f")
		s.keys(typed)
		shown := b.known.shown
		if want >= 0 && len(shown) != want || want < 0 && len(shown) == 0 {
			t.Errorf("%q finds %d sessions, want %d", typed, len(shown), want)
		}
		if !slices.IsSortedFunc(shown, func(x, y *record.Heading) int { return y.Last.Compare(x.Last) }) {
			t.Errorf("%q: the list is not newest first", typed)
		}
		s.keys("<esc>")
		if b.known.words != "" || b.finding != nil {
			t.Fatalf("Esc left %q", b.known.words)
		}
	}
}

// A session is shown exactly when every typed word is in one of its texts.
func TestFindingFindsEveryWordAndNothingElse(t *testing.T) {
	word := rapid.SampledFrom([]string{"kit", "Kittiwake", "LAUNCH", "boat", "é", "e\u0301", "6", "six"})
	rapid.Check(t, func(t *rapid.T) {
		h := record.Heading{
			UID: "a", Title: strings.Join(rapid.SliceOfN(word, 0, 3).Draw(t, "title"), " "),
			Customer: strings.Join(rapid.SliceOfN(word, 0, 2).Draw(t, "customer"), " "),
			Engine:   strings.Join(rapid.SliceOfN(word, 0, 2).Draw(t, "engine"), " "),
		}
		words := rapid.SliceOfN(word, 0, 3).Draw(t, "words")
		var c catalogue
		c.take(listedOf([]record.Heading{h}), true)
		c.find(strings.Join(words, "  "))
		want := true
		for _, w := range words {
			in := func(s string) bool { return strings.Contains(draw.Folded(s), draw.Folded(w)) }
			want = want && (in(h.Title) || in(h.Customer) || in(h.Engine))
		}
		if got := len(c.shown) == 1; got != want {
			t.Errorf("%q in %q, %q, %q: shown %v", words, h.Title, h.Customer, h.Engine, got)
		}
	})
}

func TestWhatIsFoundIsResumed(t *testing.T) {
	s := newStation(t, 80, 24, "launch", "hillclimb")
	s.keys("f", "wake", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "find: wake") || !strings.Contains(view, "1 found") || strings.Contains(view, "Goat") {
		t.Errorf("found:\n%s", view)
	}
	s.keys("<enter>")
	if got := top[*measure](s).desk.UID(); got != launchUID {
		t.Errorf("resumed %s", got)
	}
	s.keys("<esc>")
	if b := top[*bench](s); b.known.words != "wake" || b.finding != nil {
		t.Errorf("back at the bench the words are %q", b.known.words)
	}
	s.keys("<esc>")
	if view := s.r.View(); !strings.Contains(view, "2 on the bench") || !strings.Contains(view, "Goat") {
		t.Errorf("Esc shows\n%s", view)
	}
}

// Letters that are keys of the list are letters while words are typed.
func TestEveryLetterIsTyped(t *testing.T) {
	s := newStation(t, 80, 24, "launch", "hillclimb")
	s.keys("/", "qAnRd?-+")
	b := top[*bench](s)
	if b.known.words != "qAnRd?-+" || len(b.known.shown) != 0 {
		t.Errorf("typed %q, %d shown", b.known.words, len(b.known.shown))
	}
	if view := s.r.View(); !strings.Contains(view, "No session has these words") {
		t.Errorf("nothing found:\n%s", view)
	}
}

func TestTheArchiveAsksAndDeletesNothing(t *testing.T) {
	s := newStation(t, 80, 24, "launch", "hillclimb")
	s.keys("<down>", "A")
	before := len(s.book.sessions[launchUID])
	if view := s.r.View(); !strings.Contains(view, `Archive "Kittiwake, harbour launch"?`) || !strings.Contains(view, "Nothing is deleted") {
		t.Fatalf("A shows\n%s", view)
	}
	s.keys("A", "y", "<esc>")
	if n := len(s.book.sessions[launchUID]); n != before || !strings.Contains(s.r.View(), "Kittiwake") {
		t.Fatalf("it was archived all the same: %d events", n-before)
	}
	s.keys("A", "<enter>")
	if x := s.last(launchUID).Body.(record.State); x.State != record.Archived || len(s.book.sessions[launchUID]) != before+1 {
		t.Errorf("recorded %+v", x)
	}
	view := s.r.View()
	if strings.Contains(view, "cast-iron straight six") || !strings.Contains(view, "1 on the bench, last touched first; 1 archived: a shows them") {
		t.Errorf("the list shows\n%s", view)
	}
}

func TestWhatIsArchivedIsShownWhenAskedForAndRestored(t *testing.T) {
	s := newStation(t, 80, 24, "launch", "hillclimb")
	s.keys("<down>", "A", "<enter>", "R")
	if !strings.Contains(s.st.status.text, "it is not in the archive") {
		t.Errorf("restoring what is not archived: %q", s.st.status.text)
	}
	s.keys("f", "wake")
	if view := s.r.View(); !strings.Contains(view, "a looks among the archived ones too") {
		t.Errorf("what is archived is found:\n%s", view)
	}
	s.keys("<esc>", "a")
	view := s.r.View()
	if !strings.Contains(view, "Kittiwake, harbour launch") || !strings.Contains(view, "archived, today 07:30") || !strings.Contains(view, "1 archived among them") {
		t.Fatalf("a shows\n%s", view)
	}
	b := top[*bench](s)
	b.list.at = b.known.index(launchUID)
	s.keys("A")
	if !strings.Contains(s.st.status.text, "R brings it back") {
		t.Errorf("archiving twice: %q", s.st.status.text)
	}
	s.keys("R", "a")
	if x := s.last(launchUID).Body.(record.State); x.State != record.Restored {
		t.Errorf("recorded %+v", x)
	}
	if view := s.r.View(); !strings.Contains(view, "2 on the bench, last touched first\n") && !strings.Contains(view, "2 on the bench, last touched first ") || strings.Contains(view, "archived") && !strings.Contains(view, "is restored") {
		t.Errorf("restored:\n%s", view)
	}
}

// On a bench without a session Enter begins the first one, as n does: a keypad has
// no letters.
func TestEnterBeginsTheFirstSession(t *testing.T) {
	for _, key := range []string{"<enter>", "n"} {
		s := newStation(t, 80, 24)
		s.keys(key)
		top[*presets](s)
	}
}

func TestTheWholeBenchMayBeArchived(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("A", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "Every session is archived") {
		t.Errorf("with everything archived:\n%s", view)
	}
	s.keys("<enter>", "d", "A")
	if b := top[*bench](s); b.marked().UID != "" || !strings.Contains(s.st.status.text, "no session is shown") {
		t.Errorf("%q", s.st.status.text)
	}
}

// A session that was archived goes on being worked on and being kept.
func TestAnArchivedSessionLiesOpenWithTheRest(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "<esc>", "A", "<enter>", "a", "<enter>", "+4", "<enter>")
	m := top[*measure](s)
	if m.desk.Session.Lifecycle() != record.Archived || m.desk.Pending() != 0 || len(s.st.desks) != 1 {
		t.Errorf("lifecycle %q, %d pending, %d desks", m.desk.Session.Lifecycle(), m.desk.Pending(), len(s.st.desks))
	}
}

func TestWhatCannotBeOpenedIsNotArchived(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.book.broken = errors.New("event 12 cannot be read")
	s.keys("A", "<enter>")
	if !strings.Contains(s.st.status.text, "event 12 cannot be read") {
		t.Errorf("said %q", s.st.status.text)
	}
	top[*bench](s)
}

// The answer to an earlier question is dropped: what was asked for last counts.
func TestOnlyTheSessionAskedForLastIsOpened(t *testing.T) {
	s := newStation(t, 80, 24, "launch", "hillclimb")
	b := top[*bench](s)
	first := b.open(s.book.order[0])
	second := b.open(s.book.order[1])
	s.send(first())
	top[*bench](s)
	s.send(second())
	if got := top[*measure](s).desk.UID(); got != s.book.order[1] {
		t.Errorf("opened %s", got)
	}
	s.send(second())
	if n := len(s.r.stack); n != 2 {
		t.Errorf("the same answer twice makes %d screens", n)
	}
}

func TestDuplicatingASetup(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("d")
	form := top[*setupForm](s)
	if d := form.draft; d.Title != "Kittiwake, harbour launch, 11 Mar 2026" || d.Customer != "" || d.Initials != "ek" || d.Unit != length.In {
		t.Errorf("the draft is %q for %q by %q", d.Title, d.Customer, d.Initials)
	}
	view := s.r.View()
	if !strings.Contains(view, "every gauge is to be zeroed anew") || strings.Contains(view, "3.7500 in  ") {
		t.Errorf("the form shows\n%s", view)
	}
	before := len(s.book.sessions[launchUID])
	if id, wrong := form.firstWrong(); wrong {
		t.Errorf("%s is wrong: %s", id, form.says(id).text)
	}
	s.send(tea.KeyMsg{Type: tea.KeyF2})
	m := top[*measure](s)
	x := m.desk.Session.Details()
	if x.UID != "uid-of-this-test" || x.Earlier != "" || !strings.HasPrefix(x.Copied, fmt.Sprint(before, " ")) {
		t.Errorf("begun with %+v", x)
	}
	if len(s.book.sessions[launchUID]) != before || len(m.desk.Session.Limits()) == 0 || m.desk.Session.PlaceName(m.place) != "main journal 1, front, vertical" {
		t.Errorf("at %s", m.desk.Session.PlaceName(m.place))
	}
	s.keys("<esc>")
	if view := s.r.View(); !strings.Contains(view, "2 on the bench") {
		t.Errorf("the bench shows\n%s", view)
	}
}

func TestTheSameEngineAgain(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("d")
	f := top[*setupForm](s).form
	if !f.jump("same") {
		t.Fatal("the form does not ask whether it is the same engine")
	}
	s.keys("<right>")
	s.send(tea.KeyMsg{Type: tea.KeyF2})
	if x := top[*measure](s).desk.Session.Details(); x.Earlier != launchUID {
		t.Errorf("begun with %+v", x)
	}
	s.keys("<esc>", "n", "1")
	if f := top[*setupForm](s).form; f.jump("same") {
		t.Error("what is copied from nothing asks whether it is the same engine")
	}
}

func TestBeginningLeadsFromThePresetsToTheFirstPlace(t *testing.T) {
	s := newStation(t, 80, 24)
	s.keys("n", "7")
	top[*setupForm](s)
	s.send(tea.KeyMsg{Type: tea.KeyF2})
	top[*measure](s)
	s.keys("<esc>")
	if b := top[*bench](s); len(b.known.all) != 1 {
		t.Errorf("%d sessions on the bench", len(b.known.all))
	}
}

func TestADayBehindATitleIsReplaced(t *testing.T) {
	for title, want := range map[string]string{
		"Inline six":                           "Inline six, 11 Mar 2026",
		"Inline six, 2 Jan 2006":               "Inline six, 11 Mar 2026",
		"Inline six, cast iron":                "Inline six, cast iron, 11 Mar 2026",
		"Inline six, 2 Jan 2006, spare engine": "Inline six, 2 Jan 2006, spare engine, 11 Mar 2026",
	} {
		if got := redated(title, noon); got != want {
			t.Errorf("%q becomes %q, want %q", title, got, want)
		}
	}
}

// The newest are asked for again and again; what is known already stays.
func TestTheCatalogueMerges(t *testing.T) {
	hs := yard(10)
	var c catalogue
	c.showArchived(true)
	c.take(listedOf(hs), true)
	touched := slices.Clone(hs[5:6])
	touched[0].Title = "touched"
	c.take(listedOf(append(touched, hs[0])), false)
	if len(c.shown) != 10 || c.shown[0].Title != "touched" || c.shown[1].UID != "s0" || !c.whole {
		t.Errorf("%d sessions, the first %q and %q", len(c.shown), c.shown[0].Title, c.shown[1].UID)
	}
	if c.index("s9") != 9 || c.index("gone") != -1 {
		t.Error("a session is not where it is shown")
	}
}

func TestBenchScreens(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {140, 45}} {
		s := newStation(t, size[0], size[1], "launch", "hillclimb", "launch-complete")
		at := fmt.Sprintf("-%dx%d", size[0], size[1])
		screenGolden(t, "bench"+at, s)
		s.keys("f", "goat sp")
		screenGolden(t, "bench-find"+at, s)
		s.keys("<esc>", "A")
		screenGolden(t, "bench-archive"+at, s)
		s.keys("<enter>", "a")
		screenGolden(t, "bench-archived"+at, s)
		s.keys("a", "d")
		screenGolden(t, "bench-duplicate"+at, s)
	}
}
