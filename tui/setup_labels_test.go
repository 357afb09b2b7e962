package tui

import (
	"reflect"
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
)

// free chooses the last of a field's choices.
func (b *setupBench) free(id string) {
	b.t.Helper()
	b.at(id)
	b.press("<left>")
	for !strings.HasPrefix(b.form().form.here().get(), "free") {
		b.press("<left>")
	}
}

func TestCylindersAndMainsAreLabelledFreely(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "4", "4.0000", "<enter>")
	b.unseen("left bank, front first")
	b.free("layout.numbering")
	b.at("layout.labels.cylinders.1")
	for _, label := range []string{"A4", "A3", "A2", "A1", "B4", "B3", "B2", "B1"} {
		b.press("<ctrl+w>", label, "<enter>")
	}
	b.free("layout.mains.numbering")
	b.at("layout.labels.mains.5")
	b.press("<ctrl+w>", "thrust")
	b.golden(`
 borewright: new session
- On the bench -----------------------------------------------------------------
  title                    Vee eight, 11 Mar 2026
  customer                 -
  engine                   Vee eight
  initials                 ek
  unit                     in
- The engine -------------------------------------------------------------------
  form                     vee
  cylinders                8
  rod journals             shared, two rods each
  bank in front            left
  numbered                 free, as each one is marked
  left bank, front first   A4        A3        A2        A1
  right bank, front first  B4        B3        B2        B1
  mains                    5
  mains numbered           free, as each one is marked
  mains, front first       1         2         3         4        >thrust|
- lines
 what number 5 of the mains is called, counted from the front: 8 characters at
 most. No reading moves
 Enter takes it in, Esc takes it back

 Enter next field  F2 begin measuring  F1 help  Esc back`)
	b.press("<f2>")
	l := top[*measure](b.station).desk.Session.Layout()
	if got := strings.Join(l.Labels["cylinders"], " ") + "; " + strings.Join(l.Labels["mains"], " "); got != "A4 A3 A2 A1 B4 B3 B2 B1; 1 2 3 4 thrust" {
		t.Errorf("the labels are %s", got)
	}
	b.see("bore A4, top, across")
}

func TestLabelsGivenTwiceAreFound(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500", "<enter>")
	b.free("layout.numbering")
	b.at("layout.labels.cylinders.2")
	b.press("<ctrl+w>", "1", "<enter>")
	b.see(`cylinder 2 from the front is labelled "1", and so is number 1`)
	b.press("<f2>")
	b.see("begin measuring: cylinder 2 from the front")
	b.press("<f3>")
	b.focused("layout.labels.cylinders.2")
	b.at("layout.labels.cylinders.1")
	b.press("<ctrl+w>", "2", "<enter>")
	b.unseen("labelled")
	b.at("layout.numbering")
	b.press("<right>")
	if b.form().draft.Layout.Labels != nil {
		t.Errorf("in sequence the labels are %v", b.form().draft.Layout.Labels)
	}
	b.unseen("cylinders, front first")
}

// Relabelling a session that is half read moves no reading.
func TestRelabellingMovesNoReadingOnScreen(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>")
	m := top[*measure](b.station)
	s := m.desk.Session
	figures := func() map[plan.Place]length.Exact {
		out := map[plan.Place]length.Exact{}
		for _, p := range s.Places() {
			out[p] = s.Figure(p, s.Stage(p.Of))
		}
		return out
	}
	before, at, verdicts := figures(), m.place, len(m.desk.Now.Findings)
	b.press("s")
	b.free("layout.numbering")
	for i, label := range []string{"6", "5", "4", "3", "2", "1"} {
		b.at("layout.labels.cylinders." + string(rune('1'+i)))
		b.press("<ctrl+w>", label)
	}
	b.press("<f2>")
	if top[*measure](b.station) != m || m.place != at || !reflect.DeepEqual(figures(), before) || len(m.desk.Now.Findings) != verdicts {
		t.Fatalf("readings moved: at %v", m.place)
	}
	b.see("bore 3, middle, across")
	if l, is := b.last(launchUID).Body.(record.Layout); !is || strings.Join(l.Labels[setup.Cylinders], "") != "654321" {
		t.Errorf("recorded %+v", b.last(launchUID).Body)
	}
}
