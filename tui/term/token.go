package term

import "time"

// Kind says what a Token is. The zero value is Unknown.
type Kind uint8

// The kinds of token. Digit to Text are characters; the others are keys.
const (
	Unknown    Kind = iota // a key the station has no use for; Name says which
	Digit                  // 0 to 9
	Point                  // '.' or ','
	Plus                   // '+'
	Minus                  // '-' or U+2212
	Star                   // '*'
	Slash                  // '/'
	Text                   // any other printable character, a space included
	Enter                  // CR, LF, CR LF, or the keypad's Enter in any mode
	Erase                  // backspace
	Tab                    // tab
	ShiftTab               // shift and tab
	Escape                 // escape
	Navigation             // a key that moves; Name is one of the Nav names
	Control                // ctrl and a letter; Name is "ctrl+c" and so on
)

var kindNames = [...]string{
	Unknown: "unknown", Digit: "digit", Point: "point", Plus: "plus", Minus: "minus",
	Star: "star", Slash: "slash", Text: "text", Enter: "enter", Erase: "erase",
	Tab: "tab", ShiftTab: "shift+tab", Escape: "escape", Navigation: "navigation", Control: "control",
}

// String returns the kind's name in lower case.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return kindNames[Unknown]
}

// Character reports whether tokens of this kind are one typed character, to
// be found in Token.Rune.
func (k Kind) Character() bool {
	return k >= Digit && k <= Text
}

// The names of Navigation tokens. With NumLock off the keypad sends these
// where digits and the point were expected; NavMiddle is its 5.
const (
	NavUp       = "up"
	NavDown     = "down"
	NavLeft     = "left"
	NavRight    = "right"
	NavHome     = "home"
	NavEnd      = "end"
	NavPageUp   = "pgup"
	NavPageDown = "pgdown"
	NavInsert   = "insert"
	NavDelete   = "delete"
	NavMiddle   = "middle"
)

// Token is one key press, or one character of a paste or of a gauge's cable.
type Token struct {
	Kind Kind
	// Rune is the character as it was typed, so a Point may be ',' and a
	// Minus U+2212; only spaces of every width become one ' '. It is 0 when
	// Kind is not a character.
	Rune rune
	// Name is set for Navigation, Control and Unknown only.
	Name string
	// At is the arrival time that was given to Decode.
	At time.Time
	// Burst is set on an Enter, a Tab or a Ctrl+C (the ETX that frames a value)
	// that came, with the three characters before it, within BurstWindow: faster than a hand, so a gauge's cable,
	// a scanner or a paste. Characters before those three may still have been
	// typed by hand; their At tells.
	Burst bool
}
