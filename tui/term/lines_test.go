package term_test

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/tui/term"
)

// silence stands for a silence between two reads.
const silence = "(silence)"

// heard gives reads to Lines, after a silence, and returns the lines.
func heard(reads ...string) []term.Line {
	var l term.Lines
	out := l.Silence()
	for _, r := range reads {
		if r == silence {
			out = append(out, l.Silence()...)
			continue
		}
		out = append(out, l.Take([]byte(r))...)
	}
	return out
}

func whole(texts ...string) []term.Line {
	var out []term.Line
	for _, t := range texts {
		out = append(out, term.Line{Text: t})
	}
	return out
}

func TestLines(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("7", term.LongestLine)
	for _, c := range []struct {
		name  string
		reads []string
		want  []term.Line
	}{
		{"CR", []string{"3.7503\r"}, whole("3.7503")},
		{"LF", []string{"3.7503\n"}, whole("3.7503")},
		{"CR LF", []string{"3.7503\r\n"}, whole("3.7503")},
		{"in pieces", []string{"3.", "75", "03\r", "\n"}, whole("3.7503")},
		{"a frame", []string{"\x023.7503\x03"}, whole("3.7503")},
		{"a frame with a checksum", []string{"\x023.7503\x034F\r\n", silence, "\x023.7504\x03A", silence}, whole("3.7503", "3.7504")},
		{"blanks around", []string{"  +3.7503 in \r\n"}, whole("+3.7503 in")},
		{"a silence between", []string{"3.7503\r\n", silence, "3.7504\r\n"}, whole("3.7503", "3.7504")},
		{"empty lines", []string{"\r\n\r\n\n", silence, "\r\n3.7503\r\n"}, whole("3.7503")},
		{"straight after another", []string{"3.7503\r\n3.7504\r\n"}, []term.Line{{Text: "3.7503"}, {Text: "3.7504", Fault: term.LineHurried}}},
		{"no end", []string{"3.75", silence}, []term.Line{{Text: "3.75", Fault: term.LineBroken}}},
		{"goes on after a silence", []string{"3.75", silence, "03\r\n"}, []term.Line{{Text: "3.75", Fault: term.LineBroken}, {Text: "03"}}},
		{"longest", []string{long + "\r"}, whole(long)},
		{"too long", []string{long + "7\r"}, []term.Line{{Text: long, Fault: term.LineLong}}},
		{"NUL stays in", []string{"3.7\x0003\r"}, whole("3.7\x0003")},
		{"micro in one byte", []string{"-2.5 \xb5m\r"}, whole("-2.5 µm")},
	} {
		if got := heard(c.reads...); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// The end of a line whose beginning was missed is never a value.
func TestLinesBegun(t *testing.T) {
	t.Parallel()
	var l term.Lines
	if l.Listening() {
		t.Error("it listens before anything was heard")
	}
	want := []term.Line{{Text: "503", Fault: term.LineUnheard}, {Text: "3.7504", Fault: term.LineHurried}}
	if got := l.Take([]byte("503\r\n3.7504\r\n")); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if l.Silence(); !l.Listening() {
		t.Error("it does not listen after a silence")
	}
}

// How a text falls into reads makes no difference.
func TestLinesDoNotDependOnReads(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(rapid.SampledFrom([]byte("3.7+ \r\n\x02\x03\x00\xb5")), 0, 90).Draw(t, "text")
		at := rapid.IntRange(0, len(text)).Draw(t, "cut")
		if one, two := heard(string(text)), heard(string(text[:at]), string(text[at:])); !reflect.DeepEqual(one, two) {
			t.Errorf("%q is %+v, and cut at %d %+v", text, one, at, two)
		}
		for _, l := range heard(string(text), silence) {
			if l.Text == "" || len(l.Text) > 2*term.LongestLine {
				t.Errorf("%q gives the line %q", text, l.Text)
			}
		}
	})
}
