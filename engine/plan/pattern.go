package plan

import (
	"maps"
	"slices"
	"strings"
)

// The patterns are regular expressions, unanchored, of what both Go and
// ECMA-262 know, read off the table of families. They take every text that is
// read and no other.

// position is for a position, 1 to 99.
const position = `/[1-9][0-9]?`

// FamilyPattern is for the names of all families, those of loose parts too.
func FamilyPattern() string { return either(families, nameOf) }

// FeaturePattern is for what ParseFeature reads.
func FeaturePattern() string {
	byParts := map[string][]Traits{}
	var order []string
	for _, t := range families {
		parts := strings.Join(t.Parts, "|")
		if byParts[parts] == nil {
			order = append(order, parts)
		}
		byParts[parts] = append(byParts[parts], t)
	}
	return either(order, func(parts string) string {
		of := either(byParts[parts], nameOf) + position
		if parts == "" {
			return of
		}
		return of + "/(?:" + parts + ")"
	})
}

// Whole degrees: of a half turn, with and without those that have a name, of a
// full turn, and those of a point.
const (
	halfTurn      = `[1-9]?[0-9]|1[0-7][0-9]`
	halfTurnNamed = `[1-9]|[1-8][0-9]|9[1-9]|1[0-7][0-9]`
	fullTurn      = `[1-9]?[0-9]|[12][0-9][0-9]|3[0-5][0-9]|360`
	noTurn        = `0|180|360`
)

// DirectionPattern is for the canonical text of the family's directions.
func (t Traits) DirectionPattern() string {
	names := strings.Join(t.names(), "|")
	switch {
	case t.Figure != "":
		return "(?:" + names + ")"
	case names != "":
		return "(?:" + names + "|" + halfTurnNamed + ")"
	default:
		return "(?:" + halfTurn + ")"
	}
}

// WrittenPattern is for what ParseDirection reads as a direction of the family,
// where it is written in small letters.
func (t Traits) WrittenPattern() string {
	angles := fullTurn
	if t.Figure != "" {
		angles = noTurn
	}
	written := append(t.names(), `(?:\+?0*(?:`+angles+`)|-0+)°?`)
	const blank = `[^!-~°]*`
	return blank + "(?:" + strings.Join(written, "|") + ")" + blank
}

// names returns the names of the family's directions in alphabetical order.
func (t Traits) names() []string { return slices.Sorted(maps.Values(t.Named)) }

func nameOf(t Traits) string { return string(t.Family) }

// either is for any of the texts that of makes.
func either[T any](all []T, of func(T) string) string {
	var out []string
	for _, x := range all {
		out = append(out, of(x))
	}
	return "(?:" + strings.Join(out, "|") + ")"
}
