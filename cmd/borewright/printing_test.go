package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func TestPrintLines(t *testing.T) {
	t.Parallel()
	var out bytes.Buffer
	if err := printLines(&out, []string{"a", "", "  b\x1b[31m c\n d  ", "\u202ex"}); err != nil {
		t.Fatal(err)
	}
	if want := "a\n\n  b c  d\nx\n"; out.String() != want {
		t.Errorf("printed %q, want %q", out.String(), want)
	}
	if err := printLines(brokenStream{}, []string{"a"}); err == nil {
		t.Error("a broken stream is no error")
	}
}

// What is printed as JSON reads back the same and shows no terminal anything
// to obey.
func TestPrintJSONProperty(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("\x1b\u009b\u202e\u200b\U000e0041\n\"\\<é")))).Draw(t, "text")
		var out bytes.Buffer
		if err := printJSON(&out, map[string]string{"text": text}); err != nil {
			t.Fatal(err)
		}
		if i := strings.IndexFunc(out.String(), func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }); i >= 0 {
			t.Fatalf("printed %q", out.String())
		}
		var back map[string]string
		if err := json.Unmarshal(out.Bytes(), &back); err != nil || back["text"] != text {
			t.Fatalf("%q came back as %q, %v", text, back["text"], err)
		}
	})
}

func TestPrintJSONKeepsSigns(t *testing.T) {
	t.Parallel()
	var out bytes.Buffer
	if err := printJSON(&out, []string{"a < b & c"}); err != nil || out.String() != "[\n  \"a < b & c\"\n]\n" {
		t.Errorf("printed %q, %v", out.String(), err)
	}
	if err := printJSON(&out, func() {}); err == nil {
		t.Error("a function is no JSON")
	}
}

func TestPlural(t *testing.T) {
	t.Parallel()
	for n, want := range map[int64]string{0: "0 events", 1: "1 event", 12: "12 events"} {
		if got := plural(n, "event"); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

func TestCalled(t *testing.T) {
	t.Parallel()
	for title, want := range map[string]string{"Launch": `"Launch"`, "": "without a title", "\x1b[1m": "without a title"} {
		if got := called(title); got != want {
			t.Errorf("%q is called %s, want %s", title, got, want)
		}
	}
}
