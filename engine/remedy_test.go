package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// complete is the demo session that is measured completely.
func complete(t *testing.T) (*engine.Session, *engine.Assessment) {
	t.Helper()
	s, err := engine.Replay(launch(t, true).events)
	if err != nil {
		t.Fatal(err)
	}
	return s, engine.Assess(s)
}

func outside(a *engine.Assessment) []string {
	var out []string
	for _, f := range a.Findings {
		if f.Judgement.Verdict == limit.Outside {
			out = append(out, f.Of.String()+" "+string(f.On))
		}
	}
	return out
}

func worstMargin(a *engine.Assessment) float64 {
	most := 0.0
	for _, f := range a.Findings {
		if f.Judgement.Ranked {
			most = max(most, f.Judgement.Margin)
		}
	}
	return most
}

func changesOf(rs []engine.Remedy) []engine.Change {
	var out []engine.Change
	for _, r := range rs {
		out = append(out, r.Changes...)
	}
	return out
}

// byHand writes down what a bench does that carries changes out: the work on
// everything that comes out differently, then its readings, each as predicted.
func byHand(before, after *engine.Session, want *engine.Assessment) []record.Body {
	var out []record.Body
	for _, m := range want.Features {
		if after.Stage(m.Of) == before.Stage(m.Of) {
			continue
		}
		out = append(out, record.Work{Did: "done", To: []plan.Feature{m.Of}, Changes: []plan.Feature{m.Of}})
		for i, p := range after.Plan().Places(m.Of) {
			dirs := len(m.Grid.Names)
			size := m.Grid.Values[i/dirs][i%dirs]
			if !size.Measured() {
				continue
			}
			u := after.Unit()
			w, err := length.Parse(size.Format(u, u.Decimals()), u)
			if err != nil || w.Length != size.Round() {
				w = length.Written{Length: size.Round(), Unit: length.MM, Places: 9}
			}
			out = append(out, record.Reading{Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: w.Number(), Via: record.ViaFile, Size: w, As: record.First})
		}
	}
	return out
}

func sameFindings(t interface {
	failer
	Errorf(string, ...any)
}, got, want *engine.Assessment,
) {
	t.Helper()
	if len(got.Findings) != len(want.Findings) {
		t.Fatalf("%d findings, predicted %d", len(got.Findings), len(want.Findings))
	}
	for i, w := range want.Findings {
		g := got.Findings[i]
		if g.Text != w.Text || g.Value != w.Value || g.Judgement != w.Judgement || g.Of != w.Of || g.With != w.With {
			t.Errorf("finding %d is %s (%v), predicted %s (%v)", i, g.Text, g.Judgement.Verdict, w.Text, w.Judgement.Verdict)
		}
	}
}

// Every remedy of the demo session, done and measured again at what is
// predicted, gives exactly the predicted assessment; the worst margin falls and
// nothing is outside any more.
func TestRemediesComeOutAsPredicted(t *testing.T) {
	t.Parallel()
	s, a := complete(t)
	remedies := a.Remedies(s)
	for _, f := range a.Findings {
		if text := a.Remedy(s, *f); (f.Judgement.Verdict == limit.Outside) != strings.ContainsAny(text, "0123456789") {
			t.Errorf("%s: %v, and the remedy is %q", f.Text, f.Judgement.Verdict, text)
		}
	}
	after, want, err := s.Trial(changesOf(remedies)...)
	if err != nil {
		t.Fatal(err)
	}
	bodies := byHand(s, after, want)
	done, err := engine.Replay(enginetest.Seal(t, s.Events(), "ek", bodies))
	if err != nil {
		t.Fatal(err)
	}
	got := engine.Assess(done)
	sameFindings(t, got, want)
	if left := outside(got); len(left) > 0 {
		t.Errorf("still outside: %v", left)
	}
	if was, is := worstMargin(a), worstMargin(got); is >= was || is > 1 {
		t.Errorf("the worst margin goes from %g to %g", was, is)
	}
	if len(outside(a)) != 3 || len(bodies) < 12 {
		t.Errorf("%d findings were outside, and %d events cured them", len(outside(a)), len(bodies))
	}
}

// Remedies one after another: each cures what it is for and brings nothing out.
func TestEachRemedyCuresWhatItIsFor(t *testing.T) {
	t.Parallel()
	s, a := complete(t)
	checkRemedies(t, s, a)
}

type failer interface {
	Helper()
	Fatalf(string, ...any)
}

func checkRemedies(t failer, s *engine.Session, a *engine.Assessment) {
	t.Helper()
	var changes []engine.Change
	before := outside(a)
	covered := 0
	for _, r := range a.Remedies(s) {
		covered += len(r.For)
		if len(r.For) == 0 || !strings.ContainsAny(r.Text, "0123456789") {
			t.Fatalf("%q is for %d findings", r.Text, len(r.For))
		}
		if len(r.Changes) == 0 {
			continue
		}
		changes = append(changes, r.Changes...)
		_, now, err := s.Trial(changes...)
		if err != nil {
			t.Fatalf("%s: %v", r.Text, err)
		}
		left := outside(now)
		for _, x := range left {
			if !slices.Contains(before, x) {
				t.Fatalf("%s brings out %s", r.Text, x)
			}
		}
		for _, f := range r.For {
			if slices.Contains(left, f.Of.String()+" "+string(f.On)) {
				t.Fatalf("%s does not cure %s", r.Text, f.Text)
			}
		}
		before = left
	}
	if want := len(outside(a)); covered != want {
		t.Fatalf("%d of %d findings outside have a remedy", covered, want)
	}
}

// drawEngine draws a small engine with readings around its limits, and with or
// without stock, ladders and targets.
func drawEngine(t *rapid.T) *engine.Session {
	bodies := small(length.MM, "")
	um := func(n int) string { return length.Of(length.Length(n)*length.Micrometre).Format(length.MM, 3) }
	add := func(on bool, b record.Body) {
		if on {
			bodies = append(bodies, b)
		}
	}
	coin := func(name string) bool { return rapid.Bool().Draw(t, name) }
	add(coin("target"), record.Given{Name: engine.GivenHoneTarget, Of: "bore", Value: um(rapid.IntRange(82000, 82025).Draw(t, "to")) + " mm"})
	add(coin("allowance"), record.Given{Name: engine.GivenFinish, Of: "bore", Value: "0.002 mm"})
	add(coin("step"), record.Limit{Limits: limit.Limits{On: limit.Step, Of: "main-bearing", New: limit.Range{High: length.Written{Length: 25 * length.Micrometre, Unit: length.MM, Places: 3}}}})
	if coin("shells") {
		var rows []map[string]string
		for _, u := range []int{-25, 0, 25} {
			rows = append(rows, map[string]string{"undersize": um(u) + " mm", "count": um(rapid.IntRange(0, 4).Draw(t, "count") * 1000)[:1]})
		}
		bodies = append(bodies, record.Table{Name: record.Shells, Of: "shell-main", Rows: rows})
	}
	s := replay(t, bodies)
	sizes := map[plan.Family][2]int{plan.Bore: {82000, 82022}, plan.Piston: {81955, 81992}, plan.MainBearing: {82030, 82060}, plan.MainJournal: {81998, 82008}}
	for _, p := range s.Places() {
		if rapid.IntRange(0, 30).Draw(t, "skip") == 0 {
			continue
		}
		r := sizes[p.Of.Family]
		text := um(rapid.IntRange(r[0], r[1]).Draw(t, p.Of.String()))
		w, err := length.Parse(text, length.MM)
		if err != nil {
			t.Fatal(err)
		}
		bodies = append(bodies, record.Reading{Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: text, Via: record.ViaFile, Size: w, As: record.First})
	}
	return replay(t, bodies)
}

func TestRemediesOfAnyEngine(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawEngine(t)
		checkRemedies(t, s, engine.Assess(s))
	})
}

// Any changes of any engine, done by hand and read again as predicted, come out
// as the trial said.
func TestAnyTrialComesOutAsPredicted(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawEngine(t)
		var changes []engine.Change
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			um := rapid.Int64Range(82000, 82030).Draw(t, "size")
			at := rapid.IntRange(1, 3).Draw(t, "at")
			half := rapid.SampledFrom([]string{plan.Upper, plan.Lower}).Draw(t, "half")
			changes = append(changes, rapid.SampledFrom([]engine.Change{
				{Did: engine.Hone, Of: plan.Feature{Family: plan.Bore, At: at}, Size: length.Written{Length: length.Length(um) * length.Micrometre, Unit: length.MM, Places: 3}},
				{Did: engine.FitShell, Of: plan.Feature{Family: plan.ShellMain, At: at, Part: half}, Size: length.Written{Length: length.Length(um-82015) * length.Micrometre, Unit: length.MM, Places: 3}},
				{Did: engine.Grind, Of: plan.Feature{Family: plan.MainJournal, At: at}, Size: length.Written{Length: length.Length(um) * length.Micrometre, Unit: length.MM, Places: 3}},
			}).Draw(t, "change"))
		}
		after, want, err := s.Trial(changes...)
		if err != nil {
			t.Fatal(err)
		}
		done, err := engine.Replay(enginetest.Seal(t, s.Events(), "ek", byHand(s, after, want)))
		if err != nil {
			t.Fatal(err)
		}
		sameFindings(t, engine.Assess(done), want)
	})
}

// Asking for remedies leaves session and assessment as they were.
func TestRemediesChangeNothing(t *testing.T) {
	t.Parallel()
	s, a := complete(t)
	n, head := len(s.Events()), s.Head()
	a.Remedies(s)
	sameFindings(t, engine.Assess(s), a)
	if len(s.Events()) != n || s.Head() != head {
		t.Error("a trial became an event")
	}
	again := a.Again(s, engine.Touched{})
	if again == a || len(again.Remedies(s)) != len(a.Remedies(s)) {
		t.Error("the next assessment has other remedies")
	}
}
