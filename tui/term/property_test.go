package term

import (
	"slices"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"
)

// split gives every character of a typed run a message of its own. A message
// with alt is one character already.
func split(msgs []tea.KeyMsg) []tea.KeyMsg {
	var out []tea.KeyMsg
	for _, m := range msgs {
		if m.Type != tea.KeyRunes || m.Paste || m.Alt {
			out = append(out, m)
			continue
		}
		for _, r := range m.Runes {
			out = append(out, runes(string(r)))
		}
	}
	return out
}

// regroup joins neighbouring runs where together says so.
func regroup(msgs []tea.KeyMsg, together func() bool) []tea.KeyMsg {
	var out []tea.KeyMsg
	for _, m := range msgs {
		if n := len(out) - 1; n >= 0 && isRun(out[n]) && isRun(m) && together() {
			out[n].Runes = append(slices.Clone(out[n].Runes), m.Runes...)
			continue
		}
		out = append(out, m)
	}
	return out
}

func isRun(m tea.KeyMsg) bool {
	return m.Type == tea.KeyRunes && !m.Alt && !m.Paste
}

// typedRune is what a keyboard or a cable sends, and some that nobody should.
func typedRune() *rapid.Generator[rune] {
	return rapid.OneOf(
		rapid.SampledFrom([]rune("0123456789.,+-−*/")),
		rapid.SampledFrom([]rune("OMpqrstuvwxynklmjoXHFEabc")),
		rapid.SampledFrom([]rune{0, 1, 0x1f, 0x7f, 0x85, '\u200b', '\u00a0'}),
		rapid.Rune(),
	)
}

func message() *rapid.Generator[tea.KeyMsg] {
	return rapid.Custom(func(t *rapid.T) tea.KeyMsg {
		switch rapid.IntRange(0, 5).Draw(t, "sort") {
		case 0:
			return altO
		case 1:
			return altRune(typedRune().Draw(t, "alt"))
		case 2:
			return tea.KeyMsg{
				Type: tea.KeyType(rapid.IntRange(int(tea.KeyF20), 31).Filter(func(k int) bool { return k != int(tea.KeyRunes) }).Draw(t, "key")),
				Alt:  rapid.Bool().Draw(t, "with alt"),
			}
		case 3:
			return paste(rapid.StringOf(rapid.OneOf(typedRune(), rapid.SampledFrom([]rune("\r\n")))).Draw(t, "paste"))
		default:
			return runes(string(rapid.SliceOfN(typedRune(), 1, 6).Draw(t, "run")))
		}
	})
}

// How the input fell into messages does not show in the tokens.
func TestGroupingDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		msgs := rapid.SliceOfN(message(), 0, 20).Draw(t, "messages")
		one := split(msgs)
		other := regroup(one, func() bool { return rapid.Bool().Draw(t, "together") })
		want := decode(one...)
		if got := decode(other...); !slices.Equal(got, want) {
			t.Fatalf("%v: %s\n%v: %s", other, show(got), one, show(want))
		}
		if got := decode(msgs...); !slices.Equal(got, want) {
			t.Fatalf("%v: %s\n%v: %s", msgs, show(got), one, show(want))
		}
	})
}

// A typed number and its Enter give the same tokens by every road: typed,
// pasted, or from a keypad in application mode, and with every line end.
func TestEveryRoadGivesTheSameNumber(t *testing.T) {
	keypadLetter := map[rune]rune{}
	for letter, tok := range keypad {
		if tok.Kind.Character() {
			keypadLetter[tok.Rune] = letter
		}
	}
	ends := map[string][]tea.KeyMsg{
		"CR": {enter}, "LF": {lf}, "CR LF": {enter, lf}, "keypad": {altO, runes("M")},
		"pasted CR LF": {paste("\r\n")}, "pasted LF": {paste("\n")},
	}
	names := []string{"CR", "LF", "CR LF", "keypad", "pasted CR LF", "pasted LF"}
	rapid.Check(t, func(t *rapid.T) {
		var plainRoad, road []tea.KeyMsg
		for range rapid.IntRange(1, 4).Draw(t, "values") {
			text := rapid.StringMatching(`[+-]?[0-9]{1,4}(\.[0-9]{1,4})?`).Draw(t, "text")
			plainRoad = append(plainRoad, runes(text), enter)
			for _, r := range text {
				switch rapid.SampledFrom([]string{"typed", "keypad", "pasted"}).Draw(t, "road") {
				case "keypad":
					road = append(road, altO, runes(string(keypadLetter[r])))
				case "pasted":
					road = append(road, paste(string(r)))
				default:
					road = append(road, runes(string(r)))
				}
			}
			road = append(road, ends[rapid.SampledFrom(names).Draw(t, "end")]...)
		}
		road = regroup(road, func() bool { return rapid.Bool().Draw(t, "together") })
		if got, want := decode(road...), decode(plainRoad...); !slices.Equal(got, want) {
			t.Fatalf("%v: %s\nwant %s", road, show(got), show(want))
		}
	})
}
