package record

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// scanner takes JSON tokens off a text that is UTF-8.
type scanner struct {
	data []byte
	at   int
}

// next skips white space and returns the byte there, 0 at the end.
func (c *scanner) next() byte {
	for ; c.at < len(c.data); c.at++ {
		switch b := c.data[c.at]; b {
		case ' ', '\t', '\n', '\r':
		case 0:
			return 1 // a NUL is not the end, and nothing either
		default:
			return b
		}
	}
	return 0
}

// kind returns what kind of value stands next.
func (c *scanner) kind(p *path) (token, error) {
	switch b := c.next(); {
	case b == '{':
		return isObject, nil
	case b == '[':
		return isList, nil
	case b == '"':
		return isText, nil
	case b == '-' && c.letters(c.at+1) == "", '0' <= b && b <= '9':
		return isNumber, nil
	}
	switch word := c.letters(c.at); word {
	case "true", "false":
		return isFlag, nil
	case "null":
		return isNull, nil
	default:
		return 0, c.wanted(p, "a value")
	}
}

// word takes off the word of a flag or of null.
func (c *scanner) word() { c.at += len(c.letters(c.at)) }

// letters returns the letters at a position.
func (c *scanner) letters(from int) string {
	end := from
	for end < len(c.data) && ('a' <= c.data[end]|' ' && c.data[end]|' ' <= 'z') {
		end++
	}
	return string(c.data[min(from, len(c.data)):end])
}

// text takes off a text with its quotation marks and returns what it says.
func (c *scanner) text(p *path) (string, error) {
	start := c.at
	for i := start + 1; i < len(c.data); i++ {
		switch b := c.data[i]; {
		case b == '"':
			c.at = i + 1
			return unquoted(p, c.data[start:c.at])
		case b == '\\':
			i++
		case b < ' ':
			return "", &FieldError{Path: p.String(), Value: string(c.data[start+1 : i]), Reason: "a text has no line break or control character in it"}
		}
	}
	return "", ended(p)
}

// unquoted returns what a text between quotation marks says.
func unquoted(p *path, quoted []byte) (string, error) {
	inner := quoted[1 : len(quoted)-1]
	if len(inner) > 6*maxText {
		return "", tooLong(p, string(inner[:maxText]))
	}
	text := string(inner)
	if strings.IndexByte(text, '\\') >= 0 {
		if err := json.Unmarshal(quoted, &text); err != nil || loneSurrogate(inner) {
			return "", &FieldError{Path: p.String(), Value: string(inner), Reason: "an escape in this text is none of JSON"}
		}
	}
	if len(text) > maxText {
		return "", tooLong(p, text)
	}
	return text, nil
}

// tooLong is the error for a text beyond maxText.
func tooLong(p *path, text string) error {
	return &FieldError{Path: p.String(), Value: text, Reason: fmt.Sprintf("a text is at most %d bytes long", maxText)}
}

// loneSurrogate reports whether an escaped half of a character stands without
// its other half, which encoding/json would silently replace.
func loneSurrogate(inner []byte) bool {
	var high rune
	for i := 0; i < len(inner); i++ {
		r := rune(0)
		if inner[i] == '\\' {
			i++
			if inner[i] == 'u' {
				n, _ := strconv.ParseUint(string(inner[i+1:i+5]), 16, 16)
				r, i = rune(n), i+4
			}
		}
		paired := high != 0 && utf16.DecodeRune(high, r) != utf8.RuneError
		if high != 0 && !paired || high == 0 && 0xdc00 <= r && r <= 0xdfff {
			return true
		}
		high = 0
		if !paired && utf16.IsSurrogate(r) {
			high = r
		}
	}
	return high != 0
}

// number takes off a number and returns it as written.
func (c *scanner) number(p *path) (string, error) {
	start := c.at
	for c.at < len(c.data) && strings.IndexByte("0123456789+-.eE", c.data[c.at]) >= 0 {
		c.at++
	}
	text := string(c.data[start:c.at])
	switch {
	case c.at == len(c.data) && p != nil:
		return "", ended(p)
	case !json.Valid([]byte(text)):
		return "", &FieldError{Path: p.String(), Value: text, Reason: "not a number as JSON writes it"}
	case len(text) > maxNumeral:
		return "", &FieldError{Path: p.String(), Value: text, Reason: fmt.Sprintf("a number has at most %d characters", maxNumeral)}
	}
	return text, nil
}

// wanted is the error for something else than what was wanted.
func (c *scanner) wanted(p *path, what string) error {
	if c.next() == 0 {
		return ended(p)
	}
	word := c.letters(c.at)
	for _, cutShort := range []string{"true", "false", "null"} {
		if word != "" && c.at+len(word) == len(c.data) && strings.HasPrefix(cutShort, word) {
			return ended(p)
		}
	}
	switch ahead := c.ahead(); strings.ToLower(strings.TrimLeft(ahead, "+-")) {
	case "nan", "inf", "infinity":
		return &FieldError{Path: p.String(), Value: ahead, Reason: "not a number that can be measured"}
	default:
		return &FieldError{Path: p.String(), Value: ahead, Reason: "here must stand " + what}
	}
}

// ahead returns the piece of text that stands next, for a sentence.
func (c *scanner) ahead() string {
	rest := strings.ToValidUTF8(string(c.data[c.at:min(len(c.data), c.at+200)]), "")
	if text, ok := strings.CutPrefix(rest, `"`); ok {
		text, _, _ = strings.Cut(text, `"`)
		return text
	}
	if end := strings.IndexAny(rest[1:], ",]}:\n\""); end >= 0 {
		rest = rest[:end+1]
	}
	return strings.TrimSpace(rest)
}

// ended is the error for a text that stops too early.
func ended(p *path) error {
	return &FieldError{Path: p.String(), Reason: ErrTruncated.Error(), Err: ErrTruncated}
}
