package tui

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// tokens are the tokens of a text; "<" is the erase key.
func tokens(text string) []term.Token {
	var out []term.Token
	for _, r := range text {
		t := term.Token{Kind: term.Text, Rune: r}
		switch {
		case r >= '0' && r <= '9':
			t.Kind = term.Digit
		case r == '.' || r == ',':
			t.Kind = term.Point
		case r == '+':
			t.Kind = term.Plus
		case r == '-':
			t.Kind = term.Minus
		case r == '*':
			t.Kind = term.Star
		case r == '/':
			t.Kind = term.Slash
		case r == '<':
			t = term.Token{Kind: term.Erase}
		}
		out = append(out, t)
	}
	return out
}

func TestNumbersAreKeyed(t *testing.T) {
	for _, c := range []struct{ stood, keyed, want, refused string }{
		{"3.7500", "", "3.7500", ""},
		{"3.7500", "4", "4", ""},
		{"3.7500", "4,0", "4,0", ""},
		{"3.7500", "<", "3.750", ""},
		{"3.7500", "<<<1", "3.71", ""},
		{"3.7500", "/", "", ""},
		{"3.7500", "/5", "5", ""},
		{"3.7500", "*", "3.7500", "/ clears it"},
		{"3.7500", "x", "3.7500", "a number is keyed here"},
		{"", "-0.5", "-0.5", ""},
		{"", "95.25mm", "95.25mm", ""},
		{"", "<", "", ""},
		{"", strings.Repeat("1", 25), strings.Repeat("1", 24), "no more than 24"},
	} {
		n, refused := numberText{text: c.stood}, ""
		for _, tok := range tokens(c.keyed) {
			n, refused = n.key(tok)
		}
		if n.text != c.want || !strings.Contains(refused, c.refused) || (c.refused == "") != (refused == "") {
			t.Errorf("%q on %q gives %q (%s), want %q", c.keyed, c.stood, n.text, refused, c.want)
		}
	}
}

// A length that a field shows reads back the same.
func TestShownLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := []length.Unit{length.In, length.MM}
		unit, bare := rapid.SampledFrom(units).Draw(t, "unit"), rapid.SampledFrom(units).Draw(t, "bare")
		w := length.Written{Length: length.Length(rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "n")) * unit.Size() / 10_000, Unit: unit, Places: 4}
		if got, err := readLength(showLength(w, bare), bare); err != nil || got != w {
			t.Fatalf("%q reads back as %q, %v", w, got, err)
		}
	})
}

func TestEchoesSayBothUnits(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"3.75", "3.75 in (95.250 mm)"}, {"95.25mm", "95.25 mm (3.7500 in)"}, {"", ""}, {"3.", "3 in (76.200 mm)"}, {"3..", ""}, {"-", ""},
	} {
		if got := echoLength(c.text, length.In); got != c.want {
			t.Errorf("%q is echoed as %q, want %q", c.text, got, c.want)
		}
	}
}

func TestWordsAreTyped(t *testing.T) {
	nav := func(name string) term.Token { return term.Token{Kind: term.Navigation, Name: name} }
	for name, c := range map[string]struct {
		keys    []term.Token
		want    string
		refused string
	}{
		"letters":     {tokens(" two"), "one two", ""},
		"erase":       {tokens("<<x"), "ox", ""},
		"in front":    {append([]term.Token{nav(term.NavHome)}, tokens("no ")...), "no one", ""},
		"no room":     {tokens(strings.Repeat("x", 18)), "one" + strings.Repeat("x", 17), "no room for more: 20 bytes"},
		"bidi":        {tokens("\u202e"), "one", "cannot be drawn"},
		"mark":        {tokens("\u0301"), "oné", ""},
		"other keys":  {[]term.Token{{Kind: term.Control, Name: "ctrl+v"}}, "one", "words are typed here"},
		"a word back": {[]term.Token{{Kind: term.Control, Name: "ctrl+w"}}, "", ""},
	} {
		w, refused := newWords("one"), ""
		for _, tok := range c.keys {
			w, refused = w.key(tok, 20)
		}
		if w.text() != c.want || !strings.Contains(refused, c.refused) || (c.refused == "") != (refused == "") {
			t.Errorf("%s: %q (%s), want %q", name, w.text(), refused, c.want)
		}
	}
}

// However much is typed, the cursor is in view and the width is kept.
func TestWordsShowTheirCursor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWords(rapid.StringMatching(`[a-z äö漢]{0,40}`).Draw(t, "text"))
		for range rapid.IntRange(0, 40).Draw(t, "left") {
			w, _ = w.key(term.Token{Kind: term.Navigation, Name: term.NavLeft}, 200)
		}
		wide := rapid.IntRange(3, 30).Draw(t, "wide")
		got := w.view(wide, "|")
		if draw.Width(got) != wide || !strings.Contains(got, "|") {
			t.Fatalf("in %d cells %q at %d shows %q", wide, w.input.Value(), w.input.Position(), got)
		}
	})
}

func TestChoicesGoRound(t *testing.T) {
	at := -1
	f := func() field {
		return field{kind: choiceField, choices: []string{"2", "4", "12"}, at: at, pick: func(i int) { at = i }}
	}
	for _, c := range []struct{ by, want int }{{1, 1}, {1, 2}, {1, 0}, {-1, 2}} {
		f().step(c.by)
		if at != c.want {
			t.Errorf("a step of %d goes to %d, want %d", c.by, at, c.want)
		}
	}
	if f().choose("3") || !f().choose("12") || at != 2 || !f().begins("1") || f().begins("3") {
		t.Errorf("digits choose %d", at)
	}
}

// Whatever is pressed, the form stands on one of its fields, fits its window
// and shows the field in focus.
func TestAnyKeysKeepTheForm(t *testing.T) {
	keys := []string{
		"<enter>", "<tab>", "<back>", "<up>", "<down>", "<left>", "<right>", "<pgup>", "<pgdown>", "<f3>", "<erase>", "<home>", "<end>",
		"1", "3", "0", ".", ",", "+", "-", "*", "/", " ", "m", "i", "x", "漢",
	}
	rapid.Check(t, func(rt *rapid.T) {
		b := newSetupBench(t)
		b.press("n", rapid.SampledFrom([]string{"1", "2", "4", "7"}).Draw(rt, "preset"))
		b.r.resize(rapid.IntRange(80, 200).Draw(rt, "w"), rapid.IntRange(24, 60).Draw(rt, "h"))
		for range rapid.IntRange(1, 60).Draw(rt, "keys") {
			s, open := b.r.top().(*setupForm)
			if !open {
				return // measuring began
			}
			b.press(rapid.SampledFrom(keys).Draw(rt, "key"))
			if at, col, ok := s.form.find(s.form.focus); !ok || at != s.form.at || col != s.form.col {
				rt.Fatalf("the focus %q is at %d, %d, not %d, %d", s.form.focus, at, col, s.form.at, s.form.col)
			}
			view := s.View()
			if len(view) > s.h {
				rt.Fatalf("%d lines of %d", len(view), s.h)
			}
			for _, line := range view {
				if draw.Width(line) > s.w {
					rt.Fatalf("too wide for %d: %q", s.w, line)
				}
			}
			if !strings.Contains(strings.Join(view[:s.room()], "\n"), ">") {
				rt.Fatalf("the field in focus is not in view:\n%s", strings.Join(view, "\n"))
			}
		}
	})
}

// When the field in focus is no longer there, the focus stays near.
func TestTheFocusOutlivesItsField(t *testing.T) {
	ids := []string{"a", "b", "c"}
	f := newForm(func() []row {
		out := []row{{heading: "three"}}
		for _, id := range ids {
			out = append(out, row{label: id, fields: []field{{id: id, kind: numberField, get: func() string { return "1" }, set: func(string) error { return nil }}}})
		}
		return out
	})
	f.jump("c")
	f.bad["c"] = badText{"x", "why"}
	ids = ids[:1]
	f.rebuild()
	if f.focus != "a" || len(f.bad) != 0 {
		t.Errorf("the focus is on %q, and %v is bad", f.focus, f.bad)
	}
	ids = nil
	f.rebuild()
	f.move(1)
	f.moveRow(1)
	if f.here().kind != buttonField || f.jump("a") {
		t.Errorf("an empty form has the field %+v", f.here())
	}
}

func TestLongNumbersShowTheirEnd(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "1234567890.12345")
	b.see(">~7890.12345_")
	b.press("<enter>")
	b.see("longer than 100 m")
}
