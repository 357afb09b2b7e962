package recordtest

import (
	"fmt"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Day is when the events of this package begin.
var Day = time.Date(2026, 3, 2, 8, 0, 0, 0, time.FixedZone("", 3600))

// Read returns n readings of the session that Setup begins, place after place
// and round after round. The first round's are first readings; those of round r
// are as after(r) says, record.Repeat or record.Replace.
func Read(n int, after func(round int) string) []record.Body {
	places := plan.Plan{Families: groups()}.All(plan.Default(plan.Vee, 8, true))
	out := make([]record.Body, n)
	for i := range out {
		round := i / len(places)
		r := reading(places[i%len(places)], i)
		if r.As = record.First; round > 0 {
			r.As = after(round)
		}
		out[i] = r
	}
	return out
}

// Repeats makes every later round a repeat.
func Repeats(int) string { return record.Repeat }

// Turns makes the later rounds replace and repeat in turns, so that two readings
// stand at every place at most.
func Turns(round int) string {
	if round%2 == 1 {
		return record.Repeat
	}
	return record.Replace
}

// Long returns the bodies of a session of exactly n events whose bores were
// honed at last, so that they are to be read again.
func Long(uid string, n int) []record.Body {
	out := Setup(uid)
	out = append(out, Read(n-1-len(out), Turns)...)
	return append(out, Honed())
}

// Honed says that all eight bores were honed.
func Honed() record.Work {
	w := record.Work{Did: "honed", Metal: true}
	for at := range 8 {
		w.To = append(w.To, plan.Feature{Family: plan.Bore, At: at + 1})
	}
	w.Changes = w.To
	return w
}

// reading is the i-th reading of a session: near the middle of the limits, and
// never twice the same in a row.
func reading(p plan.Place, i int) record.Reading {
	r := record.Reading{Of: p.Of, Level: p.Level, Dir: p.Dir, Via: record.ViaKeypad}
	off := length.Length(i*7%5) * length.Micrometre
	size := func(base string, set string) {
		w := mm(base)
		w.Length, w.Places = w.Length+off, 3
		r.Size, r.Set, r.Keyed = w, set, w.Number()
	}
	switch p.Of.Family {
	case plan.Bore:
		grads := 5 + i*7%3
		r.Set, r.Keyed = "t-"+dial, fmt.Sprintf("+%d", grads)
		r.Dev = length.Written{Length: length.Length(2*grads) * length.Micrometre, Unit: length.MM, Places: 3}
	case plan.Piston:
		size("99.950", "t-"+micro)
	case plan.MainBearing:
		size("64.050", "t-"+inside)
	case plan.MainJournal:
		size("64.000", "t-"+micro)
	case plan.RodBearing:
		size("54.050", "t-"+inside)
	case plan.RodJournal:
		size("54.000", "t-"+micro)
	case plan.EndPlay:
		size("0.150", "t-"+feeler)
	default:
		size("0.400", "t-"+feeler)
	}
	return r
}

// Events gives the bodies their times, a second apart, and the initials "ek".
func Events(bodies []record.Body) []record.Event {
	out := make([]record.Event, len(bodies))
	for i, b := range bodies {
		out[i] = record.Event{At: Day.Add(time.Duration(i) * time.Second), By: "ek", Body: b}
	}
	return out
}

// Seal seals events from the first of a session on.
func Seal(events []record.Event) ([]record.Sealed, error) {
	var head record.Head
	out := make([]record.Sealed, len(events))
	for i, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			return nil, err
		}
		out[i], head = s, s.Head
	}
	return out, nil
}
