package record

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"borewright/engine/length"
)

// The bounds of what is read from outside.
const (
	maxDepth   = 32
	maxText    = 4 << 10
	maxNumeral = 64
)

// strict says what is wrong with a JSON text that encoding/json would let pass
// or take otherwise than written: keys that are unknown, doubled or in the
// wrong case, null, values of another kind, nesting deeper than 32, texts
// longer than 4 KiB, bytes that are not UTF-8, and anything after the end. The
// error is a *FieldError.
func strict(data []byte, into *shape) error {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return &FieldError{Reason: fmt.Sprintf("byte %d is not text in UTF-8", i+1)}
		}
		i += size
	}
	c := checker{scanner{data: data}}
	if err := c.value(nil, into); err != nil {
		return err
	}
	if c.next() != 0 {
		return &FieldError{Value: string(c.data[c.at:]), Reason: "something follows the end"}
	}
	return nil
}

// checker walks a JSON text beside a shape.
type checker struct{ scanner }

// value checks the value that stands next.
func (c *checker) value(p *path, s *shape) error {
	kind, err := c.kind(p)
	if err != nil {
		return err
	}
	if kind&s.allow == 0 {
		return &FieldError{Path: p.String(), Value: c.ahead(), Reason: "here must stand " + s.allow.String() + ", not " + kind.String()}
	}
	switch kind {
	case isObject:
		return c.object(p, s)
	case isList:
		return c.list(p, s)
	case isText:
		text, err := c.text(p)
		if err != nil {
			return err
		}
		return s.checkText(p, text)
	case isNumber:
		text, err := c.number(p)
		if err != nil {
			return err
		}
		return s.checkNumber(p, text)
	default:
		c.word()
		return nil
	}
}

// object checks an object and its keys.
func (c *checker) object(p *path, s *shape) error {
	seen := map[string]bool{}
	return c.members(p, '}', func(int) error {
		if c.next() != '"' {
			return c.wanted(p, `a key in quotation marks`)
		}
		key, err := c.text(p)
		if err != nil {
			return err
		}
		at := p.under(key)
		if seen[key] {
			return &FieldError{Path: at.String(), Reason: "this key stands twice in the same object"}
		}
		seen[key] = true
		inner, err := s.field(at, key)
		if err != nil {
			return err
		}
		if c.next() != ':' {
			return c.wanted(at, `":" after the key`)
		}
		c.at++
		return c.value(at, inner)
	})
}

// list checks a list and its items.
func (c *checker) list(p *path, s *shape) error {
	return c.members(p, ']', func(i int) error { return c.value(p.item(i), s.elem) })
}

// members walks what stands between brackets, separated by commas.
func (c *checker) members(p *path, closing byte, each func(i int) error) error {
	if p.deep() >= maxDepth {
		return &FieldError{Path: p.String(), Reason: fmt.Sprintf("nested more than %d deep", maxDepth)}
	}
	c.at++
	if c.next() == closing {
		c.at++
		return nil
	}
	for i := 0; ; i++ {
		if err := each(i); err != nil {
			return err
		}
		switch c.next() {
		case ',':
			c.at++
		case closing:
			c.at++
			return nil
		default:
			return c.wanted(p, `"," or "`+string(closing)+`"`)
		}
	}
}

// field returns the shape under a key.
func (s *shape) field(at *path, key string) (*shape, error) {
	if inner := s.fields[key]; inner != nil {
		return inner, nil
	}
	for name := range s.fields {
		if strings.EqualFold(name, key) {
			return nil, &FieldError{Path: at.String(), Reason: fmt.Sprintf("this key is written %q", name)}
		}
	}
	switch {
	case s.rest == nil:
		return nil, &FieldError{Path: at.String(), Reason: "no such field is known"}
	case s.small && strings.ToLower(key) != key:
		return nil, &FieldError{Path: at.String(), Reason: "this key is written in small letters"}
	default:
		return s.rest, nil
	}
}

// checkText checks a text that has a form of its own by reading it.
func (s *shape) checkText(p *path, text string) error {
	if s.text == nil {
		return nil
	}
	if len(text) > maxNumeral {
		return &FieldError{Path: p.String(), Value: text, Reason: "too long for what stands here"}
	}
	into, _ := reflect.New(s.text).Interface().(encoding.TextUnmarshaler)
	return textError(p.String(), text, into.UnmarshalText([]byte(text)))
}

// textError names the place of an error about a text, which most such errors
// quote by themselves.
func textError(at, text string, err error) error {
	var wrong *length.ParseError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &wrong):
		return &FieldError{Path: at, Value: text, Reason: wrong.Reason}
	case len(text) > maxNumeral:
		return &FieldError{Path: at, Value: text, Reason: "too long for what stands here"}
	default:
		return &FieldError{Path: at, Reason: err.Error()}
	}
}

// checkNumber checks a number as JSON writes it.
func (s *shape) checkNumber(p *path, text string) error {
	if s.bits > 0 {
		if _, err := strconv.ParseInt(text, 10, s.bits); err != nil {
			return &FieldError{Path: p.String(), Value: text, Reason: "not a whole number that fits here"}
		}
		return nil
	}
	if !s.exponent && strings.ContainsAny(text, "eE") {
		return &FieldError{Path: p.String(), Value: text, Reason: "a number here has no exponent"}
	}
	return nil
}
