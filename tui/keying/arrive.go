package keying

import "slices"

// Arrive takes a whole value that came at once and by no key, such as a line of
// a serial gauge. It is read where nothing is keyed yet, or as the answer to one
// of the questions named in answers. Anywhere else it is refused whole and
// shown, and the state is unchanged.
func Arrive(s State, text string, v View, answers ...string) (State, []Effect) {
	if busy := s.busy(answers); busy != "" {
		return s, refusal(text + " arrived while " + busy + ": not taken")
	}
	value := s
	value.At, value.Text = Typing, text
	next, effects := complete(value, Token{Kind: Enter, Burst: true}, v)
	if next.At == Typing {
		return s, effects
	}
	return next, effects
}

// busy says why no value can arrive just now, or "".
func (s State) busy(answers []string) string {
	switch {
	case s.At == Held || s.At == Menu:
		return s.standing()
	case s.At == Typing:
		return "a number is being keyed"
	case s.asked() && !slices.Contains(answers, s.Asking.What):
		return "something else is asked for"
	default:
		return ""
	}
}
