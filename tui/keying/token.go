package keying

// Kind says what a Token is. The zero value is Unknown.
type Kind uint8

// The kinds of token that the machine tells apart.
const (
	Unknown    Kind = iota // a key without a use here
	Digit                  // 0 to 9
	Point                  // '.' or ','
	Plus                   // '+'
	Minus                  // '-' or U+2212
	Star                   // '*'
	Slash                  // '/'
	Text                   // any other printable character, a space included
	Enter                  // one Enter, however it was sent
	Erase                  // backspace
	Navigation             // a key that moves, as the keypad sends with NumLock off
	Escape                 // escape; the host's
	Control                // ctrl and a letter; the host's
)

// Token is one key press, or one character of a burst.
type Token struct {
	Kind Kind
	// Rune is the character of a Digit, Point, Plus, Minus, Star, Slash or Text.
	Rune rune
	// Burst says that it is known to have come faster than a hand: by a gauge's
	// cable, a scanner or a paste. It is enough that the Enter says so.
	Burst bool
}

// column is a key as the table tells keys apart.
type column uint8

const (
	colDigit column = iota
	colPoint
	colSign
	colStar
	colSlash
	colEnter
	colErase
	colText
	colNavigation
	colOther
	columns
)

var columnOf = map[Kind]column{
	Digit: colDigit, Point: colPoint, Plus: colSign, Minus: colSign, Star: colStar, Slash: colSlash,
	Enter: colEnter, Erase: colErase, Text: colText, Navigation: colNavigation,
	Escape: colOther, Control: colOther, Unknown: colOther,
}

// keyNames are what the columns are called where keys are listed.
var keyNames = [columns]string{
	colDigit: "0-9", colPoint: ".", colSign: "+ -", colStar: "*", colSlash: "/", colEnter: "Enter",
	colErase: "Backspace",
}

// value reports whether the token is a character of a value.
func (t Token) value() bool {
	switch t.Kind {
	case Digit, Point, Plus, Minus, Text:
		return true
	default:
		return false
	}
}

// character reports whether the token is any character, or Enter.
func (t Token) character() bool {
	return t.value() || t.Kind == Star || t.Kind == Slash || t.Kind == Enter
}
