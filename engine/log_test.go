package engine_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
)

// logged is a session with something of everything that the log tells apart.
func logged(t *testing.T) []engine.Entry {
	t.Helper()
	bodies := append(small(length.MM, plan.ByLevel), // events 1 to 9
		record.Instrument{Instrument: gauge.Instrument{ID: "g", Name: "bore gauge", Kind: gauge.Direct, Contacts: 2, Unit: length.MM, Graduation: inMM(t, "0.001"), Step: inMM(t, "0.001")}},
		mmReading(t, "bore/1", "82.001", record.First),   // 11
		mmReading(t, "bore/1", "82.011", record.Replace), // 12
		mmReading(t, "bore/1", "82.012", record.Repeat),  // 13
		record.Note{On: "bore/1", Text: "a score at the top"},
		record.Work{Did: "honed", To: []plan.Feature{feature(t, "bore/1")}, Changes: []plan.Feature{feature(t, "bore/1")}, Metal: true},
		mmReading(t, "bore/1", "82.015", record.First), // 16
		record.Limit{Limits: limit.Limits{On: limit.Size, Of: "bore", New: limit.Range{High: inMM(t, "82.025")}, Source: "the book"}},
		mmReading(t, "bore/2", "82.002", record.First), // 18
		record.Withdrawn{Event: 18, Why: "wrong hole"},
		record.LeftOut{Of: feature(t, "bore/3"), Level: "a", Dir: "across"}, // 20
		mmReading(t, "bore/3", "82.003", record.First),                      // 21
		record.Note{Text: "cold this morning"},
	)
	return replay(t, bodies).Log()
}

func inMM(t *testing.T, text string) length.Written {
	t.Helper()
	w, err := length.Parse(text, length.MM)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// mmReading is a reading at the top of a feature, across.
func mmReading(t *testing.T, of, size, as string) record.Reading {
	t.Helper()
	return record.Reading{
		Of: feature(t, of), Level: "a", Dir: "across", Keyed: size, Via: record.ViaKeypad, Size: inMM(t, size), As: as,
	}
}

func TestTheLogSaysWhatReplacedWhat(t *testing.T) {
	entries := logged(t)
	want := map[int64]int64{4: 17, 11: 12, 20: 21}
	for _, e := range entries {
		if e.ReplacedBy != want[e.N] {
			t.Errorf("event %d (%s) is replaced by %d, want %d", e.N, e.Text, e.ReplacedBy, want[e.N])
		}
	}
	if e := entries[17]; e.Live || e.WithdrawnBy != 19 {
		t.Errorf("event 18 is %+v, want withdrawn by 19", e)
	}
}

func TestTheLogKnowsWhatItIsAbout(t *testing.T) {
	entries := logged(t)
	for _, c := range []struct {
		name string
		want []int64
	}{
		{"bore/1", []int64{11, 12, 13, 14, 15, 16}},
		{"bore/2", []int64{18, 19}},
		{"bore/3", []int64{20, 21}},
		{"bore", []int64{4, 5, 6, 7, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21}},
		{"main-bearing", []int64{8}},
		{"main-journal", []int64{9}},
		{"piston", nil},
	} {
		var got []int64
		for _, e := range entries {
			if e.Concerns(c.name) {
				got = append(got, e.N)
			}
		}
		if !equal(got, c.want) {
			t.Errorf("about %s are %v, want %v", c.name, got, c.want)
		}
	}
}

func equal(a, b []int64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func TestAGaugesEventsAreAboutWhatItReads(t *testing.T) {
	d := enginetest.Mastered(setup.Presets()[0].Draft())
	for _, e := range enginetest.Begun(t, d).Log() {
		switch b := e.Body.(type) {
		case record.Instrument:
			if !e.Concerns(b.ID) {
				t.Errorf("event %d, %s, is about %v", e.N, e.Text, e.About)
			}
		case record.Setting:
			if !e.Concerns(b.Instrument) {
				t.Errorf("event %d, %s, is about %v", e.N, e.Text, e.About)
			}
		case record.Set:
			if len(e.About) != 1 {
				t.Errorf("event %d, %s, is about %v", e.N, e.Text, e.About)
			}
		}
	}
}

func TestTheLogNamesThingsAsTheBenchDoes(t *testing.T) {
	entries := logged(t)
	for n, want := range map[int]string{
		4:  "limit on size of bores, new 82.000 to 82.020 mm",
		5:  "limit on out-of-round of bores, new at most 0.010 mm",
		14: "note on bore 1: a score at the top",
		17: "limit on size of bores, new at most 82.025 mm, from: the book",
		22: "note: cold this morning",
	} {
		if got := entries[n-1].Text; got != want {
			t.Errorf("event %d is told as %q, want %q", n, got, want)
		}
	}
	if got := entries[18].Text; !strings.Contains(got, "event 18") || !strings.HasSuffix(got, ": wrong hole") {
		t.Errorf("the withdrawal is told as %q", got)
	}
	if got := entries[13].Of; got != feature(t, "bore/1") {
		t.Errorf("the note is on %v", got)
	}
}

// What is replaced or withdrawn counts nowhere, and all else that was read
// counts: the log and the figures tell one story.
func TestWhatTheLogLeavesStandingIsWhatCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := replay(t, acts(t, small(length.MM, plan.ByLevel)))
		counting := map[int64]bool{}
		for _, p := range s.Places() {
			for stage := range s.Stage(p.Of) + 1 {
				for _, r := range s.At(p, stage) {
					counting[r.N] = true
				}
			}
		}
		for _, e := range s.Log() {
			if _, is := e.Body.(record.Reading); is && (e.Live && e.ReplacedBy == 0) != counting[e.N] {
				t.Fatalf("event %d (%s): live %v, replaced by %d, but counting is %v", e.N, e.Text, e.Live, e.ReplacedBy, counting[e.N])
			}
		}
	})
}

// What is given and what is on hand say what for.
func TestTheLogSaysWhatIsGivenForWhat(t *testing.T) {
	s := replay(t, append(gauged(t),
		record.Given{Name: engine.GivenExpansion, Of: "bore", Value: "11.4", Doubt: "1.0"},
		record.Given{Name: "stroke", Value: "4.5000 in"},
		record.Table{Name: record.Ladder, Of: "bore", Rows: []map[string]string{{"name": "20", "step": "0.020 in"}}},
	))
	log := s.Log()
	for i, want := range []string{"given for bores: expansion 11.4", "given: stroke 4.5000 in", "table of ladder for bores, 1 row"} {
		if got := log[len(log)-3+i].Text; got != want {
			t.Errorf("told as %q, want %q", got, want)
		}
	}
}
