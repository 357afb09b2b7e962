package tui

import (
	"strings"
	"testing"

	"borewright/engine/limit"
	"borewright/engine/record"
)

// Every finding outside has its remedy beside it: in full below the marked one
// in the least window, in a line below every other where there is room.
func TestTheRemedyStandsBesideItsFinding(t *testing.T) {
	s, w := atWorst(t, 80, 24, "launch-complete")
	for i, f := range w.findings() {
		if f.Judgement.Verdict != limit.Outside {
			break
		}
		w.list.at = i
		text := w.remedy(i)
		if !strings.ContainsAny(text, "0123456789") {
			t.Errorf("%s has the remedy %q", f.Text, text)
		}
		shows(t, s, f.Text+" do: "+text)
		if n := strings.Count(s.r.View(), "do: "); n != 1 {
			t.Errorf("%d remedies are shown in the least window", n)
		}
	}
	w.list.at = 0
	s.r.resize(140, 45)
	shows(t, s, "do: hone bore 2 to 3.7512 in", "do: fit shells, upper/lower: main bearing 3", "do: file top ring 5 to a gap of")
}

// A remedy for several findings is said once, and again below whichever of them
// is marked.
func TestARemedyForSeveralIsSaidOnce(t *testing.T) {
	s, w := atWorst(t, 200, 60, "launch-complete")
	tight := limit.Limits{On: limit.Size, Of: "bore", New: limit.Range{Low: mustWrite(t, "3.7000 in"), High: mustWrite(t, "3.7010 in")}}
	if err := w.desk.Record(record.Limit{Limits: tight}); err != nil {
		t.Fatal(err)
	}
	n := 0
	for i := range w.findings() {
		if w.remedy(i) == w.remedy(0) {
			n++
		}
	}
	text := w.remedy(0)[:20]
	if got := strings.Count(strings.Join(w.View(), "\n"), text); n < 6 || got != 1 {
		t.Errorf("a remedy of %d findings is said %d times", n, got)
	}
	s.keys("<down>", "<down>")
	if got := strings.Count(strings.Join(w.View(), "\n"), text); got != 2 {
		t.Errorf("with another of them marked it is said %d times", got)
	}
}

// The fits open at the marked finding's feature and come back.
func TestTheFitsOpenFromTheWorst(t *testing.T) {
	s, w := atWorst(t, 80, 24, "launch-complete")
	s.keys("v")
	f := top[*fits](s)
	if r, ok := f.marked(); !ok || r.of != w.findings()[0].Of {
		t.Errorf("the fits open at %v", r.of)
	}
	s.keys("<esc>")
	if top[*worst](s) != w {
		t.Error("back from the fits is another screen")
	}
}
