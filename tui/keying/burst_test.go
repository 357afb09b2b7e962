package keying_test

import (
	"reflect"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/tui/keying"
)

// tokens turns text into tokens; '\r' is Enter and '<' backspace. Each is marked
// as part of a burst when burst is set.
func tokens(text string, burst bool) []keying.Token {
	var out []keying.Token
	for _, r := range text {
		t := keying.Token{Kind: keying.Text, Rune: r, Burst: burst}
		switch {
		case r >= '0' && r <= '9':
			t.Kind = keying.Digit
		case r == '.' || r == ',':
			t.Kind = keying.Point
		case r == '+':
			t.Kind = keying.Plus
		case r == '-' || r == '\u2212':
			t.Kind = keying.Minus
		case r == '*':
			t.Kind = keying.Star
		case r == '/':
			t.Kind = keying.Slash
		case r == '\r':
			t.Kind, t.Rune = keying.Enter, 0
		case r == '<':
			t.Kind, t.Rune = keying.Erase, 0
		}
		out = append(out, t)
	}
	return out
}

// wedge is text as a cable sends it through the keyboard: only its Enter is
// known to have come in a burst.
func wedge(text string) []keying.Token {
	out := tokens(text, false)
	out[len(out)-1].Burst = true
	return out
}

// run feeds tokens one after another and gathers the effects.
func run(s keying.State, ts []keying.Token, v keying.View) (keying.State, []keying.Effect) {
	var all []keying.Effect
	for _, t := range ts {
		var effects []keying.Effect
		s, effects = keying.Step(s, t, v)
		all = append(all, effects...)
	}
	return s, all
}

// of gathers the effects of one kind.
func of[E keying.Effect](effects []keying.Effect) []E {
	var out []E
	for _, e := range effects {
		if x, ok := e.(E); ok {
			out = append(out, x)
		}
	}
	return out
}

func TestAValueThatArrivesWhileHeldIsShownNotTaken(t *testing.T) {
	held := keying.State{At: keying.Held, Text: "67.518", Held: slip}
	for name, ts := range map[string][]keying.Token{
		"through the keyboard": wedge("3.7504\r"), "from the cable": tokens("3.7504\r", true),
		"a sign first": tokens("-3.7504\r", true)[1:], "commands in it": tokens("3.7504*/\r", true),
	} {
		next, effects := run(held, ts, keying.View{Read: answers(fine)})
		if !reflect.DeepEqual(next, held) {
			t.Errorf("%s: the state became %+v", name, next)
		}
		if n := len(of[keying.Take](effects)); n != 0 {
			t.Errorf("%s: %d taken", name, n)
		}
		said := of[keying.Refuse](effects)
		want := "3.7504 arrived while this is held: not taken"
		if name == "commands in it" {
			want = "3.7504*/ arrived while this is held: not taken"
		}
		if last := said[len(said)-1].Reason; last != want {
			t.Errorf("%s: says %q", name, last)
		}
		if bells := len(of[keying.Bell](effects)); bells == 0 || name == "from the cable" && bells != 2 {
			t.Errorf("%s: rings %d times", name, bells)
		}
	}
}

func TestAnEndlessLineThatArrivesIsNotGatheredForEver(t *testing.T) {
	held := keying.State{At: keying.Held, Text: "1", Held: slip}
	next, _ := run(held, tokens(strings.Repeat("7", 10_000), true), keying.View{})
	if len(next.Arrived) != 2*gauge.Longest {
		t.Errorf("gathered %d characters", len(next.Arrived))
	}
}

func TestAValueThatArrivesWhileTheMenuIsOpenChoosesNothing(t *testing.T) {
	menu, _ := run(keying.State{}, tokens("/", false), keying.View{})
	next, effects := run(menu, tokens("3.7504\r", true), keying.View{Read: answers(fine)})
	if next.At != keying.Menu || len(of[keying.NextFeature](effects)) != 0 || len(of[keying.Take](effects)) != 0 {
		t.Errorf("%+v %+v", next, effects)
	}
	said := of[keying.Refuse](effects)
	if last := said[len(said)-1].Reason; last != "3.7504 arrived while the menu is open: not taken" {
		t.Errorf("says %q", last)
	}
	if next, effects = run(next, tokens("1", false), keying.View{}); next.At != keying.Empty || len(of[keying.LeaveOut](effects)) != 1 {
		t.Errorf("then 1: %+v %+v", next, effects)
	}
}

func TestACommandWorksInOneBurst(t *testing.T) {
	for _, burst := range []bool{false, true} {
		next, effects := run(keying.State{}, tokens("/1", burst), keying.View{})
		if !reflect.DeepEqual(next, keying.State{}) || !reflect.DeepEqual(effects, []keying.Effect{keying.LeaveOut{}}) {
			t.Errorf("burst %v: %+v %+v", burst, next, effects)
		}
	}
	_, effects := run(keying.State{}, tokens("/63.5\r", true), keying.View{})
	if a := of[keying.Answer](effects); len(a) != 1 || a[0].What != keying.AskTemperature || a[0].Text != "3.5" || len(of[keying.Take](effects)) != 0 {
		t.Errorf("an item that asks, and its answer: %+v", effects)
	}
}

func TestABurstWithACharacterRefusedIsNotTaken(t *testing.T) {
	v := keying.View{Read: answers(fine)}
	for _, text := range []string{"-3.7503\r", "3.75-03\r", "3.7*503\r"} {
		next, effects := run(keying.State{}, wedge(text), v)
		if len(of[keying.Take](effects)) != 0 || next.At != keying.Typing {
			t.Errorf("%q: %+v %+v", text, next, effects)
		}
		if next, effects = run(next, wedge("/3.7503\r"), v); len(of[keying.Take](effects)) != 1 || next.Dropped {
			t.Errorf("%q, then cleared: %+v %+v", text, next, effects)
		}
	}
	// By hand the refusal was heard, and what is shown is taken.
	if _, effects := run(keying.State{}, tokens("-3.7503\r", false), v); len(of[keying.Take](effects)) != 1 {
		t.Errorf("by hand: %+v", effects)
	}
}

func TestATextTooLongIsRefusedNotCut(t *testing.T) {
	for _, text := range []string{strings.Repeat("3", 300), strings.Repeat(" ", 22) + "3.7503"} {
		next, effects := run(keying.State{}, tokens(text+"\r", true), keying.View{Read: answers(fine)})
		if len(of[keying.Take](effects)) != 0 || next.At != keying.Typing || len(next.Text) != gauge.Longest+1 {
			t.Errorf("%d characters: %+v", len(text), next)
		}
	}
	exact := strings.Repeat("3", gauge.Longest)
	if _, effects := run(keying.State{}, tokens(exact+"\r", true), keying.View{Read: answers(fine)}); len(of[keying.Take](effects)) != 1 {
		t.Errorf("the longest text: %+v", effects)
	}
}

func TestTheSignIsSetFirstOrLast(t *testing.T) {
	v := keying.View{Signed: true}
	for keys, want := range map[string]string{
		"+3": "+3", "3-": "3-", "+3-": "3-", "3+-": "3-", "+-3": "-3", "-+-": "-", "3-4": "3-4", "\u22123+": "3+",
	} {
		if s, _ := run(keying.State{}, tokens(keys, false), v); s.Text != want {
			t.Errorf("%q keys %q, want %q", keys, s.Text, want)
		}
	}
}

func TestBackspaceRemovesOneCharacter(t *testing.T) {
	s, _ := run(keying.State{Repeat: true}, tokens("\u22123<", false), keying.View{Signed: true})
	if s.Text != "\u2212" || s.At != keying.Typing {
		t.Errorf("one: %+v", s)
	}
	if s, _ = run(s, tokens("<", false), keying.View{}); !reflect.DeepEqual(s, keying.State{Repeat: true}) {
		t.Errorf("all: %+v", s)
	}
}

// The machine with a real gauge behind it: what a morning at the bench keys.
func TestWithAGauge(t *testing.T) {
	c := gauge.Context{
		Instrument: gauge.Instrument{
			Kind: gauge.Direct, Unit: length.MM,
			Graduation: length.Written{Length: length.Micrometre, Unit: length.MM, Places: 3},
		},
		Nominal: length.Written{Length: 67 * length.Millimetre, Unit: length.MM},
	}
	v := keying.View{Read: func(text string, cable bool) gauge.Result {
		c := c
		c.Cable = cable
		return gauge.Read(text, c)
	}}
	for _, tt := range []struct {
		keys    string
		full    bool
		taken   string
		despite bool
	}{
		{"67.018\r", false, "67.018 mm", false},
		{"018\r", true, "67.018 mm", false},
		{"018\r", false, "", false},
		{"67.518\r", false, "", false},
		{"67.518\r*", false, "67.518 mm", true},
		{"67.518\r/67.018\r", false, "67.018 mm", false},
		{"67.518\r\r\r5", false, "", false},
		{".\r", false, "", false},
		{"\r\r\r", true, "", false},
	} {
		c.FullSeen = tt.full
		_, effects := run(keying.State{}, tokens(tt.keys, false), v)
		got, despite := "", false
		for _, take := range of[keying.Take](effects) {
			got, despite = take.Result.Meaning.Size.String(), take.Despite != ""
		}
		if got != tt.taken || despite != tt.despite {
			t.Errorf("%q takes %q (despite %v), want %q", tt.keys, got, despite, tt.taken)
		}
	}
}
