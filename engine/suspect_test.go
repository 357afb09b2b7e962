package engine_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// gauged is an inline four with two bore gauges and a micrometer: the bores
// with either gauge, the pistons with the micrometer.
func gauged(t rapid.TB) []record.Body {
	w := func(text string) length.Written {
		x, err := length.Parse(text, length.In)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	out := []record.Body{
		record.Details{UID: "g", Title: "gauges", Unit: length.In},
		record.Layout{Layout: plan.Default(plan.Inline, 4, false)},
		record.Plan{Plan: plan.Plan{Families: []plan.Group{
			{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}},
			{Family: plan.Piston, Levels: plan.Grid(plan.Piston, 1), Directions: []string{"across"}},
		}}},
		record.Limit{Limits: limit.Limits{On: limit.Size, Of: "bore", New: limit.Range{Low: w("3.7490"), High: w("3.7520")}}},
		record.Limit{Limits: limit.Limits{On: limit.Clearance, Of: "bore", New: limit.Range{Low: w("0.0010"), High: w("0.0060")}}},
	}
	for _, id := range []string{"a", "b", "m"} {
		i := gauge.Instrument{ID: id, Name: "gauge " + id, Kind: gauge.Comparator, Unit: length.In, Graduation: w("0.0001")}
		x := gauge.Setting{ID: "s" + id, Instrument: id, On: gauge.OnRing, Size: w("3.7500")}
		out = append(out, record.Instrument{Instrument: i}, record.Setting{Setting: x}, record.Set{Set: gauge.Set{ID: "t" + id, Setting: x.ID}})
	}
	return out
}

func deviation(t rapid.TB, of, set, dev string) record.Reading {
	f, err := plan.ParseFeature(of)
	if err != nil {
		t.Fatal(err)
	}
	w, err := length.Parse(dev, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return record.Reading{Of: f, Level: "a", Dir: "across", Set: set, Keyed: dev, Via: record.ViaKeypad, Dev: w, As: record.First}
}

func zero(t rapid.TB, set, dev string) record.Zero {
	w, err := length.Parse(dev, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return record.Zero{Set: set, Keyed: dev, Deviation: w}
}

func suspects(a *engine.Assessment) []string {
	var out []string
	for _, f := range a.Findings {
		if f.Judgement.Suspect {
			out = append(out, f.Of.String()+" "+string(f.On))
		}
	}
	slices.Sort(out)
	return out
}

func TestDriftDoubtsItsReadingsAndNoOthers(t *testing.T) {
	bodies := append(gauged(t),
		deviation(t, "bore/1", "ta", "0.0003"), deviation(t, "bore/2", "tb", "0.0003"),
		deviation(t, "bore/3", "ta", "0.0002"), deviation(t, "bore/4", "tb", "0.0004"),
		deviation(t, "piston/1", "tm", "-0.0035"), deviation(t, "piston/2", "tm", "-0.0035"),
		zero(t, "tb", "0.0000"), zero(t, "ta", "0.0004"))
	s := replay(t, bodies)
	want := []string{"bore/1 clearance", "bore/1 size", "bore/3 size"}
	if got := suspects(engine.Assess(s)); !slices.Equal(got, want) {
		t.Errorf("in doubt: %v, want %v", got, want)
	}
	if got := s.MeasureAgain(); len(got) != 2 || got[0].Of.At != 1 || got[1].Of.At != 3 {
		t.Errorf("to be measured again: %v", got)
	}
	x := gauge.Setting{ID: "sa2", Instrument: "a", On: gauge.OnRing, Size: s.Settings()[0].Size}
	bodies = append(bodies, record.Setting{Setting: x}, record.Set{Set: gauge.Set{ID: "ta2", Setting: "sa2"}})
	for _, of := range []string{"bore/1", "bore/3"} {
		r := deviation(t, of, "ta2", "0.0002")
		r.As = record.Replace
		bodies = append(bodies, r)
	}
	s = replay(t, bodies)
	if got := suspects(engine.Assess(s)); len(got) != 0 || len(s.MeasureAgain()) != 0 {
		t.Errorf("after measuring again in doubt: %v, %v", got, s.MeasureAgain())
	}
}

func TestDriftInsideTheLimitDoubtsNothing(t *testing.T) {
	bodies := append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), zero(t, "ta", "-0.0001"))
	if got := suspects(engine.Assess(replay(t, bodies))); len(got) != 0 {
		t.Errorf("in doubt: %v", got)
	}
	limit, _ := length.Parse("0.00005", length.In)
	bodies = append(bodies[:len(bodies)-1:len(bodies)-1], record.Rules{Drift: limit}, zero(t, "ta", "-0.0001"))
	if got := suspects(engine.Assess(replay(t, bodies))); len(got) == 0 {
		t.Error("a drift beyond the session's own limit is believed")
	}
}

// A session drawn at random: readings and zero checks of two gauges.
func TestWhatIsInDoubtIsTheClosure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := gauged(t)
		last := map[string]int{} // by feature: its reading, as an index into bodies
		checks := map[string][]int{}
		good := map[int]bool{}
		for range rapid.IntRange(1, 25).Draw(t, "n") {
			set := rapid.SampledFrom([]string{"ta", "tb"}).Draw(t, "set")
			if rapid.Bool().Draw(t, "check") {
				ok := rapid.Bool().Draw(t, "good")
				checks[set], good[len(bodies)] = append(checks[set], len(bodies)), ok
				bodies = append(bodies, zero(t, set, map[bool]string{true: "0.0001", false: "0.0005"}[ok]))
				continue
			}
			of := rapid.SampledFrom([]string{"bore/1", "bore/2", "bore/3", "bore/4", "piston/1", "piston/2"}).Draw(t, "of")
			r := deviation(t, of, set, "0.0010")
			if _, again := last[of]; again {
				r.As = record.Replace
			}
			last[of] = len(bodies)
			bodies = append(bodies, r)
		}
		doubted := map[string]bool{}
		for of, i := range last {
			doubted[of] = walk(checks[bodies[i].(record.Reading).Set], good, i)
		}
		for _, f := range engine.Assess(replay(t, bodies)).Findings {
			if !f.Value.Measured() {
				continue
			}
			want := doubted[f.Of.String()]
			if f.On == limit.Clearance {
				want = want || doubted[f.With.String()]
			}
			if f.Judgement.Suspect != want {
				t.Fatalf("%s %s: in doubt %v, want %v", f.Of, f.On, f.Judgement.Suspect, want)
			}
		}
	})
}

// walk says whether a bad check lies between the last good check before event
// i, or the setting, and the next good one after it.
func walk(checks []int, good map[int]bool, i int) bool {
	for k := len(checks) - 1; k >= 0; k-- {
		if checks[k] > i {
			continue
		}
		if good[checks[k]] {
			break
		}
		return true
	}
	for _, k := range checks {
		if k > i {
			return !good[k]
		}
	}
	return false
}

// chain is a journal read with a micrometer that is out by off, and a bearing
// read with a bore gauge zeroed on that micrometer.
func chain(t *testing.T, off string) *engine.Session {
	t.Helper()
	true3, err := length.Parse("2.0000", length.In)
	if err != nil {
		t.Fatal(err)
	}
	o, err := length.Parse(off, length.In)
	if err != nil {
		t.Fatal(err)
	}
	read := true3
	read.Length += o.Length
	grad, _ := length.Parse("0.0001", length.In)
	bodies := bareSession(t, plan.Default(plan.Inline, 1, false), []string{"main-bearing clearance 0.0010 0.0030", "main-bearing size 2.0010 2.0030"},
		group(plan.MainJournal, 1, "vertical"), group(plan.MainBearing, 1, "vertical"))
	journal := plan.Feature{Family: plan.MainJournal, At: 1}
	bodies = append(bodies,
		record.Instrument{Instrument: gauge.Instrument{ID: "mic", Name: "micrometer", Kind: gauge.Direct, Unit: length.In, Graduation: grad}},
		record.Instrument{Instrument: gauge.Instrument{ID: "bore", Name: "bore gauge", Kind: gauge.Comparator, Unit: length.In, Graduation: grad}},
		record.Setting{Setting: gauge.Setting{ID: "s1", Instrument: "mic", On: gauge.OnScale}},
		record.Set{Set: gauge.Set{ID: "t1", Setting: "s1"}},
		record.Reading{Of: journal, Level: "a", Dir: "vertical", Set: "t1", Keyed: read.Number(), Via: record.ViaKeypad, Size: read, As: record.First},
		record.Setting{Setting: gauge.Setting{ID: "s2", Instrument: "bore", On: gauge.OnFeature, Feature: journal.String()}},
		record.Set{Set: gauge.Set{ID: "t2", Setting: "s2"}},
	)
	dev, _ := length.Parse("0.0020", length.In) // the true clearance, off the dial
	bodies = append(bodies, record.Reading{
		Of: plan.Feature{Family: plan.MainBearing, At: 1}, Level: "a", Dir: "vertical", Set: "t2", Keyed: "+20", Via: record.ViaKeypad, Dev: dev, As: record.First,
	}, record.Zero{Set: "t1", Keyed: "3", Deviation: o})
	return replay(t, bodies)
}

func TestTheChainGivesTheTrueClearance(t *testing.T) {
	a := engine.Assess(chain(t, "0.0003"))
	fit := a.ClearancesOf(plan.Feature{Family: plan.MainBearing, At: 1})
	if got := fit[0].Clearance.Judged.Format(length.In, 4); got != "0.0020" {
		t.Errorf("the clearance is %s, want 0.0020", got)
	}
	m, _ := a.Feature(plan.Feature{Family: plan.MainBearing, At: 1})
	if got := m.Figures.Mean.Format(length.In, 4); got != "2.0023" {
		t.Errorf("the size is %s, want 2.0023: wrong by what the micrometer is out", got)
	}
	want := []string{"main-bearing/1 size"}
	if got := suspects(a); !slices.Equal(got, want) {
		t.Errorf("in doubt: %v, want %v: the micrometer's error cancels in the clearance", got, want)
	}
}
