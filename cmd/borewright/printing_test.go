package main

import (
	"bytes"
	"testing"
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
