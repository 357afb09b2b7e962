package keying_test

import (
	"reflect"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/tui/keying"
)

// every is a state and view of each situation.
func every() map[string]struct {
	s keying.State
	v keying.View
} {
	type both = struct {
		s keying.State
		v keying.View
	}
	read := keying.View{HasReading: true, Reading: "3.7503 in", Signed: true, JustTaken: true, Read: answers(fine)}
	blank := keying.View{Read: answers(fine)}
	return map[string]both{
		"empty":              {keying.State{}, blank},
		"empty, all known":   {keying.State{}, keying.View{Signed: true, JustTaken: true}},
		"revisit":            {keying.State{}, read},
		"repeating":          {keying.State{Repeat: true}, read},
		"typing":             {typing("3.7"), blank},
		"typing, signed":     {typing("3.7"), read},
		"held":               {keying.State{At: keying.Held, Text: "3.7", Held: slip}, blank},
		"menu":               {keying.State{At: keying.Menu}, blank},
		"menu, one off":      {keying.State{At: keying.Menu}, keying.View{Off: map[keying.Item]string{keying.GoForward: "the last place"}}},
		"asked":              {keying.Ask(keying.State{}, keying.Asking{What: "w", Title: "which gauge?"}), blank},
		"asked for a signed": {keying.Ask(keying.State{}, keying.Asking{What: "w", Title: "how warm?", Signed: true}), blank},
	}
}

// What is listed works and what is listed as off is refused for that reason;
// what is not listed is refused or does nothing. So there is one list.
func TestKeysAreWhatStepDoes(t *testing.T) {
	for name, b := range every() {
		listed := map[string]string{}
		for _, k := range keying.Keys(b.s, b.v) {
			if k.Does == "" {
				t.Errorf("%s: %s says nothing", name, k.Key)
			}
			for _, key := range strings.Fields(k.Key) {
				listed[key] = k.Off
			}
		}
		for _, key := range strings.Fields("0-9 . + - * / Enter Backspace 0 1 2 3 4 5 6 7 8 9") {
			off, ok := listed[key]
			if b.s.At != keying.Menu && len(key) == 1 && key[0] >= '0' && key[0] <= '9' || b.s.At == keying.Menu && key == "0-9" {
				continue
			}
			next, effects := keying.Step(b.s, named(key), b.v)
			said := of[keying.Refuse](effects)
			switch {
			case ok && off == "":
				if len(said) != 0 || reflect.DeepEqual(next, b.s) && len(effects) == 0 {
					t.Errorf("%s: %s is listed and does %+v %+v", name, key, next, effects)
				}
			case ok:
				if len(said) != 1 || said[0].Reason != off {
					t.Errorf("%s: %s is off for %q and says %+v", name, key, off, said)
				}
			default:
				if len(said) == 0 && (!reflect.DeepEqual(next, b.s) || len(effects) != 0) {
					t.Errorf("%s: %s is not listed and does %+v %+v", name, key, next, effects)
				}
			}
		}
	}
}

// named returns the token of a key's name.
func named(key string) keying.Token {
	switch key {
	case "0-9":
		return digit
	case "Enter":
		return enter
	case "Backspace":
		return erase
	}
	return tokens(key, false)[0]
}

func TestKeysInWords(t *testing.T) {
	all := every()
	for name, want := range map[string][]keying.KeyHelp{
		"empty": {
			{Key: "0-9 .", Does: "start the number"},
			{Key: "+ -", Does: "start with the sign", Off: noSign},
			{Key: "*", Does: "repeat the place just taken", Off: "nothing was taken just before"},
			{Key: "/", Does: "menu"},
		},
		"revisit": {
			{Key: "0-9 .", Does: "replaces 3.7503 in"},
			{Key: "+ -", Does: "start with the sign"},
			{Key: "*", Does: "add a repeat to 3.7503 in"},
			{Key: "/", Does: "menu"},
		},
		"held": {
			{Key: "*", Does: "keep as keyed"},
			{Key: "/", Does: "clear, same place"},
		},
		"menu, one off": {
			{Key: "1", Does: "leave out"},
			{Key: "2", Does: "forward", Off: "the last place"},
			{Key: "3", Does: "next feature"},
			{Key: "4", Does: "zero check"},
			{Key: "5", Does: "gauge"},
			{Key: "6", Does: "temperature"},
			{Key: "7", Does: "withdraw last"},
			{Key: "8", Does: "go to"},
			{Key: "9", Does: "work done here"},
			{Key: "/", Does: "back one place"},
			{Key: "0 Enter", Does: "close"},
		},
	} {
		if got := keying.Keys(all[name].s, all[name].v); !reflect.DeepEqual(got, want) {
			t.Errorf("%s:\n got %+v\nwant %+v", name, got, want)
		}
	}
}

func TestPromptSaysWhereTheKeyingStands(t *testing.T) {
	all := every()
	for name, want := range map[string]string{
		"empty":     "key the reading",
		"revisit":   "this place reads 3.7503 in: a new number replaces it",
		"repeating": "repeat: the number is added to 3.7503 in",
		"typing":    "keying: nothing is taken before Enter",
		"held":      "HELD: one turn out?",
		"menu":      "menu",
		"asked":     "which gauge?",
	} {
		if got := keying.Prompt(all[name].s, all[name].v); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if got := keying.Prompt(keying.State{Repeat: true}, keying.View{}); got != "repeat: the number is added" {
		t.Errorf("a repeat of nothing shown: %q", got)
	}
}

func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for s := keying.Empty; s <= keying.Asked; s++ {
		if s.String() == "" || seen[s.String()] {
			t.Errorf("situation %d is called %q", s, s)
		}
		seen[s.String()] = true
	}
	beyond := keying.Asked + 1
	if beyond.String() != "" || keying.Item(99).String() != "" || keying.Item(99).Key() != "" {
		t.Error("what is not has a name")
	}
	for _, i := range keying.Items() {
		if i.String() == "" || i.Key() == "" {
			t.Errorf("item %d is called %q on %q", i, i, i.Key())
		}
	}
	if got := len(keying.Items()); got != 11 {
		t.Errorf("%d items, want 0 to 9 and /", got)
	}
	// Tokens made without their character still key it.
	s, _ := run(keying.State{}, []keying.Token{{Kind: keying.Plus}, {Kind: keying.Minus}, {Kind: keying.Point}}, keying.View{Signed: true})
	if s.Text != "-." {
		t.Errorf("keyed %q", s.Text)
	}
	next, effects := keying.Step(keying.State{At: keying.Menu}, keying.Token{Kind: keying.Digit, Rune: 'x'}, keying.View{Read: answers(gauge.Result{})})
	if next.At != keying.Menu || effects != nil {
		t.Errorf("a digit that is none: %+v %+v", next, effects)
	}
}
