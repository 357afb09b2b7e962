package tui

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// A bad zero check of the launch's long gauge puts what it read in doubt, asks
// for a new zero and leads through the places one by one.
func TestABadZeroCheckLeadsThroughWhatItDoubts(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/4", "+4", "<enter>")
	n := len(m.desk.Session.MeasureAgain())
	if n == 0 || m.keys.Asking.What != askRezero || !strings.Contains(s.st.status.text, "readings since the last good one are suspect") {
		t.Fatalf("%d places in doubt; %q", n, s.st.status.text)
	}
	before := m.desk.Session.Settings()
	old, err := m.desk.Session.Hand(plan.Bore)
	if err != nil {
		t.Fatal(err)
	}
	s.keys("3", "<enter>")
	if m.keys.Asking.What != askRezero {
		t.Error("3 is no answer")
	}
	s.keys("/", "/", "/4", "+4", "<enter>", "1", "<enter>")
	after := m.desk.Session.Settings()
	x := after[len(after)-1]
	if len(after) != len(before)+1 || x.Size != old.Setting.Size || x.On != old.Setting.On || x.Instrument != "large" {
		t.Errorf("zeroed anew as %+v, before %+v", x, old.Setting)
	}
	for k := n; k > 0; k-- {
		again := m.desk.Session.MeasureAgain()
		if len(again) != k || m.place != again[0] {
			t.Fatalf("%d left of %d, at %s", len(again), k, m.where())
		}
		s.keys("+3", "<enter>")
		if m.keys.Asking.What == askMixup {
			s.keys("1", "<enter>")
		}
		if m.keys.Text != "" { // held: kept as keyed
			s.keys("*")
		}
	}
	if len(m.desk.Session.MeasureAgain()) != 0 || m.clearing || !strings.Contains(s.st.status.text, "the doubt is gone") {
		t.Errorf("%d left; %q", len(m.desk.Session.MeasureAgain()), s.st.status.text)
	}
	if m.where() != "bore 4, middle, across" {
		t.Errorf("behind the last one the hand is at %s", m.where())
	}
}

func TestWhatIsInDoubtIsMarkedWhereItIsShown(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/4", "+4", "<enter>", "2", "<enter>", "/8", "1", "<enter>")
	view := s.r.View()
	for _, want := range []string{"stands here, SUSPECT", "suspect", "top ?"} {
		if !strings.Contains(view, want) {
			t.Errorf("%q is not shown:\n%s", want, view)
		}
	}
	if !m.suspectAt(m.place) {
		t.Error("the place is not in doubt")
	}
}

func TestNothingInDoubtIsNothingToMeasureAgain(t *testing.T) {
	s, m := atLaunch(t)
	for _, a := range m.Actions() {
		if a.Keys[0] == "a" && a.Off == "" {
			t.Error("a is on where nothing is suspect")
		}
	}
	s.keys("a")
	if m.clearing || m.where() != "bore 4, middle, across" {
		t.Errorf("a leads to %s", m.where())
	}
	m.clearDoubt()
	if m.clearing {
		t.Error("led through nothing")
	}
}

// A gauge that is taken up again keeps its zero; taken up twice it is zeroed anew.
func TestAGaugeIsTakenUpAsItWasZeroed(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/5", "2", "<enter>", "3.7510", "<enter>")
	settings := len(m.desk.Session.Settings())
	large := 1 + slices.IndexFunc(m.desk.Session.Instruments(), func(i gauge.Instrument) bool { return i.ID == "large" })
	s.keys("/5", strconv.Itoa(large), "<enter>")
	h, err := m.desk.Session.Hand(plan.Bore)
	if err != nil || h.Instrument.ID != "large" || len(m.desk.Session.Settings()) != settings {
		t.Fatalf("in the hand %+v, %v, %d settings", h.Instrument, err, len(m.desk.Session.Settings()))
	}
	if !strings.Contains(s.st.status.text, "as zeroed on the ring of") {
		t.Errorf("said %q", s.st.status.text)
	}
	if _, is := s.last(launchUID).Body.(record.Plan); !is {
		t.Errorf("recorded %+v", s.last(launchUID).Body)
	}
	s.keys("/5", strconv.Itoa(large), "<enter>")
	if m.keys.Asking.What != askMaster {
		t.Errorf("asks %+v", m.keys.Asking)
	}
}

func TestMastersHaveNames(t *testing.T) {
	_, m := atLaunch(t)
	for _, c := range []struct{ on, want string }{
		{gauge.OnScale, "its own scale"},
		{gauge.OnBlocks, "the blocks of "},
		{gauge.OnMicrometer, "the micrometer at "},
		{gauge.OnRing, "the ring of "},
	} {
		if got := masterWords(m.desk.Session, gauge.Setting{On: c.on}); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s is %q", c.on, got)
		}
	}
	if got := masterWords(m.desk.Session, gauge.Setting{On: gauge.OnFeature, Feature: "main-journal/2"}); got != "main journal 2" {
		t.Errorf("a feature is %q", got)
	}
}
