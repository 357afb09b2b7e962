package engine_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/match"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// pistons is a session of bores and pistons of one reading each, in ten
// thousandths over 3.7000 in and 3.6900 in; below zero is not read.
func pistons(t rapid.TB, bores, parts []int, more ...record.Body) *engine.Session {
	t.Helper()
	bodies := []record.Body{
		record.Details{UID: "x", Title: "x", Unit: length.In},
		record.Layout{Layout: plan.Default(plan.Inline, len(bores), false)},
		record.Plan{Plan: plan.Plan{Families: []plan.Group{group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across")}}},
	}
	bodies = append(bodies, more...)
	for _, x := range []struct {
		of    plan.Family
		base  length.Length
		sizes []int
	}{{plan.Bore, 37000, bores}, {plan.Piston, 36900, parts}} {
		for i, n := range x.sizes {
			if n < 0 {
				continue
			}
			w := length.Written{Length: (x.base + length.Length(n)) * length.Inch / 10000, Unit: length.In, Places: 4}
			bodies = append(bodies, record.Reading{
				Of: plan.Feature{Family: x.of, At: i + 1}, Level: "a", Dir: "across", Keyed: w.Number(), Via: record.ViaFile, Size: w, As: record.First,
			})
		}
	}
	return replay(t, bodies)
}

// clearanceLimit limits the clearance of bores to 0.0090-0.0110.
func clearanceLimit(t *testing.T) record.Body {
	t.Helper()
	return bareSession(t, plan.Default(plan.Inline, 1, false), []string{"bore clearance 0.0090 0.0110"})[3]
}

// seats writes which part is at each position: "1:2" is part 2 at position 1.
func seats(x engine.Arrangement) string {
	var out []string
	for _, s := range x.Seats {
		out = append(out, fmt.Sprintf("%d:%d", s.At, s.Best.At))
	}
	return strings.Join(out, " ")
}

// Big bores want big pistons: the clearance of each pair is 0.0100 at best.
func TestPistonsGoWhereTheyFitBest(t *testing.T) {
	s := pistons(t, []int{0, 20, 40}, []int{40, 0, 20}, clearanceLimit(t))
	x := s.Arrange(engine.Assess(s), plan.Piston)
	if got := seats(x); got != "1:2 2:3 3:1" {
		t.Fatalf("best %s", got)
	}
	if x.Now.Outside != 3 || x.Best.Outside != 0 || x.Best.Worst != 0 || len(x.Changes) != 3 || len(x.Missing) != 0 {
		t.Errorf("now %+v, best %+v, %d changes, missing %v", x.Now, x.Best, len(x.Changes), x.Missing)
	}
	if got := x.Seats[2].BestFit.Text; !strings.Contains(got, "bore 3, middle: clearance 0.0100") {
		t.Errorf("the best at bore 3 makes %q", got)
	}
	after, a, err := s.Trial(x.Changes...)
	if err != nil || a.Outside() != 0 {
		t.Fatalf("tried: %v, %d outside", err, a.Outside())
	}
	again := after.Arrange(a, plan.Piston)
	if len(again.Changes) != 0 || again.Now != again.Best {
		t.Errorf("once there it moves on: %+v", again.Changes)
	}
	if again.Numbered.Outside != 3 || x.Numbered.Outside != 3 || again.Numbered == again.Now {
		t.Errorf("as numbered it is %+v, then %+v", x.Numbered, again.Numbered)
	}
}

func locks(of string, rows ...map[string]string) record.Body {
	return record.Table{Name: record.Locks, Of: of, Rows: rows}
}

func TestLocksAndOnlyInThesePositions(t *testing.T) {
	for name, c := range map[string]struct {
		row  map[string]string
		want string
	}{
		"only in 1 and 3":  {map[string]string{"part": "2", "only": "1 3"}, "1:2 2:3 3:1"},
		"only in 2":        {map[string]string{"part": "2", "only": "2"}, "1:3 2:2 3:1"},
		"locked where put": {map[string]string{"part": "1", "at": "1"}, "1:1 2:3 3:2"},
		"locked as it is":  {map[string]string{"part": "3"}, "1:2 2:1 3:3"},
		"no such part":     {map[string]string{"part": "9", "at": "1"}, "1:2 2:3 3:1"},
	} {
		s := pistons(t, []int{0, 20, 40}, []int{40, 0, 20}, clearanceLimit(t), locks("piston", c.row))
		x := s.Arrange(engine.Assess(s), plan.Piston)
		if got := seats(x); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
	s := pistons(t, []int{0, 20}, []int{20, 0}, clearanceLimit(t), locks("piston", map[string]string{"part": "1", "at": "7"}))
	if x := s.Arrange(engine.Assess(s), plan.Piston); !strings.Contains(strings.Join(x.Missing, ";"), "row 1 of the locks of pistons locks nothing") {
		t.Errorf("a lock to no position is not said: %v", x.Missing)
	}
}

// What is missing is said, and the rest is arranged.
func TestArrangingWithSomethingMissing(t *testing.T) {
	limits := clearanceLimit(t)
	aside := record.Fitted{Part: plan.Feature{Family: plan.Piston, At: 3}, At: plan.Feature{Family: plan.Bore, At: 1}}
	for name, c := range map[string]struct {
		s    *engine.Session
		want string
		says string
	}{
		"a piston not read": {pistons(t, []int{0, 20, 40}, []int{20, 0, -1}, limits), "1:2 2:1", "piston 3 is not measured and stays where it is"},
		"a bore not read":   {pistons(t, []int{0, 20, -1}, []int{20, 0, 40}, limits), "1:2 2:1", "is not measured: it stays where it is"},
		"a bore without":    {pistons(t, []int{0, 20, 40}, []int{20, 0, 40}, limits, aside), "1:2 2:1 3:3", "there is no piston at bore 3"},
		"no limit":          {pistons(t, []int{0, 20}, []int{20, 0}), "1:1 2:2", "no limit on the clearance of bores is given"},
		"nothing read":      {pistons(t, []int{-1, -1}, []int{-1, -1}, limits), "", "piston 1 is not measured"},
	} {
		x := c.s.Arrange(engine.Assess(c.s), plan.Piston)
		if got := seats(x); got != c.want || !strings.Contains(strings.Join(x.Missing, "; "), c.says) {
			t.Errorf("%s: %s, want %s; missing %v", name, got, c.want, x.Missing)
		}
	}
	s := pistons(t, []int{0}, []int{0})
	if x := s.Arrange(engine.Assess(s), plan.MainJournal); len(x.Missing) != 1 {
		t.Errorf("main journals are arranged: %+v", x)
	}
	if got := s.Arranged(); !slices.Equal(got, []plan.Family{plan.Piston}) {
		t.Errorf("a plan of bores and pistons arranges %v", got)
	}
}

// Against every permutation: trying each of them out by events finds no better.
func TestArrangementAgainstTryingThemAll(t *testing.T) {
	t.Parallel()
	limits := clearanceLimit(t)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "n")
		size := rapid.IntRange(0, 24)
		bores, parts := rapid.SliceOfN(size, n, n).Draw(t, "bores"), rapid.SliceOfN(size, n, n).Draw(t, "pistons")
		s := pistons(t, bores, parts, limits)
		x := s.Arrange(engine.Assess(s), plan.Piston)
		best := x.Now
		permute(n, func(at []int) {
			var changes []engine.Change
			for part, position := range at {
				changes = append(changes, engine.Change{Did: engine.Seat, Of: plan.Feature{Family: plan.Piston, At: part + 1}, At: plan.Feature{Family: plan.Bore, At: position + 1}})
			}
			_, a, err := s.Trial(changes...)
			if err != nil {
				t.Fatal(err)
			}
			score := match.Score{Outside: a.Outside()}
			for _, f := range a.Findings {
				m := match.MarginOf(f.Judgement.Margin)
				score.Worst, score.Sum = max(score.Worst, m), score.Sum+m
			}
			if score.Gains(best) {
				best = score
			}
		})
		if x.Best.Gains(best) || best.Gains(x.Best) {
			t.Fatalf("bores %v, pistons %v: best %+v, trying all finds %+v", bores, parts, x.Best, best)
		}
	})
}

// permute calls try with every permutation of n.
func permute(n int, try func([]int)) {
	var place func(at []int)
	place = func(at []int) {
		if len(at) == n {
			try(at)
			return
		}
		for i := range n {
			if !slices.Contains(at, i) {
				place(append(at[:len(at):len(at)], i))
			}
		}
	}
	place(nil)
}

// Rods go to the journals that they suit: a big end with a large bearing to a
// large journal.
func TestRodsToJournals(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 2, false), []string{"rod-bearing clearance 0.0015 0.0030"},
		group(plan.RodBearing, 1, "vertical"), group(plan.RodJournal, 1, "vertical"))
	for of, v := range map[string]string{"rod-bearing/1": "2.1040", "rod-bearing/2": "2.1020", "rod-journal/1": "2.1000", "rod-journal/2": "2.1015"} {
		bodies = append(bodies, read(t, of, "a/vertical="+v)...)
	}
	s := replay(t, bodies)
	x := s.Arrange(engine.Assess(s), plan.Rod)
	if got := seats(x); got != "1:2 2:1" || x.Now.Outside != 2 || x.Best.Outside != 0 {
		t.Fatalf("%s: %+v", got, x)
	}
	_, a, err := s.Trial(x.Changes...)
	if err != nil || a.Outside() != 0 {
		t.Errorf("tried: %v, %s", err, texts(a))
	}
}

// Shells from parts: the thick pair goes into the large housing.
func TestShellsToHousings(t *testing.T) {
	bodies := bareSession(t, plan.Layout{Form: plan.Inline, Cylinders: 1, Mains: 2, RodJournals: 1, RodsPerJournal: 1}, []string{"main-bearing clearance 0.0015 0.0030"},
		group(plan.MainHousing, 1, "vertical"), group(plan.ShellMain, 1, plan.Once), group(plan.MainJournal, 1, "vertical"))
	for of, v := range map[string]string{
		"main-housing/1": "vertical=2.2500", "main-housing/2": "vertical=2.2520", "main-journal/1": "vertical=2.0000", "main-journal/2": "vertical=2.0000",
		"shell-main/1/upper": "once=0.1249", "shell-main/1/lower": "once=0.1249", "shell-main/2/upper": "once=0.1239", "shell-main/2/lower": "once=0.1239",
	} {
		bodies = append(bodies, read(t, of, "a/"+v)...)
	}
	s := replay(t, bodies)
	x := s.Arrange(engine.Assess(s), plan.ShellMain)
	if got := seats(x); got != "1:2 2:1" || len(x.Changes) != 4 || x.Now.Outside != 2 || x.Best.Outside != 0 {
		t.Fatalf("%s: %+v", got, x)
	}
	_, a, err := s.Trial(x.Changes...)
	if err != nil || a.Outside() != 0 {
		t.Errorf("tried: %v, %s", err, texts(a))
	}
}
