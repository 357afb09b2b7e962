package term

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// noon is the moment at which nearly all keys of these tests arrive.
var noon = time.Date(2001, 2, 3, 12, 0, 0, 0, time.UTC)

// show writes tokens in a row: characters as the first two letters of their
// kind and the character (a space as '_'), keys by kind or by name, and "!"
// for the end of a burst.
func show(tokens []Token) string {
	var parts []string
	for _, t := range tokens {
		s := t.Kind.String()
		switch {
		case t.Rune == ' ':
			s = "te:_"
		case t.Kind.Character():
			s = fmt.Sprintf("%s:%c", s[:2], t.Rune)
		case t.Name != "":
			s = fmt.Sprintf("%s:%s", s[:3], t.Name)
		}
		if t.Burst {
			s += "!"
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " ")
}

func runes(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
func altRune(r rune) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: true} }

func paste(s string) tea.KeyMsg    { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Paste: true} }
func key(k tea.KeyType) tea.KeyMsg { return tea.KeyMsg{Type: k} }
func altKey(k tea.KeyType) tea.KeyMsg {
	return tea.KeyMsg{Type: k, Alt: true}
}

var (
	enter = key(tea.KeyEnter)
	lf    = key(tea.KeyCtrlJ)
	altO  = altRune('O')
)

func decode(msgs ...tea.KeyMsg) []Token {
	var d Decoder
	var out []Token
	for _, m := range msgs {
		out = append(out, d.Decode(m, noon)...)
	}
	return out
}

func TestDecode(t *testing.T) {
	tests := []struct {
		name string
		msgs []tea.KeyMsg
		want string
	}{
		{"a run is split", []tea.KeyMsg{runes("4.03")}, "di:4 po:. di:0 di:3"},
		{"operators", []tea.KeyMsg{runes("+-*/")}, "pl:+ mi:- st:* sl:/"},
		{"decimal comma", []tea.KeyMsg{runes("3,5")}, "di:3 po:, di:5"},
		{"U+2212", []tea.KeyMsg{runes("−2")}, "mi:− di:2"},
		{"words", []tea.KeyMsg{runes("ölµ")}, "te:ö te:l te:µ"},
		{"digits of other scripts are no digits", []tea.KeyMsg{runes("٣3")}, "te:٣ di:3"},
		{"space", []tea.KeyMsg{{Type: tea.KeySpace, Runes: []rune{' '}}, key(tea.KeySpace)}, "te:_ te:_"},
		{"spaces of other widths", []tea.KeyMsg{runes("1\u00a0\u20032")}, "di:1 te:_ te:_ di:2"},
		{"NUL", []tea.KeyMsg{runes("\x00"), key(tea.KeyNull), altKey(tea.KeyNull), runes("1\x002")}, "di:1 di:2"},
		{"control characters in a run", []tea.KeyMsg{runes("1\x02\x1b\x7f\u009b2")}, "di:1 di:2"},
		{"shapeless characters", []tea.KeyMsg{runes("1\u202e\u200b\ufeff2")}, "di:1 di:2"},

		{"return", []tea.KeyMsg{enter, enter}, "enter enter"},
		{"line feed", []tea.KeyMsg{lf, lf}, "enter enter"},
		{"CR LF", []tea.KeyMsg{enter, lf}, "enter"},
		{"CR LF LF", []tea.KeyMsg{enter, lf, lf}, "enter enter"},
		{"LF CR", []tea.KeyMsg{lf, enter}, "enter enter"},
		{"CR 1 LF", []tea.KeyMsg{enter, runes("1"), lf}, "enter di:1 enter"},
		{"CR arrow LF", []tea.KeyMsg{enter, key(tea.KeyUp), lf}, "enter nav:up enter"},
		{"CR NUL LF", []tea.KeyMsg{enter, key(tea.KeyNull), lf}, "enter"},
		{"tab", []tea.KeyMsg{key(tea.KeyTab), key(tea.KeyShiftTab)}, "tab shift+tab"},
		{"erase", []tea.KeyMsg{key(tea.KeyBackspace), key(tea.KeyCtrlH), altKey(tea.KeyBackspace)}, "erase erase erase"},
		{"escape", []tea.KeyMsg{key(tea.KeyEscape), altKey(tea.KeyEscape)}, "escape escape escape"},
		{"framing of a gauge", []tea.KeyMsg{key(tea.KeyCtrlB), runes("7"), key(tea.KeyCtrlC)}, "con:ctrl+b di:7 con:ctrl+c"},
		{"ctrl+\\", []tea.KeyMsg{key(tea.KeyCtrlBackslash), key(tea.KeyCtrlUnderscore)}, `con:ctrl+\ con:ctrl+_`},
		{"function keys", []tea.KeyMsg{key(tea.KeyF1), key(tea.KeyF20)}, "unk:f1 unk:f20"},
		{"a key of a later version", []tea.KeyMsg{key(-999)}, "unknown"},

		{"keypad Enter", []tea.KeyMsg{altO, runes("M")}, "enter"},
		{"keypad Enter and more", []tea.KeyMsg{altO, runes("M123")}, "enter di:1 di:2 di:3"},
		{"keypad digits", []tea.KeyMsg{altO, runes("p"), altO, runes("y")}, "di:0 di:9"},
		{"keypad and LF", []tea.KeyMsg{altO, runes("M"), lf}, "enter enter"},
		{"an O that is no keypad key", []tea.KeyMsg{altO, runes("z")}, "te:O te:z"},
		{"an O and a key", []tea.KeyMsg{altO, enter}, "te:O enter"},
		{"an O and a space", []tea.KeyMsg{altO, key(tea.KeySpace)}, "te:O te:_"},
		{"an O and an arrow", []tea.KeyMsg{altO, key(tea.KeyUp), runes("M")}, "te:O nav:up te:M"},
		{"two of them", []tea.KeyMsg{altO, altO, runes("M")}, "te:O enter"},
		{"an O and alt+M", []tea.KeyMsg{altO, altRune('M')}, "te:O te:M"},
		{"an O and a paste", []tea.KeyMsg{altO, paste("M1")}, "te:O te:M di:1"},
		{"an O and NUL and M", []tea.KeyMsg{altO, runes("\x00"), key(tea.KeyNull), runes("M")}, "enter"},
		{"typed OM", []tea.KeyMsg{runes("OM"), runes("O"), runes("M")}, "te:O te:M te:O te:M"},

		{"escape glued to a digit", []tea.KeyMsg{altRune('5')}, "escape di:5"},
		{"escape glued to an operator", []tea.KeyMsg{altRune('/'), altRune('.')}, "escape sl:/ escape po:."},
		{"escape glued to Enter", []tea.KeyMsg{altKey(tea.KeyEnter), lf}, "escape enter"},
		{"alt and a letter", []tea.KeyMsg{altRune('x'), altRune(' ')}, "te:x te:_"},
		{"alt and an arrow", []tea.KeyMsg{altKey(tea.KeyUp), altKey(tea.KeyDelete)}, "nav:up nav:delete"},
		{"alt and ctrl", []tea.KeyMsg{altKey(tea.KeyCtrlC)}, "con:ctrl+c"},

		{"paste with LF", []tea.KeyMsg{paste("12.3\n")}, "di:1 di:2 po:. di:3 enter!"},
		{"paste with CR LF", []tea.KeyMsg{paste("1\r\n2\r3\n\n")}, "di:1 enter di:2 enter di:3 enter enter"},
		{"paste that ends inside CR LF", []tea.KeyMsg{paste("1\r"), lf}, "di:1 enter"},
		{"paste with escapes", []tea.KeyMsg{paste("\x1b[A\t5")}, "te:[ te:A di:5"},
		{"empty paste", []tea.KeyMsg{paste(""), runes("")}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := show(decode(tt.msgs...)); got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

// The application keypad after DEC STD 070 and the terminals' own tables.
func TestKeypadTable(t *testing.T) {
	const letters = "pqrstuvwxynklmjoX"
	const plainKeys = "0123456789.++-*/="
	for i, r := range letters {
		got := decode(altO, runes(string(r)))
		want := decode(runes(plainKeys[i : i+1]))
		if !slices.Equal(got, want) {
			t.Errorf("ESC O %c: %s, want %s", r, show(got), show(want))
		}
	}
	for r, name := range map[rune]string{'H': NavHome, 'F': NavEnd, 'E': NavMiddle} {
		if got := show(decode(altO, runes(string(r)))); got != "nav:"+name {
			t.Errorf("ESC O %c: %s, want %s", r, got, name)
		}
	}
}

// Every key of Bubble Tea that is no character, with a name that tells how it
// should be taken.
func TestSpecialKeys(t *testing.T) {
	moves := []string{NavUp, NavDown, NavLeft, NavRight, NavHome, NavEnd, NavPageUp, NavPageDown, NavInsert, NavDelete}
	for k := tea.KeyF20; k <= tea.KeyCtrlQuestionMark; k++ {
		name := k.String()
		if name == "" || k == tea.KeyRunes || k == tea.KeySpace || k == tea.KeyNull {
			continue
		}
		got := decode(key(k))
		if len(got) != 1 {
			t.Errorf("%s: %d tokens, want 1", name, len(got))
			continue
		}
		bare := name[strings.LastIndex(name, "+")+1:]
		switch {
		case slices.Contains(moves, bare):
			if got[0].Kind != Navigation || got[0].Name != bare {
				t.Errorf("%s: %s, want %s", name, show(got), bare)
			}
		case name[0] == 'f':
			if got[0].Kind != Unknown || got[0].Name != name {
				t.Errorf("%s: %s, want unknown", name, show(got))
			}
		case got[0].Kind == Unknown || got[0].Kind.Character():
			t.Errorf("%s: %s", name, show(got))
		}
	}
}

// timed feeds messages, each so many milliseconds after the one before.
func timed(steps ...any) []Token {
	var d Decoder
	var out []Token
	at := noon
	for _, s := range steps {
		switch s := s.(type) {
		case int:
			at = at.Add(time.Duration(s) * time.Millisecond)
		case tea.KeyMsg:
			out = append(out, d.Decode(s, at)...)
		}
	}
	return out
}

func TestBurst(t *testing.T) {
	one := runes("1")
	tab := key(tea.KeyTab)
	tests := []struct {
		name  string
		steps []any
		want  bool // of the last token
	}{
		{"one message", []any{runes("12.345"), enter}, true},
		{"ended by LF", []any{runes("12.345"), lf}, true},
		{"ended by a tab", []any{runes("12.345"), tab}, true},
		{"ended by a keypad Enter", []any{runes("12.345"), altO, runes("M")}, true},
		{"ended by shift+tab", []any{runes("12.345"), key(tea.KeyShiftTab)}, false},
		{"three and Enter", []any{runes("123"), enter}, true},
		{"two and Enter", []any{runes("12"), enter}, false},
		{"Enter alone", []any{enter}, false},
		{"one by one in 30 ms", []any{one, 10, one, 10, one, 10, enter}, true},
		{"one by one in 31 ms", []any{one, 10, one, 10, one, 11, enter}, false},
		{"a long line at that pace", []any{one, 10, one, 10, one, 10, one, 10, one, 10, enter}, true},
		{"by hand", []any{one, 90, one, 120, one, 80, enter}, false},
		{"by hand, then the cable", []any{one, 500, runes("2.345"), enter}, true},
		{"the cable, then Enter by hand", []any{runes("2.345"), 200, enter}, false},
		{"one erased", []any{runes("12"), key(tea.KeyBackspace), runes("34"), enter}, false},
		{"the Enter after a burst", []any{runes("12.345"), enter, enter}, false},
		{"two values", []any{runes("1.1"), enter, runes("2.2"), enter}, true},
		{"the second one short", []any{runes("1.1"), enter, runes("22"), enter}, false},
	}
	for _, tt := range tests {
		got := timed(tt.steps...)
		if last := got[len(got)-1]; last.Burst != tt.want {
			t.Errorf("%s: %s, want burst %v", tt.name, show(got), tt.want)
		}
	}
}

func TestWindows(t *testing.T) {
	tests := []struct {
		name  string
		steps []any
		want  string
	}{
		{"LF 100 ms after CR", []any{enter, 100, lf}, "enter"},
		{"LF later", []any{enter, 101, lf}, "enter enter"},
		{"M one second after alt+O", []any{altO, 1000, runes("M")}, "enter"},
		{"M later", []any{altO, 1001, runes("M")}, "te:O te:M"},
	}
	for _, tt := range tests {
		if got := show(timed(tt.steps...)); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

func TestTimes(t *testing.T) {
	at := func(ms int) time.Time { return noon.Add(time.Duration(ms) * time.Millisecond) }
	got := timed(5, runes("12"), 15, altO, 20, enter, 5, altRune('3'))
	want := []Token{
		{Kind: Digit, Rune: '1', At: at(5)},
		{Kind: Digit, Rune: '2', At: at(5)},
		{Kind: Text, Rune: 'O', At: at(20)}, // the time it came, not when it was let go
		{Kind: Enter, At: at(40)},
		{Kind: Escape, At: at(45)},
		{Kind: Digit, Rune: '3', At: at(45)},
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}

// A gauge that frames its values sends ETX, which is Ctrl+C, before the end of
// the line: both are of the burst. By hand Ctrl+C is of none.
func TestFrameOfAGauge(t *testing.T) {
	stx, etx := key(tea.KeyCtrlB), key(tea.KeyCtrlC)
	for _, c := range []struct {
		steps []any
		want  string
	}{
		{[]any{stx, runes("+12"), etx, enter, lf}, "con:ctrl+b pl:+ di:1 di:2 con:ctrl+c! enter!"},
		{[]any{runes("123"), 5, etx, 5, enter}, "di:1 di:2 di:3 con:ctrl+c! enter!"},
		{[]any{runes("123"), 500, etx}, "di:1 di:2 di:3 con:ctrl+c"},
		{[]any{runes("12"), etx, etx}, "di:1 di:2 con:ctrl+c con:ctrl+c"},
		{[]any{runes("123"), 500, etx, 5, enter}, "di:1 di:2 di:3 con:ctrl+c enter"},
	} {
		if got := show(timed(c.steps...)); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

func TestKindString(t *testing.T) {
	seen := map[string]bool{}
	for k := Unknown; k <= Control; k++ {
		if s := k.String(); s == "" || seen[s] {
			t.Errorf("kind %d: name %q is empty or taken", k, s)
		}
		seen[k.String()] = true
	}
	if got := Kind(200).String(); got != "unknown" {
		t.Errorf("a kind that does not exist: %q", got)
	}
}
