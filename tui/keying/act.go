package keying

import (
	"strings"
	"unicode/utf8"

	"borewright/engine/gauge"
)

// act is what a key does.
type act func(State, Token, View) (State, []Effect)

// refusal shows a reason and rings twice.
func refusal(reason string) []Effect { return []Effect{Refuse{reason}, Bell{2}} }

// nothing does nothing.
func nothing(s State, _ Token, _ View) (State, []Effect) { return s, nil }

// numLock says that NumLock looks off.
func numLock(s State, _ Token, _ View) (State, []Effect) { return s, []Effect{NumLockOff{}} }

// add puts a character to the text. A text longer than any reading is kept one
// character too long, so that it is refused whole and never cut.
func add(s State, t Token, _ View) (State, []Effect) {
	if tooLong(s.Text) {
		return s, refusal("longer than any reading; / clears it")
	}
	s.At, s.Text = Typing, s.Text+string(t.char())
	return s, nil
}

func tooLong(text string) bool { return utf8.RuneCountInString(text) > gauge.Longest }

// char returns the token's character, or the usual one of its kind.
func (t Token) char() rune {
	if t.Rune != 0 {
		return t.Rune
	}
	switch t.Kind {
	case Plus:
		return '+'
	case Minus:
		return '-'
	default:
		return '.'
	}
}

// signs are the characters a sign is keyed with.
const signs = "+-\u2212"

// setSign puts the sign last, or first where no digit is keyed, in place of any
// sign keyed before. A digit keyed after a last sign makes no number, so that
// two signs in one burst are never read as one.
func setSign(s State, t Token, v View) (State, []Effect) {
	s.Text = strings.Map(func(r rune) rune {
		if strings.ContainsRune(signs, r) {
			return -1
		}
		return r
	}, s.Text)
	return add(s, t, v)
}

// erase removes the last character.
func erase(s State, _ Token, _ View) (State, []Effect) {
	_, size := utf8.DecodeLastRuneInString(s.Text)
	if s.Text = s.Text[:len(s.Text)-size]; s.Text == "" {
		return s.cleared(), nil
	}
	return s, nil
}

// giveUp gives up what is keyed; the place stays.
func giveUp(s State, _ Token, _ View) (State, []Effect) { return s.cleared(), nil }

// cancel gives up a question.
func cancel(s State, _ Token, _ View) (State, []Effect) {
	return State{Repeat: s.Repeat}, []Effect{Cancel{s.Asking.What}}
}

// openMenu opens the menu.
func openMenu(s State, t Token, _ View) (State, []Effect) {
	s.At, s.Quick = Menu, t.Burst
	return s, nil
}

// goRepeat goes back to the place just taken; what is keyed next is added there.
func goRepeat(s State, _ Token, _ View) (State, []Effect) {
	s.Repeat = true
	return s, []Effect{GoRepeat{}}
}

// addRepeat makes the next number one that is added.
func addRepeat(s State, _ Token, _ View) (State, []Effect) {
	s.Repeat = true
	return s, nil
}

// complete takes, holds or refuses what is keyed.
func complete(s State, t Token, v View) (State, []Effect) {
	if tooLong(s.Text) {
		return s, refusal("longer than any reading; / clears it")
	}
	if t.Burst && s.Dropped {
		return s, refusal(s.Text + " arrived with a character that makes no sense here: not taken; / clears it")
	}
	r := gauge.Result{Kind: gauge.Taken}
	if v.Read != nil {
		r = v.Read(s.Text, t.Burst)
	} else if !s.asked() {
		return s, refusal("nothing can be read here yet")
	}
	switch r.Kind {
	case gauge.Taken:
		s.Held, s.Cable = r, t.Burst
		return s.done(v, "")
	case gauge.Held:
		s.At, s.Held, s.Cable = Held, r, t.Burst
		return s, []Effect{Hold{r}, Bell{2}}
	default:
		return s, refusal(r.Reason)
	}
}

// keep takes what is held, as it was keyed.
func keep(s State, _ Token, v View) (State, []Effect) {
	if !s.asked() && !s.Held.CanKeep() {
		return s, refusal("it has two meanings; / clears it, then key it in full")
	}
	return s.done(v, s.Held.Reason)
}

// done passes on what was keyed and starts afresh.
func (s State) done(v View, despite string) (State, []Effect) {
	if s.asked() {
		return State{Repeat: s.Repeat}, []Effect{Answer{s.Asking.What, s.Text, s.Held, despite, s.Cable}}
	}
	as := First
	switch {
	case s.Repeat:
		as = Repeat
	case v.HasReading:
		as = Replace
	}
	return State{}, []Effect{Take{s.Text, s.Held, as, despite, s.Cable}}
}

// mostArrived is how much is shown of what cannot be taken, in characters.
const mostArrived = 2 * gauge.Longest

// late refuses a value that comes while it cannot be taken, and gathers it so
// that all of it is shown.
func late(s State, t Token, _ View) (State, []Effect) {
	more := s.Arrived != "" && t.Kind != Enter && t.Burst
	if t.Kind != Enter && utf8.RuneCountInString(s.Arrived) < mostArrived {
		s.Arrived += string(t.char())
	}
	reason := "held: * keeps it as keyed, / clears it"
	if t.Burst && s.Arrived != "" {
		reason = s.Arrived + " arrived while " + s.standing() + ": not taken"
	}
	if t.Kind == Enter {
		s.Arrived = ""
	}
	if more {
		return s, []Effect{Refuse{reason}}
	}
	return s, refusal(reason)
}

func (s State) standing() string {
	if s.At == Menu {
		return "the menu is open"
	}
	return "this is held"
}
