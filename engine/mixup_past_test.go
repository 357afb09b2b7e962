package engine

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
)

// TestReplacedFigure: what stood at a place before is found from the end as it is from
// the beginning of all that was read there.
func TestReplacedFigure(t *testing.T) {
	p := plan.Place{Of: plan.Feature{Family: plan.Piston, At: 1}, Level: "a", Dir: "across"}
	work := record.Work{Did: "coated", To: []plan.Feature{p.Of}, Changes: []plan.Feature{p.Of}}
	rapid.Check(t, func(t *rapid.T) {
		bodies := recordtest.Setup("past")
		for i := range rapid.IntRange(0, 12).Draw(t, "events") {
			if rapid.IntRange(0, 4).Draw(t, "work") == 0 {
				bodies = append(bodies, work)
				continue
			}
			number := fmt.Sprintf("99.9%02d", 10+i)
			size, err := length.Parse(number, length.MM)
			if err != nil {
				t.Fatal(err)
			}
			bodies = append(bodies, record.Reading{
				Of: p.Of, Level: p.Level, Dir: p.Dir, Set: "t-micro", Keyed: number, Via: record.ViaKeypad, Size: size,
				As:    rapid.SampledFrom([]string{record.First, record.Repeat, record.Replace}).Draw(t, "as"),
				Blind: rapid.IntRange(0, 3).Draw(t, "blind") == 0,
			})
		}
		events, err := recordtest.Seal(recordtest.Events(bodies))
		if err != nil {
			t.Skip(err) // such as a first reading that is blind
		}
		s, err := Replay(events)
		if err != nil {
			t.Fatal(err)
		}
		stage := s.Stage(p.Of)
		var want length.Exact
		if now := s.At(p, stage); len(now) > 0 {
			want = s.standsBefore(p, stage, now[0].N)
		}
		if got := s.replacedFigure(p, stage); got != want {
			t.Fatalf("%v stood before, not %v", want, got)
		}
	})
}

// standsBefore reads a place's past from its beginning up to an event.
func (s *Session) standsBefore(p plan.Place, stage int, end int64) length.Exact {
	var list []length.Exact
	for _, n := range s.spots[p].readings {
		t := s.taken(n, p)
		if n >= end || t.Blind || s.stageOf(p.Of, n) != stage {
			continue
		}
		if t.As != record.Repeat {
			list = nil
		}
		list = append(list, s.SizeOf(t))
	}
	return length.MeanOf(list...)
}
