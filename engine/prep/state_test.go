package prep_test

import (
	"strings"
	"testing"

	"borewright/engine/plan"
	"borewright/engine/prep"
)

func TestPlugsOutElevenInTen(t *testing.T) {
	b := of(t, "after-machining")
	b.upTo(prep.Oil)
	b.wants(t, "not ready: 11 of 11 gallery plugs not back; 2 of 9 steps open")
	if held := b.tick(prep.PlugsIn, "", "10"); held != "" {
		t.Errorf("counting in what is there so far is held: %s", held)
	}
	b.wants(t, "not ready: 1 of 11 gallery plugs not back; 2 of 9 steps open")
	if held := b.now.Hold(b.read(prep.LastWipe, "", ""), b.l); !strings.HasPrefix(held, "gallery plugs in comes first (TM 5-3810-289-34, ") {
		t.Errorf("the last wipe is held for %q", held)
	}
	b.all(prep.PlugsIn, "11")
	b.all(prep.LastWipe, "")
	b.wants(t, "")
}

func TestWorkOnMetalWithdrawsTheWashAndWhatRestsOnIt(t *testing.T) {
	b := of(t, "new-block")
	b.upTo(prep.LastWipe)
	b.wants(t, "")
	b.work("honed", "bore/4")
	b.wants(t, "not ready: 11 gallery plugs to count in again; "+
		"galleries brushed and wash withdrawn by work on bore 4, and 9 more; 11 of 19 steps open")
	for _, id := range []string{prep.PlugsOut, prep.Machining, prep.DeburrRest, prep.CoreSeat} {
		if !b.now.Done(id) {
			t.Errorf("%s was withdrawn too", id)
		}
	}
	if ticked, all := b.now.Spots(b.step(prep.DeburrBores)); ticked != 10 || all != 12 {
		t.Errorf("%d of %d bore ends are deburred after one bore was honed, want 10", ticked, all)
	}
	if got := b.now.LossOf(b.step(prep.Wash), b.l); got != "withdrawn by work on bore 4: honed" {
		t.Errorf("the wash says %q", got)
	}
}

func TestDeburringAgainKeepsTheDeburring(t *testing.T) {
	b := of(t, "after-machining")
	b.upTo(prep.Wash)
	b.work(prep.Deburred, "bore/4")
	if !b.now.Done(prep.DeburrBores) || b.now.Done(prep.Wash) {
		t.Errorf("deburred %v, washed %v after deburring once more", b.now.Done(prep.DeburrBores), b.now.Done(prep.Wash))
	}
}

func TestWorkOnOnePartLeavesTheOtherAlone(t *testing.T) {
	for on, want := range map[string][2]bool{
		"bore/1":         {false, true},
		"main-housing/1": {false, true},
		"rod-journal/1":  {true, false},
		"piston/1":       {true, true},
		"end-play/1":     {false, false},
	} {
		list := preset(t, "after-machining").List(six)
		for _, s := range preset(t, "crank").List(six) {
			list = list.With(six, s.ID)
		}
		b := newBench(t, six, list)
		for _, s := range list {
			b.all(s.ID, b.usual(s))
		}
		b.work("ground", on)
		if got := [2]bool{b.now.Done(prep.Wash), b.now.Done(prep.CrankWash)}; got != want {
			t.Errorf("work on %s leaves block and crank washed: %v, want %v", on, got, want)
		}
	}
}

func TestTickedEarlyIsHeldAndTheForceStands(t *testing.T) {
	b := of(t, "after-machining")
	b.all(prep.PlugsOut, "11")
	early := b.read(prep.Wash, "", "")
	held := b.now.Hold(early, b.l)
	if held != "bores deburred comes first, 0 of 12 places done (TM 5-3805-260-24, basic block, cleaning after honing); 1 more before it not done" {
		t.Errorf("held for %q", held)
	}
	b.add(prep.Fact{Tick: &early})
	if b.now.Done(prep.Wash) {
		t.Error("a tick that is held stands without being forced")
	}
	b.wants(t, "not ready: 11 of 11 gallery plugs not back; wash ticked before bores deburred and not forced; 8 of 9 steps open")
	early.Forced = held
	b.add(prep.Fact{Tick: &early, By: "ek"})
	if x, ok := b.now.At(b.step(prep.Wash), ""); !ok || x.By != "ek" || len(x.Over) != 2 {
		t.Errorf("forced it stands as %+v, %v", x, ok)
	}
	fs := b.now.Findings(b.l)
	if last := fs[len(fs)-1]; last.Kind != prep.Forced || last.Blocks() || last.Text != "wash forced: "+held {
		t.Errorf("the force is told as %+v", last)
	}
	b.work("honed", "bore/1")
	if b.now.Done(prep.Wash) {
		t.Error("a forced wash outlives work on metal")
	}
}

// A bearing is driven in and proved before the next one is driven.
func TestPlaceByPlaceIsEnough(t *testing.T) {
	b := of(t, "new-block")
	b.upTo(prep.Oil)
	if held := b.tick(prep.CamIn, "cam-bearing/1", "1"); held != "" {
		t.Fatal(held)
	}
	if held := b.now.Hold(b.read(prep.CamFeed, "cam-bearing/1", ""), b.l); held != "" {
		t.Errorf("the feed hole of the bearing that is in is held: %s", held)
	}
	if held := b.now.Hold(b.read(prep.CamFeed, "cam-bearing/2", ""), b.l); !strings.HasPrefix(held, "cam bearings in comes first, 1 of 7") {
		t.Errorf("that of the next one is held for %q", held)
	}
}

// Work keyed late withdraws what was done before it happened, and what was done
// on top of that since.
func TestWorkKeyedLate(t *testing.T) {
	b := of(t, "after-machining")
	b.upTo(prep.Wash)
	washed := int64(len(b.facts))
	b.all(prep.Dry, "")
	b.add(prep.Fact{After: washed, Work: &prep.Work{Did: prep.Deburred, On: []plan.Feature{feature(t, "bore/2")}}})
	s := prep.Fold(b.facts)
	if s.Done(prep.Wash) || s.Done(prep.Dry) {
		t.Errorf("washed %v, dry %v", s.Done(prep.Wash), s.Done(prep.Dry))
	}
	b.now = s
	b.wants(t, "not ready: 11 of 11 gallery plugs not back; galleries brushed and wash withdrawn by work on bore 2; "+
		"dry and white ticked before wash and not forced; 6 of 9 steps open")
}

func TestAChangedListKeepsWhatStillFits(t *testing.T) {
	b := of(t, "after-machining")
	b.upTo(prep.Oil)
	shorter, err := b.now.List().Without(prep.Dry)
	if err != nil {
		t.Fatal(err)
	}
	b.add(prep.Fact{Set: true, List: shorter})
	if !b.now.Done(prep.Oil) {
		t.Error("without a step before it oil is withdrawn")
	}
	b.add(prep.Fact{Set: true, List: shorter.With(six, prep.Dry)})
	if b.now.Done(prep.Oil) || b.now.LossOf(b.step(prep.Oil), b.l) != "withdrawn: dry and white comes before it and does not stand" {
		t.Errorf("oil before the new step says %q", b.now.LossOf(b.step(prep.Oil), b.l))
	}
	b.add(prep.Fact{Set: true})
	if done, all := b.now.Progress(); done != 0 || all != 0 || b.notReady() != "" {
		t.Errorf("with an empty list %d of %d, %q", done, all, b.notReady())
	}
}

func TestNextGoesRound(t *testing.T) {
	b := of(t, "after-machining")
	for after, want := range map[string]string{"": prep.PlugsOut, prep.PlugsOut: prep.DeburrBores, prep.LastWipe: prep.PlugsOut} {
		if s, ok := b.now.Next(after); !ok || s.ID != want {
			t.Errorf("after %q comes %s, want %s", after, s.ID, want)
		}
	}
	b.upTo(prep.LastWipe)
	if s, ok := b.now.Next(""); ok {
		t.Errorf("all is done, and %s comes next", s.ID)
	}
}

func TestNotesStayOnWhatIsReadTooEarly(t *testing.T) {
	b := of(t, "after-machining")
	notes := func(of string) string { return strings.Join(b.now.Notes(feature(t, of)), ", ") }
	for of, want := range map[string]string{
		"bore/2": "not yet deburred, not yet washed", "main-housing/2": "not yet washed", "main-journal/1": "", "piston/1": "",
	} {
		if got := notes(of); got != want {
			t.Errorf("%s is read %q, want %q", of, got, want)
		}
	}
	b.all(prep.PlugsOut, "11")
	b.tick(prep.DeburrBores, "bore/2 top", "")
	if got := notes("bore/2"); got != "not yet deburred, not yet washed" {
		t.Errorf("with one end deburred bore 2 is read %q", got)
	}
	b.tick(prep.DeburrBores, "bore/2 bottom", "")
	if got := notes("bore/2"); got != "not yet washed" {
		t.Errorf("with both ends deburred bore 2 is read %q", got)
	}
	if got := of(t, "assembly").now.Notes(feature(t, "bore/1")); len(got) != 1 || got[0] != "not yet soaked" {
		t.Errorf("on assembly day a bore is read %q", got)
	}
}
