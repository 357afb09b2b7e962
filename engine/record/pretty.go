package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"
)

// WriteJSON writes a value as indented JSON, for people and other programs to
// read. It is exact and yet holds nothing that a terminal would obey: what does
// not print is written as \u escapes.
func WriteJSON(w io.Writer, value any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(value); err != nil {
		return err
	}
	_, err := io.WriteString(w, escapeUnprinted(b.String()))
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
