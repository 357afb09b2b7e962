package tui

import (
	"strings"
	"testing"
	"unicode"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// awkward are names that a customer or an engine may bear: wide, combining,
// from right to left, and with signs that turn a line round.
var awkward = []string{
	"船外機の直列三気筒", "Żółw i jeż, ę̨́", "مضخة البركة", "left\u202eright", "zero\u200bwidth\u2066x\u2069",
	strings.Repeat("long ", 40), "👩‍🔧 bench", "ｆｕｌｌ　ｗｉｄｔｈ",
}

func TestNamesBreakNoScreen(t *testing.T) {
	for _, name := range awkward {
		s := newStation(t, 80, 24, "launch")
		d, err := s.st.begin([]record.Body{
			record.Details{UID: "awkward", Title: name, Customer: name, Engine: name, Unit: length.MM},
			record.Layout{Layout: plan.Default(plan.Inline, 1, false)},
			record.Plan{Plan: plan.Plan{Families: []plan.Group{{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 3), Directions: []string{"across"}}}}},
		})
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		s.mail()
		s.st.Push(newMeasure(s.st, d))
		s.run(s.r.settle())
		for _, keys := range [][]string{nil, {"w"}, {"<esc>", "l"}, {"<esc>", "<esc>"}} {
			s.keys(keys...)
			for _, size := range [][2]int{{80, 24}, {140, 45}} {
				s.r.resize(size[0], size[1])
				for _, line := range strings.Split(s.r.View(), "\n") {
					if draw.Width(line) > size[0] {
						t.Errorf("%q on %s: a line of %d cells: %q", name, s.r.top().Title(), draw.Width(line), line)
					}
					if i := strings.IndexFunc(line, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }); i >= 0 {
						t.Errorf("%q on %s: a control character reaches the terminal: %q", name, s.r.top().Title(), line)
					}
				}
			}
		}
	}
}
