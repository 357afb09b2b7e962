// Package enginetest is what tests of the engine's rooms share: sessions made
// of bodies, and drafts begun as sessions. Nothing but tests imports it.
package enginetest

import (
	"strings"
	"time"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/record"
	"borewright/engine/setup"
)

// T is what a test, a benchmark and a property have in common.
type T interface{ Fatal(...any) }

// Day is when everything here happens.
var Day = time.Date(2026, 11, 25, 8, 44, 0, 0, time.FixedZone("", 3600))

// Seal makes bodies the next events of a stream.
func Seal(t T, after []record.Sealed, by string, bodies []record.Body) []record.Sealed {
	out := append([]record.Sealed(nil), after...)
	for _, b := range bodies {
		var head record.Head
		if n := len(out); n > 0 {
			head = out[n-1].Head
		}
		s, err := record.Seal(record.Event{At: Day, By: by, Body: b}, head)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, s)
	}
	return out
}

// Written parses a length with its unit.
func Written(t T, text string) length.Written {
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Mastered gives every comparator of a draft a master of its nominal size.
func Mastered(d setup.Draft) setup.Draft {
	for i := range d.Families {
		if f := &d.Families[i]; f.NeedsMaster() {
			f.SetMaster(gauge.OnRing, f.Nominal)
		}
	}
	return d
}

// Begun replays a draft as a new session.
func Begun(t T, d setup.Draft) *engine.Session {
	bodies, err := d.Events("abc")
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay(Seal(t, nil, d.Initials, bodies))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Changed applies a draft's changes to a session and returns their bodies.
func Changed(t T, s *engine.Session, d setup.Draft) []record.Body {
	bodies, err := d.Changes(s)
	if err != nil {
		t.Fatal(err)
	}
	Apply(t, s, bodies...)
	return bodies
}

// Apply adds bodies to a session, each checked first.
func Apply(t T, s *engine.Session, bodies ...record.Body) {
	for _, b := range bodies {
		if err := s.Check(b); err != nil {
			t.Fatal(err)
		}
		sealed := Seal(t, s.Events(), "ek", []record.Body{b})
		if _, err := s.Apply(sealed[len(sealed)-1]); err != nil {
			t.Fatal(err)
		}
	}
}

// Kinds names the kinds of bodies, in their order.
func Kinds(bodies []record.Body) string {
	var out []string
	for _, b := range bodies {
		out = append(out, string(b.Is()))
	}
	return strings.Join(out, ", ")
}
