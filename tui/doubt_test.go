package tui

import (
	"math"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// wants says which texts a page lacks.
func wants(t *testing.T, lines []string, texts ...string) {
	t.Helper()
	page := strings.Join(strings.Fields(strings.Join(lines, " ")), " ")
	for _, x := range texts {
		if !strings.Contains(page, x) {
			t.Errorf("the page lacks %q:\n%s", x, strings.Join(lines, "\n"))
		}
	}
}

func TestTheDoubtOfTheWorstFigureIsOneKeyAway(t *testing.T) {
	s, m := atLaunch(t)
	f, ok := m.desk.worstOf(m.place.Of)
	if !ok || f.Of != m.place.Of {
		t.Fatalf("the worst of bore 4 is %+v", f)
	}
	s.keys("d")
	d := top[*doubtPage](s)
	wants(t, d.lines(), f.Text, "It is known to ±0.00003 in (diametral, 95 %", "All of it is the gauge's step", "100 %", "known", "combined", "expanded, 95 %")
	s.keys("<enter>")
	if top[*measure](s).where() != "bore 4, top, across" {
		t.Errorf("Enter leads to %s", m.where())
	}
	s.keys("w", "d")
	if got := top[*doubtPage](s).now(); got.Of.At != 2 || got.On != limit.OutOfRound {
		t.Errorf("the doubt of the worst is of %s %s", got.Of, got.On)
	}
	s.keys("<enter>")
	if m.where() != "bore 2, middle, across" {
		t.Errorf("from the worst screen Enter leads to %s", m.where())
	}
}

func TestNothingMeasuredHasNoDoubt(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/8", "6", "<enter>")
	if _, ok := m.desk.worstOf(m.place.Of); ok {
		t.Fatal("bore 6 is measured")
	}
	s.keys("d")
	top[*measure](s)
}

// pageOf is the doubt page of a finding at the launch, as if it stood so.
func pageOf(t *testing.T, change func(*engine.Finding)) *doubtPage {
	t.Helper()
	_, m := atLaunch(t)
	f, _ := m.desk.worstOf(m.place.Of)
	change(&f)
	f.By = "another definition" // so that it is not looked up anew
	d := newDoubt(m.st, m.desk, f)
	d.Resize(80, 21)
	return d
}

func TestTheDoubtPageSaysWhatItIsMadeOf(t *testing.T) {
	b, err := doubt.Combine([]doubt.Contribution{
		{Name: "the gauge's repeatability", Value: 3e6, Sensitivity: 1, DF: 7},
		{Name: "the master", Source: "ring", Value: 1e6, Sensitivity: 1},
		{Name: "the micrometer", Source: "mic", Value: 1e6, Sensitivity: 1},
		{Name: "the micrometer", Source: "mic", Value: 1e6, Sensitivity: -1},
	})
	if err != nil {
		t.Fatal(err)
	}
	d := pageOf(t, func(f *engine.Finding) {
		f.Doubt = engine.Doubt{Budget: b, Chance: 0.734, Settles: "2 more readings here", Noise: length.Of(2 * length.Micrometre)}
		f.Judgement.Doubtful = true
	})
	wants(t, d.lines(), "the chance that it is truly inside is 73 %", "the gauge's repeatability", "90 % 7", "the master", "10 % known",
		"the micrometer cancels 0 %", "What would settle it: 2 more readings here.", "Noise floor", "0.00008 in")
}

func TestTheDoubtPageSaysWhereNothingIsKnown(t *testing.T) {
	d := pageOf(t, func(f *engine.Finding) { f.Doubt = engine.Doubt{} })
	wants(t, d.lines(), "Nothing is known of how well this was read")
}

func TestTheDoubtPageSaysSuspectAndGuardBands(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/4", "+4", "<enter>", "2", "<enter>", "/8", "1", "<enter>")
	rules := m.desk.Session.Rules()
	rules.Decision = record.Guarded
	if err := m.desk.Record(rules); err != nil {
		t.Fatal(err)
	}
	s.keys("d")
	wants(t, top[*doubtPage](s).lines(), "suspect", "measure again first", "Decided with guard bands")
}

func TestTheDoubtPageScrollsWhenItIsLong(t *testing.T) {
	d := pageOf(t, func(*engine.Finding) {})
	d.Resize(80, 5)
	first := d.View()[0]
	d.scroll(1)
	if len(d.View()) != 5 || d.View()[0] == first {
		t.Errorf("scrolled to\n%s", strings.Join(d.View(), "\n"))
	}
	d.scroll(100)
	if all := d.lines(); d.View()[4] != all[len(all)-1] {
		t.Error("the end is not reached")
	}
	d.scroll(-200)
	if d.View()[0] != first {
		t.Error("the beginning is not reached")
	}
}

func TestChancesAndFreedomAreNeverCertain(t *testing.T) {
	for p, want := range map[float64]string{1: "above 99 %", 0.9999: "above 99 %", 0.5: "50 %", 0.001: "below 1 %", 0: "below 1 %"} {
		if got := chanceText(p); got != want {
			t.Errorf("%v is %q, want %q", p, got, want)
		}
	}
	for df, want := range map[float64]string{math.Inf(1): "known", 16.7: "16"} {
		if got := dfText(df); got != want {
			t.Errorf("%v is %q, want %q", df, got, want)
		}
	}
	if got := pmText(25.4e6, length.In); got != "0.001000" {
		t.Errorf("pmText is %q", got)
	}
}

func TestTheWorstOfAShaftIsOfItsClearanceToo(t *testing.T) {
	s := newStation(t, 80, 24, "launch-complete")
	s.keys("<enter>")
	m := top[*measure](s)
	f, ok := m.desk.worstOf(plan.Feature{Family: plan.MainJournal, At: 3})
	if !ok || f.On != limit.Clearance {
		t.Errorf("the worst of main journal 3 is %s %s", f.Of, f.On)
	}
}
