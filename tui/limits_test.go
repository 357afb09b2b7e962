package tui

import (
	"strings"
	"testing"

	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// atLimits opens the limits of the interrupted launch, on the size of bores.
func atLimits(t *testing.T) (*setupBench, *limitsScreen) {
	t.Helper()
	b := newSetupBench(t, "launch")
	b.press("<enter>", "b")
	return b, top[*limitsScreen](b.station)
}

// mark moves to a row of the limits.
func (b *setupBench) mark(of string, on limit.Characteristic) {
	b.t.Helper()
	s := top[*limitsScreen](b.station)
	for i, r := range s.all() {
		if r.given() && r.limits.Of == of && r.limits.On == on {
			s.list.at = i
			return
		}
	}
	b.t.Fatalf("nothing limits the %s of %s", on, of)
}

// limitOf returns the limits of the session on top, or none.
func (b *setupBench) limitOf(of string, on limit.Characteristic) limit.Limits {
	b.t.Helper()
	for _, l := range b.st.desks[0].Session.Limits() {
		if l.Of == of && l.On == on {
			return l
		}
	}
	return limit.Limits{}
}

func TestLimitsLookSo(t *testing.T) {
	b, _ := atLimits(t)
	b.golden(`
 borewright: limits of Kittiwake, harbour launch
                         new low     high wear low     high   target  unit  by
 v taper                       -   0.0004        -   0.0008        -  in    new
   not limited: overall spread
- Main bearings, nominal 2.7510 in, diametral ----------------------------------
 X clearance              0.0010   0.0030        -   0.0045        -  in    new
   not limited: size, taper, overall spread, step to the next
- Pistons, nominal 3.7465 in, diametral ----------------------------------------
   not limited: size, out-of-round, taper, overall spread
- Bores, nominal 3.7500 in, diametral ------------------------------------------
>v size                   3.7500   3.7510        -   3.7560        -  in    new
 X out-of-round                -   0.0005        -   0.0030        -  in    new
 v taper                       -   0.0005        -   0.0020        -  in    new
 v clearance              0.0030   0.0050        -   0.0080        -  in    new
   not limited: overall spread
--------------------------------------------------------------------------------
 v inside: bore 2, middle along: size 3.7500, 3.7500 to 3.7510 in; the worst of
 4 measured, of 6
 size of bores is every reading; judged by new
 from: invented for the demo



 Enter change  Up up  Down down  f for one alone  t take away  ? help  Esc back`)
}

func TestEveryLimitIsListed(t *testing.T) {
	b, s := atLimits(t)
	listed := map[limit.Limits]bool{}
	open := map[plan.Family]string{}
	for _, r := range s.all() {
		if r.given() {
			listed[r.limits] = true
		} else {
			open[r.family] = joined(r.open)
		}
	}
	for _, l := range s.desk.Session.Limits() {
		if !listed[l] {
			t.Errorf("%s of %s is not listed", l.On, l.Of)
		}
	}
	if len(listed) != len(s.desk.Session.Limits()) || open[plan.Piston] != "size, out-of-round, taper, overall spread" {
		t.Errorf("%d limits are listed; open are %v", len(listed), open)
	}
	for range s.all() {
		b.press("<down>")
	}
	b.see("not limited: overall spread")
	b.see("Nothing limits this of bores: overall spread. Enter gives limits.")
	b.press("t")
	b.see("take away: nothing is limited here")
}

// The verdicts change at once, and are seen on return.
func TestAChangedLimitJudgesAtOnce(t *testing.T) {
	b, s := atLimits(t)
	b.mark("main-bearing", limit.Clearance)
	b.see("X outside: ")
	b.press("<enter>", "0.0005", "<enter>", "0.0040", "<f2>")
	if top[*limitsScreen](b.station) != s {
		t.Fatal("the list is not on top")
	}
	l, is := b.last(launchUID).Body.(record.Limit)
	if !is || l.New.Low.String() != "0.0005 in" || l.New.High.String() != "0.0040 in" || l.Wear.High.String() != "0.0045 in" || l.Source != "invented for the demo" {
		t.Errorf("recorded %+v", b.last(launchUID).Body)
	}
	b.see("v inside: ")
	b.see("the limits on clearance of main bearings are kept")
	b.press("<enter>", "<f2>")
	b.see("nothing was changed")
	b.press("<esc>")
	for _, f := range top[*measure](b.station).desk.Now.Findings {
		if f.On == limit.Clearance && f.Of.Family == plan.MainBearing && f.Judgement.Verdict == limit.Outside {
			t.Errorf("still outside: %s", f.Text)
		}
	}
}

func TestALimitForOneFeatureAlone(t *testing.T) {
	b, s := atLimits(t)
	b.press("f")
	b.see("Size of bore 4, diametral")
	b.press("+", "-", "<enter>", "<enter>", "<enter>", "3.7600", "<enter>", "3.7610", "<enter>", "<enter>", "3.7660", "<f2>")
	l := b.limitOf("bore/4", limit.Size)
	if l.New.Low.String() != "3.7600 in" || l.New.High.String() != "3.7610 in" || l.Wear.High.String() != "3.7660 in" {
		t.Fatalf("the limits of bore 4 are %+v (%s)", l, b.st.status.text)
	}
	b.see("  bore 4               3.7600   3.7610        -   3.7660        -  in")
	b.press("<down>", "f")
	b.see("Size of bore 1, diametral")
	b.press("<esc>", "t", "<enter>")
	b.see("the limit on size of bore 4 is taken away")
	if l := b.limitOf("bore/4", limit.Size); l != (limit.Limits{}) || b.limitOf("bore", limit.Size) == l {
		t.Errorf("the limits of bore 4 are %+v", l)
	}
	if b.last(launchUID).Is() != record.IsWithdrawn {
		t.Errorf("recorded %+v", b.last(launchUID).Body)
	}
	b.press("<esc>", "l", "<down>", "W", "<enter>")
	if b.limitOf("bore/4", limit.Size) == (limit.Limits{}) {
		t.Error("the log does not bring the limits back")
	}
	if s.list.at >= len(s.all()) {
		t.Errorf("row %d of %d is marked", s.list.at, len(s.all()))
	}
}

func TestALimitIsTakenAway(t *testing.T) {
	b, _ := atLimits(t)
	b.mark("bore", limit.OutOfRound)
	b.press("t", "<enter>")
	if b.limitOf("bore", limit.OutOfRound) != (limit.Limits{}) {
		t.Error("out-of-round is still limited")
	}
	b.see("not limited: out-of-round, overall spread")
	for _, f := range b.st.desks[0].Now.Findings {
		if f.On == limit.OutOfRound && f.Of.Family == plan.Bore {
			t.Errorf("still judged: %s", f.Text)
		}
	}
}

func TestLimitsAreGivenWhereThereAreNone(t *testing.T) {
	b, s := atLimits(t)
	for i, r := range s.all() {
		if r.family == plan.Piston {
			s.list.at = i
		}
	}
	b.press("<enter>")
	x := b.limits()
	if x.form.focus != "on" || x.now.On != limit.Size {
		t.Errorf("the focus is on %s, to limit %s", x.form.focus, x.now.On)
	}
	b.press("<right>", "<enter>")
	b.see("Out-of-round of pistons, diametral")
	b.unseen("new, at least")
	b.press("<enter>", "0.0005", "<f2>")
	l := b.limitOf("piston", limit.OutOfRound)
	if l.New.High.String() != "0.0005 in" || l.Source != keyedHere {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
	if r, _ := s.marked(); r.limits != l {
		t.Errorf("%+v is marked", r)
	}
}

func TestALargeWindowShowsAllOfALimit(t *testing.T) {
	b, _ := atLimits(t)
	b.r.resize(140, 45)
	b.see("every reading; invented for the demo")
	if n := strings.Count(b.r.View(), "not limited: "); n != 4 {
		t.Errorf("%d families may be given more", n)
	}
}

func TestTheSummaryLeadsToTheLimits(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>", "w", "b")
	s := top[*limitsScreen](b.station)
	if r, _ := s.marked(); r.family != b.st.desks[0].Now.Findings[0].Of.Family {
		t.Errorf("the limits open at %s", r.family)
	}
}
