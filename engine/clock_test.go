package engine_test

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/record"
)

// sealAt seals bodies at the times that clock gives them.
func sealAt(t rapid.TB, bodies []record.Body, clock func(i int) time.Time) []record.Sealed {
	t.Helper()
	var head record.Head
	var out []record.Sealed
	for i, b := range bodies {
		s, err := record.Seal(record.Event{At: clock(i), By: "ek", Body: b}, head)
		if err != nil {
			t.Fatal(err)
		}
		out, head = append(out, s), s.Head
	}
	return out
}

// Whatever the clock says of the same events, put back, jumping or moved from
// zone to zone, they are taken in their sequence: nothing is judged otherwise,
// and the log has them in the same order.
func TestTheClockOrdersNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := acts(t, small(length.MM, ""))
		steady, err := engine.Replay(sealAt(t, bodies, func(i int) time.Time { return day.Add(time.Duration(i) * time.Second) }))
		if err != nil {
			t.Fatal(err)
		}
		wild, err := engine.Replay(sealAt(t, bodies, func(int) time.Time {
			zone := time.FixedZone("", 900*rapid.IntRange(-48, 56).Draw(t, "zone"))
			return day.Add(time.Duration(rapid.IntRange(-100_000, 100_000).Draw(t, "minutes")) * time.Minute).In(zone)
		}))
		if err != nil {
			t.Fatal(err)
		}
		if a, b := engine.Assess(steady).Findings, engine.Assess(wild).Findings; !reflect.DeepEqual(a, b) {
			t.Fatalf("findings differ with the clock:\n%+v\n%+v", a, b)
		}
		sameLog(t, steady.Log(), wild.Log())
		for _, p := range steady.Places() {
			if a, b := steady.Figure(p, steady.Stage(p.Of)), wild.Figure(p, wild.Stage(p.Of)); a.Cmp(b) != 0 {
				t.Fatalf("%s is %v, and %v with another clock", p, a, b)
			}
		}
	})
}

func sameLog(t rapid.TB, a, b []engine.Entry) {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("%d and %d entries", len(a), len(b))
	}
	for i := range a {
		if b[i].N != int64(i)+1 || a[i].N != b[i].N || a[i].Text != b[i].Text || a[i].ReplacedBy != b[i].ReplacedBy || a[i].Live != b[i].Live {
			t.Fatalf("entry %d:\n%+v\n%+v", i+1, a[i], b[i])
		}
	}
}
