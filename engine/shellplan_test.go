package engine_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/match"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// mains is a session of mains whose clearance is 0.0020 at best, as assembled
// with standard shells: 2.0000 journals and bearings so many ten thousandths
// larger. stock is undersize and count.
func mains(t *testing.T, clearances []int, stock [][2]string, more ...record.Body) *engine.Session {
	t.Helper()
	l := plan.Layout{Form: plan.Inline, Cylinders: 1, Mains: len(clearances), RodJournals: 1, RodsPerJournal: 1}
	bodies := bareSession(t, l, []string{"main-bearing clearance 0.0010 0.0030"}, group(plan.MainBearing, 1, "vertical"), group(plan.MainJournal, 1, "vertical"))
	var rows []map[string]string
	for _, x := range stock {
		rows = append(rows, map[string]string{"name": x[0], "undersize": x[0] + " in", "count": x[1]})
	}
	if rows != nil {
		bodies = append(bodies, record.Table{Name: record.Shells, Of: "shell-main", Rows: rows})
	}
	bodies = append(bodies, more...)
	for i, c := range clearances {
		bodies = append(bodies, read(t, fmt.Sprintf("main-journal/%d", i+1), "a/vertical=2.0000")...)
		bodies = append(bodies, read(t, fmt.Sprintf("main-bearing/%d", i+1), fmt.Sprintf("a/vertical=%.4f", 2+float64(c)/1e4))...)
	}
	return replay(t, bodies)
}

// bestShells writes what is best: "0.001/0" for each bearing, "-" as it is.
func bestShells(x engine.ShellPlan) string {
	var out []string
	for _, r := range x.Rows {
		if r.BestUpper == "" {
			out = append(out, "-")
			continue
		}
		out = append(out, r.BestUpper+"/"+r.BestLower)
	}
	return strings.Join(out, " ")
}

func step(t *testing.T, high string) record.Body {
	t.Helper()
	return record.Limit{Limits: limit.Limits{On: limit.Step, Of: "main-bearing", New: limit.Range{High: inch(t, high)}}}
}

func TestShellsChosenFromStock(t *testing.T) {
	mix := record.Given{Name: engine.GivenMix, Value: "0 in"}
	for _, c := range []struct {
		name       string
		clearances []int
		stock      [][2]string
		more       []record.Body
		want       string
	}{
		{"each gets what it needs", []int{30, 20, 10}, [][2]string{{"-0.001", "2"}, {"0.001", "2"}}, nil, "0.001/0.001 - -0.001/-0.001"},
		{"half a step by mixed halves", []int{25, 20}, [][2]string{{"0", "2"}, {"0.001", "1"}}, nil, "0/0.001 -"},
		{"none mixed", []int{25, 20}, [][2]string{{"0", "2"}, {"0.001", "2"}}, []record.Body{mix}, "- -"},
		{"mixed alike along the crank", []int{25, 15}, [][2]string{{"-0.001", "1"}, {"0", "4"}, {"0.001", "1"}}, nil, "0/0.001 -0.001/0"},
		{"one pair, where it is worst", []int{32, 34}, [][2]string{{"0.001", "2"}}, nil, "- 0.001/0.001"},
		{"two halves for two bearings outside", []int{33, 34}, [][2]string{{"0", "0"}, {"0.001", "2"}}, nil, "0/0.001 0/0.001"},
		{"as near as its neighbour needs", []int{28, 20, 20}, [][2]string{{"0.001", "2"}}, []record.Body{step(t, "0.0005")}, "0.001/0.001 - -"},
		{"nothing to gain", []int{20, 20}, [][2]string{{"0.001", "4"}}, nil, "- -"},
	} {
		s := mains(t, c.clearances, c.stock, c.more...)
		x := s.Shells(engine.Assess(s), plan.MainBearing)
		if got := bestShells(x); got != c.want || !x.Proven {
			t.Errorf("%s: %s, want %s (%+v)", c.name, got, c.want, x.Best)
		}
	}
}

// Mixed halves take a half of each and move the centre line: the plan's changes
// come out as it says.
func TestMixedHalvesComeOutAsPlanned(t *testing.T) {
	s := mains(t, []int{25, 20}, [][2]string{{"0", "2"}, {"0.001", "1"}})
	a := engine.Assess(s)
	x := s.Shells(a, plan.MainBearing)
	if len(x.Changes) != 1 || x.Changes[0].Of.String() != "shell-main/1/lower" || x.Rows[0].Shift.FormatSigned(length.In, 5) != "+0.00025" {
		t.Fatalf("%+v", x)
	}
	after, now, err := s.Trial(x.Changes...)
	if err != nil {
		t.Fatal(err)
	}
	c := now.ClearancesOf(feature(t, "main-bearing/1"))
	if got := c[0].Clearance.Judged.Format(length.In, 4); got != "0.0020" || x.Rows[0].BestFit.Value != c[0].Clearance.Judged {
		t.Errorf("it comes out at %s", got)
	}
	if got := after.UndersizeOf(feature(t, "shell-main/1/lower")).Format(length.In, 4); got != "0.0010" {
		t.Errorf("the lower half in is %s undersize", got)
	}
	if again := after.Shells(now, plan.MainBearing); len(again.Changes) != 0 {
		t.Errorf("once in, others are wanted: %+v", again.Changes)
	}
}

func TestShellsWithSomethingMissing(t *testing.T) {
	bad := record.Table{Name: record.Shells, Of: "shell-main", Rows: []map[string]string{
		{"name": "a"}, {"undersize": "0.001 in"}, {"undersize": "0.001 in", "count": "2"},
	}}
	noWall := record.Table{Name: record.Shells, Of: "shell-main", Rows: []map[string]string{{"wall": "0.1250 in", "count": "2"}}}
	for name, c := range map[string]struct {
		s    *engine.Session
		says []string
	}{
		"no stock":    {mains(t, []int{32}, nil), []string{"no shells on hand are given for the mains"}},
		"bad rows":    {mains(t, []int{32}, nil, bad), []string{"row 1 of the shells on hand for the mains has no undersize", "row 2 of the shells on hand for the mains says not how many"}},
		"no wall":     {mains(t, []int{32}, nil, noWall), []string{"the walls that are in main bearing 1 are not known"}},
		"not read":    {replay(t, bareSession(t, plan.Default(plan.Inline, 1, false), []string{"main-bearing clearance 0.0010 0.0030"}, group(plan.MainBearing, 1, "vertical"), group(plan.MainJournal, 1, "vertical"))), []string{"the clearance of main bearing 1, main bearing 2 is not known"}},
		"no limit":    {replay(t, bareSession(t, plan.Default(plan.Inline, 1, false), nil, group(plan.MainBearing, 1, "vertical"), group(plan.MainJournal, 1, "vertical"))), []string{"no limit on the clearance of main bearings is given"}},
		"not planned": {replay(t, bareSession(t, plan.Default(plan.Inline, 1, false), nil, group(plan.Bore, 1, "across"))), []string{"no limit on the clearance"}},
	} {
		x := c.s.Shells(engine.Assess(c.s), plan.MainBearing)
		for _, want := range c.says {
			if !strings.Contains(strings.Join(x.Missing, "; "), want) {
				t.Errorf("%s: %v does not say %q", name, x.Missing, want)
			}
		}
	}
	s := mains(t, []int{32}, nil, bad)
	if x := s.Shells(engine.Assess(s), plan.MainBearing); bestShells(x) != "0.001 in/0.001 in" {
		t.Errorf("what is right in the stock is not used: %s, %v", bestShells(x), x.Missing)
	}
}

// Shells told by their walls: what is in is known by what was read or given.
func TestShellsByWall(t *testing.T) {
	walls := record.Table{Name: record.Shells, Of: "shell-main", Rows: []map[string]string{{"wall": "0.1250 in", "count": "2"}, {"wall": "0.1255 in", "count": "2"}}}
	s := mains(t, []int{32}, nil, walls, record.Given{Name: engine.GivenWall, Of: "shell-main", Value: "0.1250 in"})
	a := engine.Assess(s)
	x := s.Shells(a, plan.MainBearing)
	if len(x.Changes) != 2 || x.Changes[0].Did != engine.FitWall || x.Rows[0].BestFit.Value.Format(length.In, 4) != "0.0022" {
		t.Fatalf("%+v", x)
	}
	after, now, err := s.Trial(x.Changes...)
	if err != nil || now.Outside() != 0 {
		t.Fatalf("%v: %s", err, texts(now))
	}
	if got := after.Thickness(feature(t, "shell-main/1/upper"), true).Format(length.In, 4); got != "0.1255" {
		t.Errorf("the wall in is %s", got)
	}
}

// Seeded small cranks against every choice of two halves for each bearing, tried
// as events: as many as the stock has, one step apart at most, all mixed alike.
func TestShellsAgainstTryingThemAll(t *testing.T) {
	t.Parallel()
	undersizes := []string{"-0.001", "0", "0.001"}
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 5))
		clearances := []int{8 + r.IntN(26), 8 + r.IntN(26)}
		stock := [][2]string{}
		for _, u := range undersizes {
			stock = append(stock, [2]string{u, fmt.Sprint(r.IntN(4))})
		}
		var rule []record.Body
		if seed%2 == 1 {
			rule = append(rule, step(t, "0.0006"))
		}
		s := mains(t, clearances, stock, rule...)
		x := s.Shells(engine.Assess(s), plan.MainBearing)
		best := x.Now
		everyPair(2, func(pairs [][2]int) {
			if score, ok := tryPairs(t, s, pairs, undersizes, stock); ok && score.Gains(best) {
				best = score
			}
		})
		if best.Gains(x.Best) || x.Best.Gains(best) {
			t.Errorf("seed %d, %v from %v: best %+v (%s), trying all finds %+v", seed, clearances, stock, x.Best, bestShells(x), best)
		}
	}
}

// everyPair calls try with every choice of an upper and a lower for n bearings.
func everyPair(n int, try func([][2]int)) {
	var place func([][2]int)
	place = func(so [][2]int) {
		if len(so) == n {
			try(so)
			return
		}
		for u := range 3 {
			for l := range 3 {
				place(append(so[:len(so):len(so)], [2]int{u, l}))
			}
		}
	}
	place(nil)
}

// tryPairs scores one choice; ok is false when it is not allowed. Undersize 0 is
// what is in and takes nothing from the stock.
func tryPairs(t *testing.T, s *engine.Session, pairs [][2]int, undersizes []string, stock [][2]string) (match.Score, bool) {
	t.Helper()
	used, up, down := make([]int, 3), false, false
	var changes []engine.Change
	for i, p := range pairs {
		up, down = up || p[0] > p[1], down || p[0] < p[1]
		if p[0]-p[1] > 1 || p[1]-p[0] > 1 {
			return match.Score{}, false
		}
		for k, part := range []string{plan.Upper, plan.Lower} {
			if p[k] == 1 {
				continue
			}
			used[p[k]]++
			changes = append(changes, engine.Change{Did: engine.FitShell, Of: plan.Feature{Family: plan.ShellMain, At: i + 1, Part: part}, Size: inch(t, undersizes[p[k]])})
		}
	}
	for k, n := range used {
		if fmt.Sprint(n) > stock[k][1] || up && down {
			return match.Score{}, false
		}
	}
	_, a, err := s.Trial(changes...)
	if err != nil {
		t.Fatal(err)
	}
	var score match.Score
	for _, f := range a.Findings {
		switch m := match.MarginOf(f.Judgement.Margin); {
		case f.On == limit.Step && f.Judgement.Verdict == limit.Outside:
			score.Breaches++
		case f.On == limit.Clearance:
			if f.Judgement.Verdict == limit.Outside {
				score.Outside++
			}
			score.Worst, score.Sum = max(score.Worst, m), score.Sum+m
		}
	}
	return score, true
}

// Every pair on hand for one bearing, with what it would make there.
func TestShellOptions(t *testing.T) {
	s := mains(t, []int{25, 20}, [][2]string{{"0", "2"}, {"0.001", "1"}})
	a := engine.Assess(s)
	all, missing := s.ShellOptions(a, plan.MainBearing, 1)
	var got []string
	for _, o := range all {
		got = append(got, fmt.Sprintf("%s/%s %s %d", o.Upper, o.Lower, o.Fit.Value.Format(length.In, 4), len(o.Changes)))
	}
	if text := strings.Join(got, ", "); text != "0/0 0.0025 0, 0.001/0.001 0.0015 2, 0/0.001 0.0020 1, 0.001/0 0.0020 1" || len(missing) != 0 {
		t.Errorf("%s; missing %v", text, missing)
	}
	if all, _ := s.ShellOptions(a, plan.MainBearing, 9); all != nil {
		t.Errorf("options for a bearing there is none of: %v", all)
	}
	after, _, err := s.Trial(all[2].Changes...)
	if err != nil || after.ShellWord(feature(t, "shell-main/1/lower")) != "+0.001" || after.ShellWord(feature(t, "shell-main/1/upper")) != "std" {
		t.Errorf("in are %s and %s", after.ShellWord(feature(t, "shell-main/1/upper")), after.ShellWord(feature(t, "shell-main/1/lower")))
	}
}
