package prep_test

import (
	"testing"

	"borewright/engine/prep"
)

func TestTallyInWords(t *testing.T) {
	for _, x := range []struct {
		t    prep.Tally
		want string
	}{
		{prep.Tally{Name: "studs"}, "studs not counted out"},
		{prep.Tally{Name: "studs", Known: true}, "studs 0 out, 0 in"},
		{prep.Tally{Name: "studs", Out: 11, Need: 11, Known: true, In: 10}, "studs 11 out, 10 in: 1 not back"},
		{prep.Tally{Name: "studs", Out: 11, Need: 11, Known: true, In: 10, Accounted: 1}, "studs 11 out, 10 in, 1 accounted for"},
		{prep.Tally{Name: "studs", Out: 11, Need: 11, Known: true, Again: true}, "studs 11 out, 0 in: count them in again"},
		{prep.Tally{Name: "studs", Out: 11, Need: 11, Known: true, In: 12}, "studs 11 out, 12 in: 1 too many"},
		{prep.Tally{Name: "studs", Out: 2, Need: 8, Known: true, In: 3}, "studs 3 in of 8: 5 not back"},
	} {
		if got := x.t.Text(); got != x.want {
			t.Errorf("%+v is %q, want %q", x.t, got, x.want)
		}
	}
}

func TestWhatStaysOutIsAccountedFor(t *testing.T) {
	b := of(t, "after-machining")
	b.upTo(prep.Oil)
	b.tick(prep.PlugsIn, "", "9")
	account := func(n int, why string) string {
		x := prep.Tick{Step: prep.PlugsIn, Way: prep.Accounted, Count: n, Choice: why}
		held := b.now.Hold(x, b.l)
		if held == "" {
			b.add(prep.Fact{Tick: &x})
		}
		return held
	}
	why := prep.Reasons()
	if held := account(1, why[0]); held != "" {
		t.Error(held)
	}
	b.wants(t, "not ready: 1 of 11 gallery plugs not back; 2 of 9 steps open")
	if held := account(2, why[1]); held != "only 1 are not back" {
		t.Errorf("two where one is missing are held for %q", held)
	}
	if held := account(1, why[1]); held != "" {
		t.Error(held)
	}
	if !b.now.Done(prep.PlugsIn) {
		t.Errorf("nine in and two accounted for leave %q", b.notReady())
	}
	b.work("honed", "bore/1")
	if x, _ := b.now.Tally("gallery plugs"); x.In != 0 || x.Accounted != 2 || !x.Again {
		t.Errorf("after work the tally is %+v", x)
	}
}

func TestCountsAreHeldWhenTheyCannotBe(t *testing.T) {
	b := of(t, "used-block")
	if held := b.tick(prep.CapsOut, "", "6"); held != "the list says 7, not 6" {
		t.Errorf("six caps of seven: %q", held)
	}
	if !b.now.Done(prep.CapsOut) {
		t.Error("a forced count is not done")
	}
	b.all(prep.PlugsOut, "11")
	tick := b.read(prep.PlugsIn, "", "12")
	tick.Forced = b.now.Hold(tick, b.l)
	if want := "12 would be in, and 11 came out"; len(tick.Forced) < len(want) || tick.Forced[len(tick.Forced)-len(want):] != want {
		t.Errorf("twelve in of eleven: %q", tick.Forced)
	}
	b.add(prep.Fact{Tick: &tick})
	if x, _ := b.now.Tally("gallery plugs"); x.Open() != 0 || !b.now.Done(prep.PlugsIn) {
		t.Errorf("twelve forced in: %+v", x)
	}
}

// A new block may come with no plug at all: what goes in is then counted alone.
func TestNothingOutAndCorePlugsInAlone(t *testing.T) {
	b := of(t, "new-block")
	if _, counts := b.now.Tally("core plugs"); counts {
		t.Error("core plugs that never came out have a tally")
	}
	b.upTo(prep.CoreSeat)
	b.all(prep.CoreIn, "6")
	if !b.now.Done(prep.CoreIn) {
		t.Error("six core plugs in are not done")
	}
	s := b.step(prep.CoreIn)
	s.Count = 8
	list, err := b.now.List().Set(s)
	if err != nil {
		t.Fatal(err)
	}
	b.add(prep.Fact{Set: true, List: list})
	if b.now.Done(prep.CoreIn) {
		t.Error("six of the eight that the list now says are done")
	}
	if x, counts := b.now.Tally("core plugs"); !counts || x.Text() != "core plugs 6 in of 8: 2 not back" {
		t.Errorf("the tally is %q", x.Text())
	}
}

func TestAStepThatHoldsATallyOpenStaysInTheList(t *testing.T) {
	b := of(t, "after-machining")
	if err := b.now.MayRemove(prep.PlugsOut); err != nil {
		t.Errorf("before anything came out: %v", err)
	}
	b.all(prep.PlugsOut, "11")
	for _, id := range []string{prep.PlugsOut, prep.PlugsIn} {
		err := b.now.MayRemove(id)
		if want := `step "` + id + `": gallery plugs: 11 not back; count them in or account for them first`; err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", id, err, want)
		}
	}
	if err := b.now.MayRemove("nothing"); err == nil {
		t.Error("a step that is not there may be removed")
	}
}
