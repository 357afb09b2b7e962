package record

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// The most bytes that texts of an event may have; every text has at most 4 KiB.
const (
	maxInitials = 32
	maxName     = 64
	maxTitle    = 200
)

// valid is a body that knows what may be wrong with it. The number is that of
// its event, 0 when it has none yet.
type valid interface{ validate(n int64) error }

// Validate says what is wrong with an event in itself: its time, its texts, the
// fields of its body. Whether what it refers to exists is for the replay to
// say. Number and hash are not looked at; Seal sets them. The error is a
// *FieldError, a *plan.InvalidError, a *limit.InvalidError or a *gauge.Fault.
func (e Event) Validate() error {
	c, known := codecOf(e.Body)
	b, ok := e.Body.(valid)
	if !known || !ok {
		return noKind(e.Is())
	}
	if err := first(validTime(e.At), under("by", validText(e.By)), short("by", e.By, maxInitials)); err != nil {
		return err
	}
	err := first(walker{validText, writable}.walk(reflect.ValueOf(c.fields(e.Body))), b.validate(e.N))
	var f *FieldError
	if errors.As(err, &f) {
		f.Path = strings.TrimSpace(string(e.Is()) + " " + f.Path)
	}
	return err
}

// first returns the first error.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// when returns err when it applies.
func when(applies bool, err error) error {
	if applies {
		return err
	}
	return nil
}

// validTime says what keeps a time from being written and read back.
func validTime(t time.Time) error {
	const day = 24 * 60 * 60
	_, offset := t.Zone()
	switch {
	case t.IsZero():
		return wrong("at", "", "an event has a time")
	case t.Year() < 1 || t.Year() > 9999:
		return wrong("at", t.String(), "a year is from 1 to 9999")
	case offset%60 != 0 || offset <= -day || offset >= day:
		return wrong("at", t.String(), "an offset is whole minutes, less than a day")
	}
	return nil
}

// names checks that every text in a value is short and of one line, so that
// whoever quotes it need not cut it.
func names(v any) error {
	w := walker{
		text: func(s string) error { return short("", s, maxName) },
		size: func(length.Written) error { return nil },
	}
	return w.walk(reflect.ValueOf(v))
}

// validText says what is wrong with any text: it is UTF-8, at most 4 KiB long
// and without control characters but line breaks and tabs.
func validText(s string) error {
	switch {
	case len(s) > maxText:
		return tooLong(nil, s)
	case !utf8.ValidString(s):
		return wrong("", s, "not text in UTF-8")
	case strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }):
		return wrong("", s, "a text holds no control characters")
	}
	return nil
}

// writable refuses a length that its unit and decimals do not hold.
func writable(w length.Written) error {
	if _, err := w.MarshalText(); err != nil {
		return wrong("", w.String(), err.Error())
	}
	return nil
}

// short refuses a valid text of several lines or of more bytes than most.
func short(at, s string, most int) error {
	switch {
	case len(s) > most:
		return wrong(at, s, fmt.Sprintf("at most %d bytes long", most))
	case strings.ContainsFunc(s, unicode.IsControl):
		return wrong(at, s, "one line without control characters")
	}
	return nil
}

// name is short for a text that must be there.
func name(at, s string) error {
	return first(when(strings.TrimSpace(s) == "", wrong(at, s, "it is missing")), short(at, s, maxName))
}

// isIdentity reports whether a text is 1 to 64 letters, digits, - and _.
func isIdentity(s string) bool {
	odd := func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-' && r != '_'
	}
	return s != "" && len(s) <= 64 && !strings.ContainsFunc(s, odd)
}

// validUID says what is wrong with the identity of a session.
func validUID(at, s string) error {
	return first(
		when(!isIdentity(s), wrong(at, s, "an identity is 1 to 64 letters, digits, - and _")),
		when(s == ShopUID, wrong(at, s, "this name belongs to the shop")),
	)
}

// one refuses a text that is none of the choices.
func one[T ~string](at string, s T, choices ...T) error {
	if slices.Contains(choices, s) {
		return nil
	}
	var named []string
	for _, c := range choices {
		if c != "" {
			named = append(named, string(c))
		}
	}
	return wrong(at, string(s), "none of "+strings.Join(named, ", "))
}

// atLeast refuses a number below low.
func atLeast(at string, n, low int64) error {
	return when(n < low, wrong(at, fmt.Sprint(n), fmt.Sprintf("at least %d", low)))
}

// notBelow refuses a length below zero.
func notBelow(at string, w length.Written) error {
	return when(w.Length < 0, wrong(at, w.String(), "below zero"))
}

// decimal refuses a text that is not a decimal number from low to high, bounds
// within ±1000; empty text passes.
func decimal(at, s string, low, high int64) error {
	if s == "" {
		return nil
	}
	d, err := length.ParseDecimal(s)
	if err != nil {
		return textError(at, s, err)
	}
	return when(!gauge.Within(d, low, high), wrong(at, s, fmt.Sprintf("not from %d to %d", low, high)))
}

// figure refuses a text that is not a number with its unit behind it, whatever
// the unit; empty text passes.
func figure(at, s string) error {
	if s == "" {
		return nil
	}
	number, unit := s, ""
	if end := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("0123456789.,+-\u2212", r) }); end >= 0 {
		number, unit = s[:end], strings.TrimSpace(s[end:])
	}
	if _, err := length.ParseDecimal(number); err != nil {
		return wrong(at, s, "not a number with its unit")
	}
	if len(unit) > 1 && (unit[0] == 'e' || unit[0] == 'E') && strings.ContainsRune("0123456789+-", rune(unit[1])) {
		return wrong(at, s, "a number here has no exponent")
	}
	return short(at, unit, maxName)
}

// feature refuses what is not a feature.
func feature(at string, f plan.Feature) error { return textError(at, f.String(), f.Validate()) }

// features refuses a list that names one twice.
func features(at string, fs []plan.Feature) error {
	seen := map[plan.Feature]bool{}
	for _, f := range fs {
		if err := feature(at, f); err != nil {
			return err
		}
		if seen[f] {
			return wrong(at, f.String(), "named twice")
		}
		seen[f] = true
	}
	return nil
}

// place refuses what is not a place: its direction stands as it is written.
func place(p plan.Place) error {
	return first(
		feature("of", p.Of),
		textError("level", p.Level, plan.CheckLevel(p.Level)),
		short("level", p.Level, maxName),
		textError("dir", p.Dir, plan.CheckDirection(p.Of.Family, p.Dir)),
	)
}

// earlier refuses a number that is not of an event before event n.
func earlier(at string, event, n int64) error {
	return first(
		atLeast(at, event, 1),
		when(n > 0 && event >= n, wrong(at, fmt.Sprint(event), "not an event before this one")),
	)
}
