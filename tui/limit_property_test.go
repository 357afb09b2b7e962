package tui

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/limit"
)

// Whatever is keyed, doubtful or not, is what the form holds and what is kept:
// the cross-check changes nothing.
func TestWhatIsKeyedIsWhatIsKept(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>", "b")
	rapid.Check(t, func(rt *rapid.T) {
		b.press("<enter>")
		x := b.limits()
		want := x.now
		for _, f := range limit.Fields() {
			text := rapid.SampledFrom([]string{"", "3.7500", "3.7510", "3.5700", "37.5", "95.25mm", "3.76", "0.375", "4.0000in"}).Draw(rt, string(f))
			w, err := readLength(text, x.printed)
			if err != nil {
				rt.Fatal(err)
			}
			*lengthAt(&want, f) = w
			if want.JudgeBy != "" && want.Range(want.JudgeBy).IsZero() {
				want.JudgeBy = ""
			}
			b.onField(string(f))
			b.press("/", text, "<enter>")
			if x.form.focus == string(f) {
				if !strings.Contains(b.st.status.text, "Enter again keeps it") {
					rt.Fatalf("%s is not left: %s", f, b.st.status.text)
				}
				b.press("<enter>")
			}
		}
		if x.now != want {
			rt.Fatalf("keyed %+v, and the form holds %+v", want, x.now)
		}
		for range limit.Fields() {
			b.press("<f2>")
		}
		switch kept := b.limitOf("bore", limit.Size); {
		case want.Validate() != nil:
			if kept != x.was || top[*limitForm](b.station) != x {
				rt.Fatalf("%v, but kept is %+v", want.Validate(), kept)
			}
			b.press("<esc>", "<esc>")
		case kept != want:
			rt.Fatalf("keyed %+v, and kept is %+v (%s)", want, kept, b.st.status.text)
		}
	})
}

// The limits fit their lines however long what is said of them is.
func TestLimitsFitAtEveryRow(t *testing.T) {
	for _, name := range []string{"launch", "hillclimb", "launch-complete"} {
		b := newSetupBench(t, name)
		b.press("<enter>", "b")
		s := top[*limitsScreen](b.station)
		for i := range s.all() {
			s.list.at = i
			view := b.r.View()
			r, _ := s.marked()
			if n := strings.Count(view, ">"); r.given() && n < 1 {
				t.Errorf("%s: row %d is not marked", name, i)
			}
			if !strings.Contains(view, "- "+capital(r.family.Plural())) {
				t.Errorf("%s: row %d stands without its family:\n%s", name, i, view)
			}
			if want := fmt.Sprint(len(strings.Split(view, "\n"))); want != "24" {
				t.Errorf("%s: row %d makes %s lines", name, i, want)
			}
		}
	}
}
