package keying_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/tui/keying"
)

func TestArrive(t *testing.T) {
	zero := keying.Asking{What: keying.AskZero, Title: "zero check?", Signed: true}
	for _, c := range []struct {
		name string
		from keying.State
		view keying.View
		next keying.State
		want []keying.Effect
	}{
		{
			"taken where nothing stands",
			keying.State{},
			keying.View{Read: answers(fine)},
			keying.State{},
			[]keying.Effect{keying.Take{Text: "67.018", Result: fine, As: keying.First, Cable: true}},
		},
		{
			"replaces what stands",
			keying.State{},
			keying.View{HasReading: true, Read: answers(fine)},
			keying.State{},
			[]keying.Effect{keying.Take{Text: "67.018", Result: fine, As: keying.Replace, Cable: true}},
		},
		{
			"is the repeat that was awaited",
			keying.State{Repeat: true},
			keying.View{HasReading: true, Read: answers(fine)},
			keying.State{},
			[]keying.Effect{keying.Take{Text: "67.018", Result: fine, As: keying.Repeat, Cable: true}},
		},
		{
			"held",
			keying.State{},
			keying.View{Read: answers(slip)},
			keying.State{At: keying.Held, Text: "67.018", Held: slip, Cable: true},
			[]keying.Effect{keying.Hold{Result: slip}, keying.Bell{Times: 2}},
		},
		{"no reading", keying.State{}, keying.View{Read: answers(bad)}, keying.State{}, refused("a point alone is no number")},
		{
			"answers a zero check",
			keying.State{Asking: zero},
			keying.View{Read: answers(fine)},
			keying.State{},
			[]keying.Effect{keying.Answer{What: keying.AskZero, Text: "67.018", Result: fine, Cable: true}},
		},
		{
			"answers no other question",
			keying.State{Asking: keying.Asking{What: keying.AskGoTo}},
			keying.View{Read: answers(fine)},
			keying.State{Asking: keying.Asking{What: keying.AskGoTo}},
			refused("67.018 arrived while something else is asked for: not taken"),
		},
		{
			"while a number is keyed",
			keying.State{At: keying.Typing, Text: "67."},
			keying.View{Read: answers(fine)},
			keying.State{At: keying.Typing, Text: "67."},
			refused("67.018 arrived while a number is being keyed: not taken"),
		},
		{
			"while one is held",
			keying.State{At: keying.Held, Text: "76", Held: slip},
			keying.View{Read: answers(fine)},
			keying.State{At: keying.Held, Text: "76", Held: slip},
			refused("67.018 arrived while this is held: not taken"),
		},
		{
			"while the menu is open",
			keying.State{At: keying.Menu},
			keying.View{Read: answers(fine)},
			keying.State{At: keying.Menu},
			refused("67.018 arrived while the menu is open: not taken"),
		},
	} {
		next, got := keying.Arrive(c.from, "67.018", c.view, keying.AskZero)
		if !reflect.DeepEqual(next, c.next) || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v %v, want %+v %v", c.name, next, got, c.next, c.want)
		}
	}
}

// Whatever arrives, it never joins what a hand is keying.
func TestArriveLeavesTheHandAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := keying.State{
			At:   keying.Situation(rapid.IntRange(int(keying.Empty), int(keying.Menu)).Draw(t, "at")),
			Text: rapid.StringN(0, 8, -1).Draw(t, "text"),
		}
		view := keying.View{Read: answers(rapid.SampledFrom([]gauge.Result{fine, slip, bad}).Draw(t, "read"))}
		text := rapid.StringN(1, 30, -1).Draw(t, "arrives")
		next, _ := keying.Arrive(from, text, view)
		if from.At != keying.Empty && !reflect.DeepEqual(next, from) {
			t.Errorf("%+v became %+v", from, next)
		}
		if next.At == keying.Typing && from.At != keying.Typing {
			t.Errorf("%q is being keyed", text)
		}
	})
}
