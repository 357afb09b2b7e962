package term

import (
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
)

const minusSign = '\u2212'

// character turns one typed, pasted or received character into its token. It
// reports false for what is not taken: NUL, the other control characters, and
// characters that have no shape of their own. CR and LF are Enter and keep
// their rune until the decoder has joined CR LF.
func character(r rune) (Token, bool) {
	switch {
	case r == '\r' || r == '\n':
		return Token{Kind: Enter, Rune: r}, true
	case unicode.Is(unicode.Zs, r):
		return Token{Kind: Text, Rune: ' '}, true
	case !unicode.IsPrint(r):
		return Token{}, false
	}
	return Token{Kind: class(r), Rune: r}, true
}

// class is the kind of a printable character.
func class(r rune) Kind {
	switch r {
	case '0', '1', '2', '3', '4', '5', '6', '7', '8', '9':
		return Digit
	case '.', ',':
		return Point
	case '+':
		return Plus
	case '-', minusSign:
		return Minus
	case '*':
		return Star
	case '/':
		return Slash
	default:
		return Text
	}
}

// keypad is what the second letter of ESC O stands for when the terminal is
// in application keypad mode. Bubble Tea v1 knows only A to D and P to S and
// reports the others as alt+O and a letter. l is the separator key of a
// DEC VT220 keypad; Terminal on macOS sends it for '+'.
var keypad = map[rune]Token{
	'M': {Kind: Enter},
	'p': {Kind: Digit, Rune: '0'},
	'q': {Kind: Digit, Rune: '1'},
	'r': {Kind: Digit, Rune: '2'},
	's': {Kind: Digit, Rune: '3'},
	't': {Kind: Digit, Rune: '4'},
	'u': {Kind: Digit, Rune: '5'},
	'v': {Kind: Digit, Rune: '6'},
	'w': {Kind: Digit, Rune: '7'},
	'x': {Kind: Digit, Rune: '8'},
	'y': {Kind: Digit, Rune: '9'},
	'n': {Kind: Point, Rune: '.'},
	'k': {Kind: Plus, Rune: '+'},
	'l': {Kind: Plus, Rune: '+'},
	'm': {Kind: Minus, Rune: '-'},
	'j': {Kind: Star, Rune: '*'},
	'o': {Kind: Slash, Rune: '/'},
	'X': {Kind: Text, Rune: '='},
	'H': {Kind: Navigation, Name: NavHome},
	'F': {Kind: Navigation, Name: NavEnd},
	'E': {Kind: Navigation, Name: NavMiddle},
}

// navigation names the keys that move; shift and ctrl make no difference.
var navigation = map[tea.KeyType]string{
	tea.KeyUp: NavUp, tea.KeyShiftUp: NavUp, tea.KeyCtrlUp: NavUp, tea.KeyCtrlShiftUp: NavUp,
	tea.KeyDown: NavDown, tea.KeyShiftDown: NavDown, tea.KeyCtrlDown: NavDown, tea.KeyCtrlShiftDown: NavDown,
	tea.KeyLeft: NavLeft, tea.KeyShiftLeft: NavLeft, tea.KeyCtrlLeft: NavLeft, tea.KeyCtrlShiftLeft: NavLeft,
	tea.KeyRight: NavRight, tea.KeyShiftRight: NavRight, tea.KeyCtrlRight: NavRight, tea.KeyCtrlShiftRight: NavRight,
	tea.KeyHome: NavHome, tea.KeyShiftHome: NavHome, tea.KeyCtrlHome: NavHome, tea.KeyCtrlShiftHome: NavHome,
	tea.KeyEnd: NavEnd, tea.KeyShiftEnd: NavEnd, tea.KeyCtrlEnd: NavEnd, tea.KeyCtrlShiftEnd: NavEnd,
	tea.KeyPgUp: NavPageUp, tea.KeyCtrlPgUp: NavPageUp,
	tea.KeyPgDown: NavPageDown, tea.KeyCtrlPgDown: NavPageDown,
	tea.KeyInsert: NavInsert, tea.KeyDelete: NavDelete,
}

// plain are the keys that stand for themselves. Enter keeps its rune until
// the decoder has joined CR LF.
var plain = map[tea.KeyType]Token{
	tea.KeyEnter:     {Kind: Enter, Rune: '\r'},
	tea.KeyCtrlJ:     {Kind: Enter, Rune: '\n'},
	tea.KeyBackspace: {Kind: Erase},
	tea.KeyCtrlH:     {Kind: Erase},
	tea.KeyTab:       {Kind: Tab},
	tea.KeyShiftTab:  {Kind: ShiftTab},
	tea.KeyEscape:    {Kind: Escape},
}

// special turns a key that is not a character into its token. It reports
// false for NUL, which is never taken.
func special(k tea.KeyType) (Token, bool) {
	if k == tea.KeyNull {
		return Token{}, false
	}
	if t, ok := plain[k]; ok {
		return t, true
	}
	if name, ok := navigation[k]; ok {
		return Token{Kind: Navigation, Name: name}, true
	}
	if k > tea.KeyNull && k < ' ' {
		return Token{Kind: Control, Name: k.String()}, true
	}
	return Token{Kind: Unknown, Name: k.String()}, true
}

// splits reports whether alt with this token is taken as Escape and then the
// token: both in one read look the same. Alt with a letter stays the letter,
// and alt with a key that moves or erases stays that key, since there alt is
// the likelier.
func splits(k Kind) bool {
	switch k {
	case Digit, Point, Plus, Minus, Star, Slash, Enter, Tab, Escape:
		return true
	default:
		return false
	}
}
