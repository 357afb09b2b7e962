package tui

import (
	"slices"
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/record"
)

// cutsAllowed are the screens that cut what is not theirs: the lines of a table
// that goes into a file whole.
var cutsAllowed = map[string]bool{"sheet tables": true}

// TestNothingIsCutAt80Columns holds every screen of every demo, in the smallest
// window, to whole figures, units and words.
func TestNothingIsCutAt80Columns(t *testing.T) {
	for _, first := range []string{"launch", "hillclimb", "launch-complete"} {
		for name, keys := range everyScreen {
			if cutsAllowed[name] {
				continue
			}
			s := newStation(t, 80, 24, "launch", first)
			s.keys(keys...)
			_, body, _ := strings.Cut(s.r.View(), "\n") // the header may cut the session's title
			for line := range strings.SplitSeq(body, "\n") {
				if strings.Contains(line, "~") {
					t.Errorf("%s of %s cuts %q", name, first, line)
				}
			}
		}
	}
}

// TestTheNameOfALiveFigureIsWhole keys a bore whose worst is at the bottom: the
// level is what tells, and has the longest name.
func TestTheNameOfALiveFigureIsWhole(t *testing.T) {
	s, _ := atLaunch(t)
	s.keys("/8", "3", "<enter>", "/2", "/2", "/2", "/2", "+9", "<enter>", "/8", "3", "<enter>")
	view := s.r.View()
	if !strings.Contains(view, "out-of-round, bottom") || strings.Contains(view, "~") {
		t.Errorf("at bore 3:\n%s", view)
	}
}

// TestEveryLevelIsInSight holds the measure screen to showing every level that
// was read, in the smallest window too.
func TestEveryLevelIsInSight(t *testing.T) {
	s, _ := atLaunch(t)
	shows(t, s, "just taken: 3.7503, bore 4, top, along", "top               3.7502      3.7503", "middle                 –           –", "bottom                 –           –")
	s.keys("/8", "3", "<enter>")
	shows(t, s, "bottom            3.7504      3.7503")
}

// TestAnUnnamedLevelIsWhole draws levels that are known by their depth alone.
func TestAnUnnamedLevelIsWhole(t *testing.T) {
	s, m := atLaunch(t)
	p := m.desk.Session.Plan()
	p.Families = slices.Clone(p.Families)
	for i, g := range p.Families {
		p.Families[i].Levels = slices.Clone(g.Levels)
		for k := range g.Levels {
			p.Families[i].Levels[k].Name = ""
			p.Families[i].Levels[k].Depth = length.Written{Length: length.Length(k+1) * length.Inch, Unit: length.In, Places: 3}
		}
	}
	if err := m.desk.Record(record.Plan{Plan: p}); err != nil {
		t.Fatal(err)
	}
	if view := s.r.View(); strings.Contains(view, "~") || !strings.Contains(view, " 1.000 in") {
		t.Errorf("levels of no name:\n%s", view)
	}
}
