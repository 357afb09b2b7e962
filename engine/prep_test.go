package engine_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
)

// three is what prep lists of the small engine are made for.
var three = prep.For{Layout: plan.Default(plan.Inline, 3, false), Unit: length.MM}

// afterMachining is the preset of that name as an event.
func afterMachining() record.Steps {
	for _, p := range prep.Presets() {
		if p.ID == "after-machining" {
			return record.Steps{List: p.List(three)}
		}
	}
	return record.Steps{}
}

// ticks are the events that do some steps of the preset, at all places.
func ticks(ids ...string) []record.Body {
	var out []record.Body
	for _, id := range ids {
		s, _, _ := afterMachining().List.Find(id)
		switch {
		case s.Kind == prep.Counted:
			out = append(out, record.Done{Tick: prep.Tick{Step: id, Way: s.Way, Count: 11, Keyed: "11"}})
		case len(s.Places) == 0:
			out = append(out, record.Done{Tick: prep.Tick{Step: id}})
		}
		for _, p := range s.Places {
			out = append(out, record.Done{Tick: prep.Tick{Step: id, Place: p}})
		}
	}
	return out
}

func worked(did, of string) record.Work {
	f, _ := plan.ParseFeature(of)
	return record.Work{Did: did, To: []plan.Feature{f}, Changes: []plan.Feature{f}, Metal: true}
}

func prepSession(t rapid.TB, more ...record.Body) *engine.Session {
	t.Helper()
	return replay(t, append(append(small(length.MM, ""), afterMachining()), more...))
}

func TestADeburredBoreWithdrawsTheWashAndIsAsFound(t *testing.T) {
	bodies := ticks(prep.PlugsOut, prep.DeburrBores, prep.DeburrRest, prep.Brush, prep.Wash)
	bodies = append(bodies, readingAt("bore/2", "a", "across", "82.004"))
	s := prepSession(t, append(bodies, worked("deburred", "bore/2"))...)
	a := engine.Assess(s)
	want := "not ready: 11 of 11 gallery plugs not back; galleries brushed and wash withdrawn by work on bore 2; 6 of 9 steps open"
	if got := a.Ready.NotReady(); got != want {
		t.Errorf("it is\n%s\nnot\n%s", got, want)
	}
	m, _ := a.Feature(plan.Feature{Family: plan.Bore, At: 2})
	if m.Read != 0 || !m.Worked || m.AsFound.Measured != 1 {
		t.Errorf("the bore has %d readings, %d as found", m.Read, m.AsFound.Measured)
	}
	summary := strings.Join(a.Summary(s), "\n")
	for _, line := range []string{"prep: 3 of 9 steps done", "N" + want[1:], "gallery plugs 11 out, 0 in: 11 not back"} {
		if !strings.Contains(summary, "\n"+line+"\n") {
			t.Errorf("the summary lacks %q:\n%s", line, summary)
		}
	}
}

func TestANoteStaysOnFiguresReadTooEarly(t *testing.T) {
	early := readingAt("bore/1", "a", "across", "82.004")
	done := ticks(prep.PlugsOut, prep.DeburrBores, prep.DeburrRest, prep.Brush, prep.Wash)
	s := prepSession(t, append([]record.Body{early}, done...)...)
	notes := func(s *engine.Session) string { return strings.Join(s.Notes(early.Of), ", ") }
	if got := notes(s); got != "not yet deburred, not yet washed" {
		t.Errorf("washed later, the figures say %q", got)
	}
	a := engine.Assess(s)
	for _, f := range a.Findings {
		noted := strings.HasSuffix(f.Text, " (not yet deburred, not yet washed)") && len(f.Notes) == 2
		if noted != (f.Of == early.Of && f.Value.Measured()) {
			t.Errorf("%q has notes %v", f.Text, f.Notes)
		}
	}
	if text := strings.Join(a.Figures(s), "\n"); !strings.Contains(text, "    note: read while not yet deburred, not yet washed") {
		t.Errorf("the figures say no note:\n%s", text)
	}
	again := early
	again.As = record.Replace
	if got := notes(prepSession(t, append(append([]record.Body{early}, done...), again)...)); got != "" {
		t.Errorf("read again after the wash, the figures say %q", got)
	}
	if got := notes(replay(t, append(small(length.MM, ""), early))); got != "" {
		t.Errorf("without a prep list the figures say %q", got)
	}
}

func TestAClearanceBearsTheNotesOfItsHole(t *testing.T) {
	s := prepSession(t, readingAt("bore/1", "a", "across", "82.030"), readingAt("piston/1", "a", "across", "82.000"))
	found := false
	for _, c := range engine.Assess(s).Findings {
		found = found || c.On == "clearance" && strings.HasSuffix(c.Text, " (not yet deburred, not yet washed)")
	}
	if !found {
		t.Error("no clearance bears the bore's notes")
	}
}

func TestAMovedReadingBearsTheNotesOfItsPlace(t *testing.T) {
	bodies := append(ticks(prep.PlugsOut), record.Done{Tick: prep.Tick{Step: prep.DeburrBores, Place: "bore/2 top"}},
		record.Done{Tick: prep.Tick{Step: prep.DeburrBores, Place: "bore/2 bottom"}}, readingAt("bore/1", "a", "across", "82.004"))
	s := prepSession(t, bodies...)
	n := int64(len(s.Events()))
	to := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 2}, Level: "a", Dir: "across"}
	s = prepSession(t, append(bodies, record.Moved{Readings: []int64{n}, Places: []plan.Place{to}})...)
	if got := s.Notes(to.Of); !slices.Equal(got, []string{"not yet washed"}) {
		t.Errorf("moved to a deburred bore it bears %v", got)
	}
}

// Work keyed late withdraws what was done before it, and notes what was read
// since.
func TestWorkKeyedLateNotesWhatWasReadSince(t *testing.T) {
	bodies := ticks(prep.PlugsOut, prep.DeburrBores, prep.DeburrRest, prep.Brush, prep.Wash)
	washed := int64(len(prepSession(t, bodies...).Events()))
	late := worked("deburred", "bore/2")
	late.After = washed
	s := prepSession(t, append(bodies, readingAt("bore/1", "a", "across", "82.004"), late)...)
	if got := s.Notes(plan.Feature{Family: plan.Bore, At: 1}); !slices.Equal(got, []string{"not yet washed"}) {
		t.Errorf("bore 1, read after bore 2 was worked on, bears %v", got)
	}
	if s.Prep().Done(prep.Wash) {
		t.Error("the wash outlives work keyed late")
	}
}

func TestATickTakenBackIsNotDone(t *testing.T) {
	bodies := append(ticks(prep.PlugsOut, prep.DeburrBores, prep.DeburrRest, prep.Brush, prep.Wash), readingAt("bore/1", "a", "across", "82.004"))
	s := prepSession(t, bodies...)
	n := s.LastDone()
	if e := s.Events()[n-1]; e.Body.(record.Done).Step != prep.Wash {
		t.Fatalf("the last tick is %+v", e.Body)
	}
	s = prepSession(t, append(bodies, record.Withdrawn{Event: n})...)
	if s.Prep().Done(prep.Wash) || s.LastDone() == n || len(s.Notes(plan.Feature{Family: plan.Bore, At: 1})) != 1 {
		t.Errorf("washed %v, last tick %d, notes %v", s.Prep().Done(prep.Wash), s.LastDone(), s.Notes(plan.Feature{Family: plan.Bore, At: 1}))
	}
}

func TestATickOfNoStepIsRefused(t *testing.T) {
	s := prepSession(t)
	err := s.Check(record.Done{Tick: prep.Tick{Step: "polish"}})
	if err == nil || err.Error() != `step "polish": the prep list has no such step` {
		t.Errorf("refused with %v", err)
	}
	if err := s.Check(record.Done{Tick: prep.Tick{Step: prep.Wash}}); err != nil {
		t.Errorf("an early tick is held by the screen, not refused here: %v", err)
	}
	if s := replay(t, small(length.MM, "")); s.LastDone() != 0 || engine.Assess(s).Ready.Listed() || engine.Assess(s).Ready.Lines() != nil {
		t.Error("a session without a list has a prep")
	}
}

func TestThePrepIsLogged(t *testing.T) {
	held := "galleries brushed comes first"
	s := prepSession(t, append(ticks(prep.PlugsOut),
		record.Done{Tick: prep.Tick{Step: prep.DeburrBores, Place: "bore/2 top"}},
		record.Done{Tick: prep.Tick{Step: prep.Wash, Forced: held}},
		record.Done{Tick: prep.Tick{Step: prep.PlugsIn, Way: prep.Accounted, Count: 1, Choice: prep.Reasons()[0]}},
		record.Steps{List: append(afterMachining().List, prep.Step{ID: "seat", Name: "seat", Kind: prep.Value, Unit: "mm"})},
		record.Done{Tick: prep.Tick{Step: "seat", Value: "0.50 mm"}})...)
	var got []string
	for _, e := range s.Log()[len(small(length.MM, "")):] {
		got = append(got, e.Text)
	}
	want := []string{
		"prep list of 9 steps", "prep: gallery plugs out, 11", "prep: bores deburred at bore 2 top, done",
		"prep: wash, done, forced although galleries brushed comes first",
		"prep: gallery plugs in, 1 accounted for: its hole is closed off for good",
		"prep list of 10 steps", "prep: seat, 0.50 mm",
	}
	if !slices.Equal(got, want) {
		t.Errorf("the log tells\n%q\nnot\n%q", got, want)
	}
}

func TestThePrepIsReported(t *testing.T) {
	s := prepSession(t, append(ticks(prep.PlugsOut), record.Done{Tick: prep.Tick{Step: prep.Wash, Forced: "a hurry"}},
		readingAt("bore/1", "a", "across", "82.004"))...)
	r := engine.Assess(s).Report(s)
	data, err := json.Marshal(r.Prep)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"ready":false,"steps":9,"done":2,"findings":[` +
		`{"kind":"not back","step":"plugs-in","blocks":true,"text":"11 of 11 gallery plugs not back"},` +
		`{"kind":"open","step":"deburr-bores","blocks":true,"text":"7 of 9 steps open"},` +
		`{"kind":"forced","step":"wash","blocks":false,"text":"wash forced: a hurry"}],` +
		`"tallies":[{"name":"gallery plugs","out":11,"in":0,"accounted":0,"text":"gallery plugs 11 out, 0 in: 11 not back"}]}`
	if string(data) != want {
		t.Errorf("the report says\n%s\nnot\n%s", data, want)
	}
	if got := r.Features[0].Notes; !slices.Equal(got, []string{"not yet deburred"}) {
		t.Errorf("the bore's notes are %v", got)
	}
	if bare := replay(t, small(length.MM, "")); engine.Assess(bare).Report(bare).Prep != nil {
		t.Error("a session without a list reports its prep")
	}
}

// Assessing again after each event equals assessing anew, with a prep list that
// is ticked, worked over and taken back in any order.
func TestAgainEqualsAssessWithAPrepList(t *testing.T) {
	setup := append(small(length.MM, ""), afterMachining())
	any := ticks(prep.PlugsOut, prep.DeburrBores, prep.Wash, prep.PlugsIn)
	for _, of := range []string{"bore/1", "bore/2", "piston/1", "main-journal/1"} {
		any = append(any, readingAt(of, "a", "across", "82.004"), worked("honed", of))
	}
	any[len(any)-2] = readingAt("main-journal/1", "a", "vertical", "82.000")
	rapid.Check(t, func(t *rapid.T) {
		bodies := slices.Clone(setup)
		for range rapid.IntRange(1, 8).Draw(t, "acts") {
			act := rapid.SampledFrom(any).Draw(t, "act")
			if replay(t, bodies).Check(act) == nil {
				bodies = append(bodies, act)
			}
			n := int64(rapid.IntRange(len(setup), len(bodies)+9).Draw(t, "withdrawn"))
			if n <= int64(len(bodies)) && replay(t, bodies).CheckWithdraw(n) == nil {
				bodies = append(bodies, record.Withdrawn{Event: n})
			}
		}
		sealed := seal(t, bodies)
		s, err := engine.Replay(sealed[:len(setup)])
		if err != nil {
			t.Fatal(err)
		}
		a := engine.Assess(s)
		for _, e := range sealed[len(setup):] {
			touched, err := s.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			a = a.Again(s, touched)
			same(t, a, engine.Assess(s))
		}
	})
}
