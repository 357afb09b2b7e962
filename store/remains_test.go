package store

import (
	"bytes"
	"strings"
	"testing"
	"unicode"

	"borewright/engine/plan"
)

// TestRemainsShowNoFigure: whatever byte of an event is changed to whatever, what is
// said of it can be printed, has no figure in it, and never names a place that the
// layout does not have.
func TestRemainsShowNoFigure(t *testing.T) {
	line := []byte(`{"n":63,"v":1,"at":"2026-03-10T15:25:46+01:00","by":"ek","is":"reading","of":"piston/1","level":"a","dir":"across","set":"t-mic4","keyed":"3.7466","via":"keypad","size":"3.7466 in","as":"first","prev":"80u6"}`)
	b := bench{layout: plan.Default(plan.Inline, 4, false)}
	if got, want := remainsOf(line).words(b), "perhaps a reading of piston 1, level a, across, 2026-03-10 15:25"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	for i := range line {
		for to := range 256 {
			bad := bytes.Clone(line)
			bad[i] = byte(to)
			words := remainsOf(bad).words(b)
			if strings.ContainsFunc(words, func(r rune) bool { return !unicode.IsPrint(r) }) || strings.Contains(words, "3.7466") || strings.Contains(words, "piston 5") {
				t.Fatalf("byte %d as %#x: said %q", i, to, words)
			}
		}
	}
	for _, text := range []string{"", "{", `"is":"`, `"is":"reading","of":"`, `"of":"bore/1"`, `"is":"waltz"`} {
		if words := remainsOf([]byte(text)).words(b); strings.Contains(words, "bore") {
			t.Errorf("of %q it says %q", text, words)
		}
	}
}
