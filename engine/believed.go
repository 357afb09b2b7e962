package engine

// Doubtful reports whether a setting's zero came back wrong at its last check:
// what is read with it stays suspect until it is zeroed anew.
func (s *Session) Doubtful(setting string) bool { return s.zeroings[setting].bad }

// SuspectReadings counts the readings of a setting that stand now and were
// taken while its zero could not be believed.
func (s *Session) SuspectReadings(setting string) int {
	n := 0
	for _, p := range s.Places() {
		for _, t := range s.Now(p) {
			if set, _ := s.Set(t.Set); set.Setting == setting && s.Drifted(t) {
				n++
			}
		}
	}
	return n
}
