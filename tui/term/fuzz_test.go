package term

import (
	"slices"
	"testing"
	"time"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
)

// messagesOf makes key messages of any text: U+E000 to U+E0FF are the keys
// −128 to 127, U+E100 puts alt on what follows, U+E200 makes the next run a
// paste, everything else is a typed character and goes to the run before it.
func messagesOf(s string) []tea.KeyMsg {
	var out []tea.KeyMsg
	alt, pasted, open := false, false, false
	for _, r := range s {
		switch {
		case r >= 0xE000 && r <= 0xE0FF && r != 0xE000+128+rune(tea.KeyRunes):
			out = append(out, tea.KeyMsg{Type: tea.KeyType(r - 0xE000 - 128), Alt: alt})
			alt, open = false, false
		case r == 0xE100:
			alt, open = true, false
		case r == 0xE200:
			pasted, open = true, false
		case open:
			out[len(out)-1].Runes = append(out[len(out)-1].Runes, r)
		default:
			out = append(out, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: alt, Paste: pasted})
			open = !alt
			alt, pasted = false, false
		}
	}
	return out
}

func FuzzDecoder(f *testing.F) {
	for _, s := range []string{
		"", "12.345\r\n", "\ue100OM123\ue08d\ue08a", "\ue200\x1b[A\r\n2,5\ue100O", "\ue1005\ue09b−3\ue100O\ue100OM", "\x00\u202e\ue080",
	} {
		f.Add(s, uint8(3))
	}
	f.Fuzz(func(t *testing.T, s string, pace uint8) {
		msgs := messagesOf(s)
		if got, want := decode(split(msgs)...), decode(msgs...); !slices.Equal(got, want) {
			t.Errorf("split: %s\nwhole: %s", show(got), show(want))
		}
		var d Decoder
		at := noon
		for _, m := range msgs {
			at = at.Add(time.Duration(pace) * time.Millisecond)
			for _, tok := range d.Decode(m, at) {
				checkToken(t, tok, at)
			}
		}
	})
}

// checkToken is what holds of every token whatever came in.
func checkToken(t *testing.T, tok Token, at time.Time) {
	t.Helper()
	if tok.Kind.Character() != (tok.Rune != 0) {
		t.Errorf("%v has the rune %q", tok.Kind, tok.Rune)
	}
	if tok.Rune != 0 && !unicode.IsPrint(tok.Rune) {
		t.Errorf("rune %q cannot be drawn", tok.Rune)
	}
	if tok.Kind == Digit && (tok.Rune < '0' || tok.Rune > '9') {
		t.Errorf("digit %q", tok.Rune)
	}
	if named := tok.Kind == Navigation || tok.Kind == Control; named != (tok.Name != "") && tok.Kind != Unknown {
		t.Errorf("%v has the name %q", tok.Kind, tok.Name)
	}
	etx := tok.Kind == Control && tok.Name == "ctrl+c"
	if tok.Burst && tok.Kind != Enter && tok.Kind != Tab && !etx {
		t.Errorf("a %v ends a burst", tok.Kind)
	}
	if tok.At.After(at) || tok.At.Before(noon) {
		t.Errorf("%v came at %v, decoded at %v", tok.Kind, tok.At, at)
	}
}
