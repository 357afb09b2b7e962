package engine_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// moving are events that put readings to other places, and the same without moves:
// each reading read where it stands at last, a note in place of each move.
type moving struct {
	t             *rapid.T
	moved, direct []record.Body
	readings      []int64
}

func (m *moving) add(b record.Body) {
	if _, is := b.(record.Reading); is {
		m.readings = append(m.readings, int64(len(m.moved))+1)
	}
	m.moved, m.direct = append(m.moved, b), append(m.direct, b)
}

// move puts up to three readings, some of which were moved before, to any places.
func (m *moving) move(s *engine.Session) record.Moved {
	ns := rapid.Permutation(m.readings).Draw(m.t, "readings")
	b := record.Moved{Readings: ns[:rapid.IntRange(1, min(3, len(ns))).Draw(m.t, "moved")]}
	for range b.Readings {
		b.Places = append(b.Places, rapid.SampledFrom(s.Places()[:8]).Draw(m.t, "to"))
	}
	if err := s.Check(b); err != nil {
		m.t.Fatalf("%+v: %v", b, err)
	}
	return b
}

// Moved readings, also those moved again, count as if they had been read where they
// stand, and where they were again once the moves are withdrawn.
func TestMovedReadingsCountWhereTheyStand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setup := small(length.MM, "")
		m := &moving{t: t, moved: slices.Clone(setup), direct: slices.Clone(setup)}
		var moves []int64
		for range rapid.IntRange(2, 12).Draw(t, "events") {
			s := replay(t, m.moved)
			switch rapid.IntRange(0, 5).Draw(t, "event") {
			case 0:
				f := []plan.Feature{{Family: plan.Bore, At: 1}}
				m.add(record.Work{Did: "honed", To: f, Changes: f, Metal: true})
			case 1, 2:
				if len(m.readings) == 0 {
					continue
				}
				b := m.move(s)
				m.moved = append(m.moved, b)
				m.direct = append(m.direct, record.Note{Text: "moved"})
				moves = append(moves, int64(len(m.moved)))
				for i, n := range b.Readings {
					r, _ := m.direct[n-1].(record.Reading)
					r.Of, r.Level, r.Dir = b.Places[i].Of, b.Places[i].Level, b.Places[i].Dir
					m.direct[n-1] = r
				}
			default:
				m.add(aReading(t, s.Places()[:8]))
			}
		}
		sameReadings(t, replay(t, m.moved), replay(t, m.direct))

		unmoved := slices.Clone(m.moved)
		for _, n := range slices.Backward(moves) {
			m.moved = append(m.moved, record.Withdrawn{Event: n})
			unmoved[n-1] = record.Note{Text: "moved"}
		}
		sameReadings(t, replay(t, m.moved), replay(t, unmoved))
	})
}

// aReading draws a reading at one of the places.
func aReading(t *rapid.T, places []plan.Place) record.Reading {
	p := rapid.SampledFrom(places).Draw(t, "place")
	r := record.Reading{
		Of: p.Of, Level: p.Level, Dir: p.Dir, Via: record.ViaFile,
		Size: length.Written{Length: length.Length(rapid.IntRange(81_980, 82_060).Draw(t, "µm")) * length.Micrometre, Unit: length.MM, Places: 3},
		As:   rapid.SampledFrom([]string{record.First, record.Repeat, record.Replace}).Draw(t, "as"),
	}
	r.Keyed = r.Size.Number()
	return r
}

// sameReadings holds two sessions to the same readings at every place, the same last
// one, and findings of the same words.
func sameReadings(t *rapid.T, a, b *engine.Session) {
	t.Helper()
	for _, p := range a.Places() {
		for stage := range a.Stage(p.Of) + 1 {
			if x, y := a.At(p, stage), b.At(p, stage); !slices.Equal(x, y) {
				t.Fatalf("%v, stage %d: %+v, want %+v", p, stage, x, y)
			}
		}
	}
	x, _ := a.Last()
	if y, _ := b.Last(); x != y {
		t.Fatalf("the last reading is %+v, want %+v", x, y)
	}
	words := func(s *engine.Session) (out []string) {
		for _, f := range engine.Assess(s).Findings {
			out = append(out, f.Text)
		}
		return out
	}
	if x, y := words(a), words(b); !slices.Equal(x, y) {
		t.Fatalf("says\n%q\nwant\n%q", x, y)
	}
}
