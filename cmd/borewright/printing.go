package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"

	"borewright/tui/draw"
)

// printLines writes lines that may hold names from outside, cleaned, with the
// blanks they begin with.
func printLines(out io.Writer, lines []string) error {
	var b strings.Builder
	for _, line := range lines {
		rest := strings.TrimLeft(line, " ")
		b.WriteString(line[:len(line)-len(rest)])
		b.WriteString(draw.Clean(rest))
		b.WriteByte('\n')
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// printJSON writes a value as indented JSON. It is exact and yet holds nothing
// that a terminal would obey: what does not print is written as \u escapes.
func printJSON(out io.Writer, value any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(value); err != nil {
		return err
	}
	_, err := io.WriteString(out, escapeUnprinted(b.String()))
	return err
}

// escapeUnprinted escapes in JSON every character that does not print. JSON has
// such characters in texts only, but for the line breaks it is laid out with.
func escapeUnprinted(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\n' || unicode.IsPrint(r):
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		}
	}
	return b.String()
}

// called returns a session's title in quotes, cleaned, or words for none.
func called(title string) string {
	if title = draw.Clean(title); title == "" {
		return "without a title"
	}
	return `"` + title + `"`
}

// plural returns "1 event", "2 events" and so on.
func plural(n int64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
