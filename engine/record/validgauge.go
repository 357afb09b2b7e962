package record

func (i Instrument) validate(int64) error { return i.Validate() }

func (s Setting) validate(int64) error { return s.Validate() }

func (s Set) validate(int64) error { return s.Validate() }

func (z Zero) validate(int64) error {
	if z.Skipped {
		return first(
			name("set", z.Set),
			when(z.Keyed != "", wrong("keyed", z.Keyed, "a check that was skipped has no reading")),
			when(!z.Deviation.IsZero(), wrong("deviation", z.Deviation.String(), "a check that was skipped has no deviation")),
			when(z.Why == "", wrong("why", "", "a check that was skipped says why")),
		)
	}
	return first(
		name("set", z.Set),
		name("keyed", z.Keyed),
		when(z.Deviation.IsZero(), wrong("deviation", "", "it is missing")),
	)
}
