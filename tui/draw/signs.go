package draw

import (
	"strings"
)

// Tone is what a piece of a picture means; a [Palette] gives it a style and a
// sign gives it a shape.
type Tone uint8

// The tones. Good, Warn and Bad are for verdicts: inside, doubtful, outside.
const (
	Plain  Tone = iota // ordinary text
	Title              // headings
	Dim                // what matters less, and what is not measured
	Good               // inside
	Warn               // too close to call, suspect, held
	Bad                // outside
	Key                // a key to press
	Value              // a figure
	Frame              // lines around things
	Marked             // the place or row that is meant now
	tones              // how many there are
)

// Signs are the signs and short words that screens put between figures, in
// the usual or in the ASCII kind. Choose once with [NewSigns].
type Signs struct {
	ASCII     bool   // every sign is a single ASCII cell or an ASCII word
	PlusMinus string // between a figure and its doubt
	Degree    string // after an angle or a temperature, no space between
	Times     string // before a factor
	Arrow     string // from what was keyed to what it means
	Here      string // before the row or place that is meant
	Diameter  string // before a size
	Dash      string // where there is no figure
}

// NewSigns gives the set for the usual kind of terminal, or the ASCII set.
func NewSigns(ascii bool) Signs {
	if ascii {
		return Signs{
			ASCII: true, PlusMinus: "+/-", Degree: " deg ", Times: "x", Arrow: "->",
			Here: ">", Diameter: "dia.", Dash: "-",
		}
	}
	return Signs{
		PlusMinus: "±", Degree: "°", Times: "×", Arrow: "→",
		Here: "►", Diameter: "⌀", Dash: "–",
	}
}

// For gives the one-cell sign of a verdict's tone: a tick, a question mark, a
// cross, a dot for what is not measured, and a blank for the tones that are no
// verdict.
func (s Signs) For(t Tone) string {
	switch t {
	case Good:
		return s.pick("✓", "v")
	case Warn:
		return "?"
	case Bad:
		return s.pick("✗", "X")
	case Dim:
		return "."
	default:
		return " "
	}
}

// Text rewrites a sentence of the program's own for the chosen set: in the
// ASCII set the signs that may be two cells wide become ASCII words. Letters
// are left alone.
func (s Signs) Text(t string) string {
	if !s.ASCII {
		return t
	}
	return toASCII.Replace(t)
}

func (s Signs) pick(usual, ascii string) string {
	if s.ASCII {
		return ascii
	}
	return usual
}

var toASCII = strings.NewReplacer(
	"±", "+/-", "°", " deg ", "×", "x", "÷", "/", "→", "->", "←", "<-", "↑", "^", "↓", "v",
	"►", ">", "◄", "<", "…", "...", "·", "-", "–", "-", "—", "-", "½", "1/2", "¼", "1/4", "¾", "3/4",
	"≤", "<=", "≥", ">=", "≈", "~", "‘", "'", "’", "'", "“", "\"", "”", "\"", "μ", "µ", "α", "a", "Δ", "d",
	"│", "|", "─", "-", "█", "#",
)

// WantsASCII says whether the ASCII kind should be drawn, from the environment
// as getenv tells it: RUNEWIDTH_EASTASIAN when it is set, else a Chinese,
// Japanese or Korean locale, or a locale whose named character set is not
// UTF-8.
func WantsASCII(getenv func(string) string) bool {
	switch getenv("RUNEWIDTH_EASTASIAN") {
	case "":
	case "1", "t", "T", "true", "TRUE", "True":
		return true
	default:
		return false
	}
	language, charset, named := strings.Cut(locale(getenv), ".")
	if named && !strings.HasPrefix(strings.NewReplacer("-", "").Replace(strings.ToLower(charset)), "utf8") {
		return true
	}
	for _, wide := range []string{"zh", "ja", "ko"} {
		if language == wide || strings.HasPrefix(language, wide+"_") {
			return true
		}
	}
	return false
}

func locale(getenv func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := getenv(name); v != "" {
			return v
		}
	}
	return ""
}
