package store

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"time"
	"unicode"
	"unicode/utf8"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// remains is what can still be read of a damaged event. It is a hint at what was
// lost and never a figure: any of its bytes may be the changed one.
type remains struct {
	kind  record.Kind
	place plan.Place // of a reading, or of what was left out
	id    string     // of a gauge, a setting or a set
	at    time.Time
}

// eventID names an event in the file.
type eventID struct {
	id uint64
	n  int64
}

// kindWords says what an event of a kind was.
var kindWords = map[record.Kind]string{
	record.IsDetails: "the details", record.IsLayout: "the layout", record.IsPlan: "the plan",
	record.IsLimit: "a limit", record.IsRules: "the rules", record.IsGiven: "a given figure",
	record.IsTable: "a table", record.IsInstrument: "a gauge", record.IsSetting: "a gauge setting",
	record.IsSet: "a set", record.IsZero: "a zero check", record.IsReading: "a reading",
	record.IsLeftOut: "the leaving out", record.IsMoved: "a move of readings", record.IsWithdrawn: "a withdrawal",
	record.IsWork: "work", record.IsFitted: "the fitting of a part", record.IsIntended: "intended work",
	record.IsSteps: "a prep list", record.IsDone: "a prep step", record.IsStudy: "a gauge study",
	record.IsNote: "a note", record.IsState: "a closing or reopening",
}

// mostOfName is how many bytes an id has at most, and what was keyed.
const mostOfName = 64

// remainsOf reads what it can of the text of an event.
func remainsOf(text []byte) remains {
	var r remains
	if kind := record.Kind(fieldIn(text, "is")); kindWords[kind] != "" {
		r.kind = kind
	}
	if at, err := time.Parse(time.RFC3339, fieldIn(text, "at")); err == nil {
		r.at = at
	}
	switch r.kind {
	case record.IsReading, record.IsLeftOut:
		r.place = placeIn(text)
	case record.IsInstrument, record.IsSetting, record.IsSet:
		if id := fieldIn(text, "id"); len(id) <= mostOfName {
			r.id = id
		}
	default:
	}
	return r
}

// placeIn reads what it can of the place that the text of an event names.
func placeIn(text []byte) (p plan.Place) {
	of, err := plan.ParseFeature(fieldIn(text, "of"))
	if err != nil {
		return p
	}
	p.Of = of
	if level := fieldIn(text, "level"); plan.CheckLevel(level) == nil {
		p.Level = level
	}
	if dir := fieldIn(text, "dir"); plan.CheckDirection(of.Family, dir) == nil {
		p.Dir = dir
	}
	return p
}

// fieldIn returns the plain text that the first field of the name holds, or "".
// Inside a text the quotes of a name are escaped, so that none is taken for it.
func fieldIn(text []byte, name string) string {
	_, rest, found := bytes.Cut(text, fmt.Appendf(nil, "%q:\"", name))
	value, _, closed := bytes.Cut(rest, []byte{'"'})
	if !found || !closed || bytes.ContainsFunc(value, unprinted) || bytes.ContainsRune(value, '\\') {
		return ""
	}
	return string(value)
}

// unprinted reports whether a character is none that is printed.
func unprinted(r rune) bool { return r == utf8.RuneError || !unicode.IsPrint(r) }

// words says what the event perhaps was, such as "perhaps a reading of bore 2,
// middle, across, 2026-03-10 15:25"; "" where nothing can be read.
func (r remains) words(b bench) string {
	text := "perhaps " + cmp.Or(kindWords[r.kind], "something")
	if r.id != "" {
		text += " " + r.id
	}
	if place := b.known(r.place); !place.IsZero() {
		text += " of " + engine.PlaceName(b.layout, b.plan, place)
	} else if r.kind == record.IsLeftOut {
		text += " of a place"
	}
	switch {
	case !r.at.IsZero():
		text += ", " + clock(r.at)
	case r.kind == "":
		return ""
	}
	return text
}

// clock returns a time as the bench's own clock showed it.
func clock(t time.Time) string { return t.Format("2006-01-02 15:04") }

// bench is by what names a session calls its places.
type bench struct {
	layout plan.Layout
	plan   plan.Plan
}

// learn takes in what an event says of the names.
func (b *bench) learn(body record.Body) {
	switch body := body.(type) {
	case record.Layout:
		b.layout = body.Layout
	case record.Plan:
		b.plan = body.Plan
	}
}

// known returns the place without what the layout or the plan, where they are
// known, do not have.
func (b *bench) known(p plan.Place) plan.Place {
	if p.IsZero() || b.layout.Cylinders > 0 && b.layout.Filled().Has(p.Of) != nil {
		return plan.Place{}
	}
	g, found := b.plan.Group(p.Of.Family)
	if !found {
		return p
	}
	if _, has := g.Level(p.Level); !has {
		p.Level = ""
	}
	if !slices.Contains(g.Directions, p.Dir) {
		p.Dir = ""
	}
	return p
}

// said puts what an event perhaps was behind a sentence.
func (r remains) said(b bench) string {
	words := r.words(b)
	if words == "" {
		return ""
	}
	return "; it was " + words
}
