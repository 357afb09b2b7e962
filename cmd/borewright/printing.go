package main

import (
	"fmt"
	"io"
	"strings"

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
