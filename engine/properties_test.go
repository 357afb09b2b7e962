package engine_test

import (
	"reflect"
	"slices"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// small is the setup of a small engine whose sizes are read in full.
func small(unit length.Unit, order string) []record.Body {
	mm := func(text string) length.Written {
		w, err := length.Parse(text, length.MM)
		if err != nil {
			panic(err)
		}
		return w
	}
	l := func(on limit.Characteristic, of, low, high string) record.Limit {
		x := limit.Limits{On: on, Of: of, New: limit.Range{High: mm(high)}}
		if low != "" {
			x.New.Low = mm(low)
		}
		return record.Limit{Limits: x}
	}
	group := func(f plan.Family, levels, dirs int) plan.Group {
		t, _ := f.Traits()
		return plan.Group{Family: f, Nominal: mm("82.000"), Levels: plan.Grid(f, levels), Directions: t.Usual[dirs-1]}
	}
	return []record.Body{
		record.Details{UID: "p", Title: "property", Unit: unit},
		record.Layout{Layout: plan.Default(plan.Inline, 3, false)},
		record.Plan{Plan: plan.Plan{Order: order, Families: []plan.Group{
			group(plan.Bore, 3, 2), group(plan.Piston, 1, 1), group(plan.MainBearing, 2, 1), group(plan.MainJournal, 2, 2),
		}}},
		l(limit.Size, "bore", "82.000", "82.020"),
		l(limit.OutOfRound, "bore", "", "0.010"),
		l(limit.Taper, "bore", "", "0.010"),
		l(limit.Clearance, "bore", "0.010", "0.050"),
		l(limit.Clearance, "main-bearing", "0.010", "0.050"),
		l(limit.Taper, "main-journal", "", "0.010"),
	}
}

var day = time.Date(2026, 3, 2, 8, 0, 0, 0, time.FixedZone("", 3600))

func seal(t rapid.TB, bodies []record.Body) []record.Sealed {
	t.Helper()
	var head record.Head
	var out []record.Sealed
	for _, b := range bodies {
		s, err := record.Seal(record.Event{At: day, By: "ek", Body: b}, head)
		if err != nil {
			t.Fatal(err)
		}
		out, head = append(out, s), s.Head
	}
	return out
}

func replay(t rapid.TB, bodies []record.Body) *engine.Session {
	t.Helper()
	s, err := engine.Replay(seal(t, bodies))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// readings draws readings at the places of the plan, some of them repeats.
func readings(t *rapid.T, s *engine.Session) []record.Body {
	places := s.Places()
	n := rapid.IntRange(1, 40).Draw(t, "n")
	seen := map[plan.Place]bool{}
	var out []record.Body
	for range n {
		p := rapid.SampledFrom(places).Draw(t, "place")
		r := record.Reading{
			Of: p.Of, Level: p.Level, Dir: p.Dir, Via: record.ViaFile, As: record.First,
			Size: length.Written{Length: length.Length(rapid.IntRange(81_980, 82_060).Draw(t, "µm")) * length.Micrometre, Unit: length.MM, Places: 3},
		}
		r.Keyed = r.Size.Number()
		if seen[p] {
			r.As = rapid.SampledFrom([]string{record.Repeat, record.Replace}).Draw(t, "as")
		}
		seen[p] = true
		out = append(out, r)
	}
	return out
}

// acts draws readings mixed with work, places left out and withdrawals.
func acts(t *rapid.T, setup []record.Body) []record.Body {
	s := replay(t, setup)
	out := slices.Clone(setup)
	for _, r := range readings(t, s) {
		switch rapid.IntRange(0, 9).Draw(t, "act") {
		case 0:
			f := []plan.Feature{r.(record.Reading).Of}
			out = append(out, record.Work{Did: "honed", To: f, Changes: f, Metal: true})
		case 1:
			p := r.(record.Reading).Place()
			out = append(out, record.LeftOut{Of: p.Of, Level: p.Level, Dir: p.Dir})
		case 2:
			n := int64(rapid.IntRange(len(setup)+1, max(len(setup)+1, len(out))).Draw(t, "withdraw"))
			if replay(t, out).CheckWithdraw(n) == nil {
				out = append(out, record.Withdrawn{Event: n})
			}
		}
		out = append(out, r)
	}
	return out
}

func TestReplayingTwiceGivesTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := acts(t, small(length.MM, ""))
		same(t, engine.Assess(replay(t, bodies)), engine.Assess(replay(t, bodies)))
	})
}

func TestAgainEqualsAssess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s engine.Session
		var a *engine.Assessment
		for _, e := range seal(t, acts(t, small(length.MM, ""))) {
			touched, err := s.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			if a == nil {
				a = engine.Assess(&s)
			}
			a = a.Again(&s, touched)
			same(t, a, engine.Assess(&s))
		}
	})
}

func same(t rapid.TB, a, b *engine.Assessment) {
	t.Helper()
	if !reflect.DeepEqual(a, b) {
		t.Fatalf("two assessments of the same state differ:\n%+v\n%+v", values(a.Findings), values(b.Findings))
	}
}

// values are copies of rows, for words and for changing them.
func values[T any](rows []*T) []T {
	out := make([]T, len(rows))
	for i, r := range rows {
		out[i] = *r
	}
	return out
}

// judged is what no relabelling, unit or order may change.
type judged struct {
	of      plan.Feature
	on      limit.Characteristic
	verdict limit.Verdict
	margin  float64
}

func judgements(a *engine.Assessment) []judged {
	var out []judged
	for _, f := range a.Findings {
		out = append(out, judged{f.Of, f.On, f.Judgement.Verdict, f.Judgement.Margin})
	}
	return out
}

func TestLabelsUnitAndOrderChangeNoVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setup := small(length.MM, plan.ByLevel)
		rs := readings(t, replay(t, setup))
		want := judgements(engine.Assess(replay(t, append(slices.Clone(setup), rs...))))

		relabelled := plan.Default(plan.Inline, 3, false)
		relabelled.Labels = map[string][]string{"cylinders": {"3", "1", "2"}, "mains": {"A", "B", "C", "D"}}
		other := append(small(length.In, plan.ByDirection), record.Layout{Layout: relabelled})
		got := judgements(engine.Assess(replay(t, append(other, independent(t, rs)...))))
		if !slices.Equal(got, want) {
			t.Fatalf("verdicts changed:\n%v\n%v", got, want)
		}
	})
}

// independent shuffles readings, those of one place keeping their order.
func independent(t *rapid.T, rs []record.Body) []record.Body {
	lists := map[plan.Place][]record.Body{}
	for _, r := range rs {
		p := r.(record.Reading).Place()
		lists[p] = append(lists[p], r)
	}
	order := rapid.Permutation(rs).Draw(t, "order")
	out := make([]record.Body, len(rs))
	for i, r := range order {
		p := r.(record.Reading).Place()
		out[i], lists[p] = lists[p][0], lists[p][1:]
	}
	return out
}

func TestBottomUpFlipsTaperOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setup := small(length.MM, "")
		var down, up []record.Body
		for i, level := range []string{"a", "b", "c"} {
			for _, dir := range []string{"across", "along"} {
				size := length.Written{Length: length.Length(rapid.IntRange(82_000, 82_030).Draw(t, "µm")) * length.Micrometre, Unit: length.MM, Places: 3}
				r := record.Reading{
					Of: plan.Feature{Family: plan.Bore, At: 1}, Level: level, Dir: dir,
					Keyed: size.Number(), Via: record.ViaFile, Size: size, As: record.First,
				}
				down = append(down, r)
				r.Level = string(rune('c' - i))
				up = append(up, r)
			}
		}
		a, _ := engine.Assess(replay(t, append(slices.Clone(setup), down...))).Feature(plan.Feature{Family: plan.Bore, At: 1})
		b, _ := engine.Assess(replay(t, append(slices.Clone(setup), up...))).Feature(plan.Feature{Family: plan.Bore, At: 1})
		for i := range a.Figures.Directions {
			if a.Figures.Directions[i].EndToEnd != b.Figures.Directions[i].EndToEnd.Neg() {
				t.Fatal("end-to-end taper did not flip its sign")
			}
		}
		x, y := a.Figures, b.Figures
		if x.Mean != y.Mean || x.OutOfRound != y.OutOfRound || x.Spread != y.Spread || x.Overall != y.Overall || x.Smallest != y.Smallest {
			t.Fatalf("more than taper moved: %+v %+v", x, y)
		}
	})
}

func TestUndoThenRedoIsIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setup := small(length.MM, "")
		bodies := append(slices.Clone(setup), readings(t, replay(t, setup))...)
		before := engine.Assess(replay(t, bodies))
		n := int64(rapid.IntRange(len(setup)+1, len(bodies)).Draw(t, "undone"))
		undone := append(bodies, record.Withdrawn{Event: n})
		redone := append(undone, record.Withdrawn{Event: int64(len(undone))})
		after := engine.Assess(replay(t, redone))
		after.Head = before.Head
		same(t, before, after)
	})
}

func TestWithdrawingWhatOthersRestOnIsRefused(t *testing.T) {
	bodies := small(length.MM, "")
	s := replay(t, append(bodies, readingAt("bore/1", "a", "across", "82.004")))
	for n, want := range map[int64]string{
		1:  "event 1 says what is on the bench and is not withdrawn",
		3:  "event " + strconv.Itoa(len(bodies)+1) + " (reading) rests on it: bore/1: bores are not in the plan",
		99: "there is no event 99 to withdraw",
	} {
		if err := s.CheckWithdraw(n); err == nil || err.Error() != want {
			t.Errorf("withdrawing %d: %v, want %s", n, err, want)
		}
	}
}

func readingAt(of, level, dir, size string) record.Reading {
	f, _ := plan.ParseFeature(of)
	w, _ := length.Parse(size, length.MM)
	return record.Reading{Of: f, Level: level, Dir: dir, Keyed: size, Via: record.ViaFile, Size: w, As: record.First}
}
