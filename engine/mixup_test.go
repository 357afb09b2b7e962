package engine_test

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// twoBores have been read; bore 1 is then read again as again says.
func twoBores(t *testing.T, again string) *engine.Session {
	t.Helper()
	bodies := bareSession(t, plan.Default(plan.Inline, 2, false), nil, group(plan.Bore, 3, "across"))
	bodies = append(bodies, read(t, "bore/1", "a/across=3.7502 b/across=3.7505 c/across=3.7512")...)
	bodies = append(bodies, read(t, "bore/2", "a/across=3.7522 b/across=3.7520 c/across=3.7519")...)
	for _, r := range read(t, "bore/1", again) {
		x := r.(record.Reading)
		x.As = record.Replace
		bodies = append(bodies, x)
	}
	return replay(t, bodies)
}

func TestTheWrongHoleIsAskedAbout(t *testing.T) {
	s := twoBores(t, "a/across=3.7522 b/across=3.7520 c/across=3.7520")
	m, ok := s.Mixup(feature(t, "bore/1"))
	if !ok || m.As != feature(t, "bore/2") || !strings.Contains(m.Text, "bore 2") {
		t.Fatalf("%v %+v", ok, m)
	}
	var bodies []record.Body
	for _, e := range s.Events() {
		bodies = append(bodies, e.Body)
	}
	put := replay(t, append(bodies, m.Moved))
	p := plan.Place{Of: feature(t, "bore/1"), Level: "c", Dir: "across"}
	if got := put.Figure(p, 0).Format(1, 4); got != "3.7512" {
		t.Errorf("put right, bore 1 reads %s again, want 3.7512", got)
	}
	p.Of = feature(t, "bore/2")
	if got := put.Figure(p, 0).Format(1, 4); got != "3.7520" {
		t.Errorf("put right, bore 2 reads %s, want 3.7520", got)
	}
}

func TestTheWrongOrderIsAskedAbout(t *testing.T) {
	s := twoBores(t, "a/across=3.7512 b/across=3.7505 c/across=3.7502")
	m, ok := s.Mixup(feature(t, "bore/1"))
	if !ok || m.As != m.Of || m.Moved.Places[0].Level != "c" || !strings.Contains(m.Text, "other end") {
		t.Fatalf("%v %+v", ok, m)
	}
}

func TestReadingAgainIsNoMixup(t *testing.T) {
	for _, again := range []string{
		"a/across=3.7502 b/across=3.7505 c/across=3.7512", // the same
		"a/across=3.7503 b/across=3.7506 c/across=3.7511", // within the noise
		"a/across=3.7522", // not finished
	} {
		if m, ok := twoBores(t, again).Mixup(feature(t, "bore/1")); ok {
			t.Errorf("%s: %s", again, m.Text)
		}
	}
	first := bareSession(t, plan.Default(plan.Inline, 2, false), nil, group(plan.Bore, 3, "across"))
	first = append(first, read(t, "bore/2", "a/across=3.7522 b/across=3.7520 c/across=3.7519")...)
	first = append(first, read(t, "bore/1", "a/across=3.7522 b/across=3.7520 c/across=3.7519")...)
	if m, ok := replay(t, first).Mixup(feature(t, "bore/1")); ok {
		t.Errorf("read for the first time: %s", m.Text)
	}
}
