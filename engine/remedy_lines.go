package engine

// doLines says what to do about a finding, below it; what several findings
// have in common is said with the first.
func (a *Assessment) doLines(s *Session, f Finding, said map[string]bool) []string {
	text := a.Remedy(s, f)
	switch {
	case text == "":
		return nil
	case said[text]:
		return []string{"                              do: as said above"}
	}
	said[text] = true
	return []string{"                              do: " + text}
}

// intendedLines lists what was decided and what became of it.
func (a *Assessment) intendedLines(s *Session) []string {
	var out []string
	for _, x := range a.Intentions(s) {
		out = append(out, "  "+x.Text)
	}
	if len(out) == 0 {
		return nil
	}
	return append([]string{"", "Decided, and what came of it:"}, out...)
}

// Intentions returns what was decided and what became of it: see
// Session.Intentions.
func (a *Assessment) Intentions(s *Session) []Intention { return s.Intentions(a) }
