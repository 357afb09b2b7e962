package record

import (
	"fmt"
	"reflect"
	"testing"
	"time"
)

// TestStreamKeepsNothing: what is read of a room that is written over afterwards
// is what is read of bytes of its own, whatever came before it.
func TestStreamKeepsNothing(t *testing.T) {
	var bodies []Body
	for _, g := range golden {
		bodies = append(bodies, g.body)
	}
	for i := range 2 * mostTexts { // more than are looked up
		r := reading("a", "across", fmt.Sprintf("67.%03d", i))
		r.Set, r.Despite = fmt.Sprintf("set %d", i%7), fmt.Sprintf("%0*d", i*9, i) // some longer than a room
		bodies = append(bodies, r, Note{Text: r.Keyed})
	}
	s := NewStream(Head{})
	var room []byte
	var head Head
	var got, want []Event
	for i, b := range bodies {
		at := at.In(time.FixedZone("", 900*(i/10%5)))
		sealed, err := Seal(Event{At: at, By: "rk", Body: b}, head)
		if err != nil {
			continue // a body that is only right elsewhere, or too long
		}
		room = append(room[:0], sealed.Bytes...)
		e, err := s.Next(room)
		if err != nil || e.Head != sealed.Head || s.Head() != sealed.Head {
			t.Fatalf("%s is read as %+v, %v", sealed.Bytes, e, err)
		}
		clear(room)
		got, want, head = append(got, e.Event), append(want, sealed.Event), sealed.Head
	}
	if len(got) < 3*mostTexts || !reflect.DeepEqual(got, want) {
		t.Errorf("%d events are read\n%+v\nnot\n%+v", len(got), got, want)
	}
}

// TestStreamStands: after an event that is refused the stream stands where it
// stood.
func TestStreamStands(t *testing.T) {
	lines := linesOf(fiveEvents(t))
	s := NewStream(Head{})
	for i, line := range lines {
		head := s.Head()
		for _, bad := range [][]byte{lines[(i+1)%len(lines)], line[1:], nil} {
			if _, err := s.Next(bad); err == nil || s.Head() != head {
				t.Fatalf("%s is read after %v", bad, head)
			}
		}
		if e, err := s.Next(line); err != nil || e.N != head.N+1 || e.Prev != head.Hash {
			t.Fatalf("%s is read as %+v, %v", line, e, err)
		}
	}
}
