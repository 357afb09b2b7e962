package keying

// Step takes one token. It returns the next state and what the host is to do.
func Step(s State, t Token, v View) (State, []Effect) {
	c := table[Where(s, v)][columnOf[t.Kind]]
	if s.tooLate(t) {
		c = arriving
	}
	if !c.late {
		s.Arrived = ""
	}
	if c.off != nil {
		if why := c.off(s, v); why != "" {
			s.Dropped = s.Dropped || s.At == Typing || s.At == Empty && t.value()
			return s, refusal(why)
		}
	}
	return c.do(s, t, v)
}

// tooLate reports whether the token belongs to a burst that came while nothing
// could be taken: one that began so, or that finds a menu it did not open.
func (s State) tooLate(t Token) bool {
	return t.Burst && t.character() && (s.Arrived != "" || s.At == Menu && !s.Quick && t.value())
}
