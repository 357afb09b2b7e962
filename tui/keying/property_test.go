package keying_test

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/tui/keying"
)

// judged answers by the text alone, so that every answer comes up: one in three
// is held, and what is no number refused.
func judged(text string, _ bool) gauge.Result {
	switch {
	case strings.ContainsAny(text, "O ") || strings.Count(text, ".") > 1 || strings.Trim(text, "+-.") == "":
		return bad
	case len(text)%3 == 0:
		return slip
	case len(text)%7 == 0:
		return twin
	default:
		return fine
	}
}

func views(t *rapid.T) keying.View {
	v := keying.View{
		HasReading: rapid.Bool().Draw(t, "has reading"),
		Signed:     rapid.Bool().Draw(t, "signed"),
		JustTaken:  rapid.Bool().Draw(t, "just taken"),
		Read:       judged,
	}
	if rapid.Bool().Draw(t, "off") {
		v.Off = map[keying.Item]string{keying.GoForward: "the last place", keying.BackOne: "the first place"}
	}
	return v
}

var anyToken = rapid.Custom(func(t *rapid.T) keying.Token {
	kinds := []keying.Token{digit, digit, point, plus, minus, star, slash, enter, erase, letter, arrow, escape, ctrl, other}
	token := rapid.SampledFrom(kinds).Draw(t, "key")
	token.Burst = rapid.Bool().Draw(t, "burst")
	return token
})

// shown is the state without what is only said about it.
func shown(s keying.State) keying.State {
	s.Arrived, s.Dropped = "", false
	return s
}

func TestRefusedNeverChangesTheState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s keying.State
		for range rapid.IntRange(1, 60).Draw(t, "keys") {
			token, v := anyToken.Draw(t, "token"), views(t)
			next, effects := keying.Step(s, token, v)
			if said := of[keying.Refuse](effects); len(said) > 0 {
				if !reflect.DeepEqual(shown(next), shown(s)) || said[0].Reason == "" {
					t.Fatalf("%+v refused %+v as %+v", s, token, next)
				}
			}
			if s.At == keying.Empty && token.Kind == keying.Enter && (len(effects) != 0 || !reflect.DeepEqual(shown(next), shown(s))) {
				t.Fatalf("Enter did %+v where nothing was keyed: %+v", effects, s)
			}
			s = next
		}
	})
}

// No sequence of digits, point, sign and Enter loses or takes a value that was
// not shown: every character is shown or refused, Enter alone takes, and it
// takes what was shown, all of it.
func TestNothingIsLostOrTakenUnseen(t *testing.T) {
	keys := []keying.Token{digit, {Kind: keying.Digit, Rune: '3'}, point, plus, minus, enter}
	rapid.Check(t, func(t *rapid.T) {
		var s keying.State
		v := views(t)
		for range rapid.IntRange(1, 80).Draw(t, "keys") {
			token := rapid.SampledFrom(keys).Draw(t, "key")
			next, effects := keying.Step(s, token, v)
			takes, refusals, holds := of[keying.Take](effects), of[keying.Refuse](effects), of[keying.Hold](effects)
			switch {
			case len(takes) == 1:
				if token.Kind != keying.Enter || s.At != keying.Typing || takes[0].Text != s.Text || next.Text != "" {
					t.Fatalf("%+v took %+v by %+v", s, takes[0], token)
				}
			case len(holds) == 1:
				if token.Kind != keying.Enter || next.Text != s.Text || next.At != keying.Held {
					t.Fatalf("%+v held as %+v", s, next)
				}
			case len(refusals) == 1 || token.Kind == keying.Enter:
				if next.Text != s.Text {
					t.Fatalf("%+v lost its text by %+v: %+v", s, token, next)
				}
			default:
				if !strings.HasSuffix(next.Text, string(token.Rune)) || bare(next.Text) != bare(s.Text+string(token.Rune)) {
					t.Fatalf("%+v and %c show %q", s, token.Rune, next.Text)
				}
			}
			if v.Read(s.Text, false).Kind == gauge.Refused && len(takes) > 0 {
				t.Fatalf("took %q, which is refused", s.Text)
			}
			s = next
		}
	})
}

// bare is a text without signs, of which there is one at most.
func bare(text string) string { return strings.Map(dropSign, text) }

func dropSign(r rune) rune {
	if r == '+' || r == '-' {
		return -1
	}
	return r
}

// The same keys take the same, whether they come one by one or in bursts. Only a
// value that arrives while something is held, or into a menu that another burst
// opened, is meant to fare worse.
func TestBurstsTakeWhatSingleKeysTake(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := views(t)
		v.Signed, v.JustTaken = true, true
		var single, burst keying.State
		var one, many []keying.Effect
		fast := false
		for range rapid.IntRange(1, 80).Draw(t, "keys") {
			token := anyToken.Draw(t, "token")
			token.Burst = false
			if refusedIn(single, token, v) {
				continue
			}
			single, one = step1(single, token, v, one)
			fast = (fast || rapid.Bool().Draw(t, "burst begins")) && !rapid.Bool().Draw(t, "burst ends")
			token.Burst = fast && burst.At != keying.Held && (burst.At != keying.Menu || burst.Quick)
			burst, many = step1(burst, token, v, many)
		}
		if !reflect.DeepEqual(results(one), results(many)) || single.At != burst.At || single.Text != burst.Text {
			t.Fatalf("singly %+v %+v\nbursts %+v %+v", single, results(one), burst, results(many))
		}
	})
}

// refusedIn reports whether a character would be refused in the midst of a text:
// a hand hears it, and a burst is refused whole.
func refusedIn(s keying.State, t keying.Token, v keying.View) bool {
	next, _ := keying.Step(s, t, v)
	return next.Dropped
}

func step1(s keying.State, t keying.Token, v keying.View, all []keying.Effect) (keying.State, []keying.Effect) {
	s, effects := keying.Step(s, t, v)
	return s, append(all, effects...)
}

// results are the effects that change a session, without how they came.
func results(effects []keying.Effect) []keying.Effect {
	var out []keying.Effect
	for _, e := range effects {
		switch e := e.(type) {
		case keying.Take:
			e.Cable = false
			out = append(out, e)
		case keying.Answer:
			e.Cable = false
			out = append(out, e)
		case keying.Refuse, keying.Bell:
		default:
			out = append(out, e)
		}
	}
	return out
}
