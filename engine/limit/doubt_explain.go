package limit

import (
	"maps"
	"slices"
)

// move is one thing that may have gone wrong with a sheet: the fields it is
// about, the sheet as it was before, and the guess for each field.
type move struct {
	fields  []Field
	before  sheet
	guesses []Guess
}

// mostWrongDigits is how many single wrong digits are named for one field; more
// of them say nothing.
const mostWrongDigits = 4

// doubts explains every breach of the sheet. Breaches that share a field are
// explained together.
func (s sheet) doubts() []Doubt {
	all := s.breaches()
	var out []Doubt
	for alone := true; len(all) > 0; alone = false {
		group, fields := together(all)
		all = slices.DeleteFunc(all, func(b breach) bool { return b.in(fields) })
		out = append(out, s.explained(group, s.explanations(fields, alone && len(all) == 0))...)
	}
	return out
}

// together returns the breaches that hang together with the first, and their
// fields.
func together(all []breach) (group []breach, fields []Field) {
	fields = all[0].fields
	for range all {
		for _, b := range all {
			if b.in(fields) {
				fields = append(slices.Clone(fields), b.fields...)
			}
		}
	}
	slices.Sort(fields)
	fields = slices.Compact(fields)
	for _, b := range all {
		if b.in(fields) {
			group = append(group, b)
		}
	}
	return group, fields
}

// explanations returns the moves that explain the breaches of some fields. Where
// there are no other breaches these are the moves that leave none. Else there is
// more than one slip, and what a field says by itself counts too.
func (s sheet) explanations(fields []Field, alone bool) []move {
	all := s.moves(fields)
	good := without(all, func(m move) bool { return m.leaves(fields) })
	if len(good) == 0 {
		good = without(s.digitMoves(fields), func(m move) bool { return m.leaves(fields) })
	}
	if len(good) > 0 && alone {
		return good
	}
	if len(good) == 0 {
		good = without(all, func(m move) bool { return m.leaves(m.fields) })
	}
	for _, f := range fields {
		if s.breached(f) {
			good = append(good, without(all, func(m move) bool { return !slices.Equal(m.fields, []Field{f}) || m.before.breached(f) })...)
		}
	}
	return good
}

// without returns the moves that are not bad.
func without(moves []move, bad func(move) bool) []move {
	return slices.DeleteFunc(slices.Clone(moves), bad)
}

// breached reports whether there is a breach of one field alone.
func (s sheet) breached(f Field) bool {
	return slices.ContainsFunc(s.breaches(), func(b breach) bool { return slices.Equal(b.fields, []Field{f}) })
}

// leaves reports whether a breach of one of the fields is left after the move.
func (m move) leaves(fields []Field) bool {
	return slices.ContainsFunc(m.before.breaches(), func(b breach) bool { return b.in(fields) })
}

// explained returns a doubt for every field that a move explains, and for every
// field of a breach that none does.
func (s sheet) explained(group []breach, moves []move) []Doubt {
	guesses := map[Field][]Guess{}
	for _, m := range moves {
		for i, f := range m.fields {
			same := func(g Guess) bool { return g.Text == m.guesses[i].Text }
			if !slices.ContainsFunc(guesses[f], same) {
				guesses[f] = append(guesses[f], m.guesses[i])
			}
		}
	}
	guessed := slices.Collect(maps.Keys(guesses))
	var out []Doubt
	for _, f := range s.fields() {
		i := slices.IndexFunc(group, func(b breach) bool {
			return b.in([]Field{f}) && (guesses[f] != nil || !b.in(guessed))
		})
		if i < 0 {
			continue
		}
		out = append(out, Doubt{
			Field: f, Reason: group[i].reason, Written: s.at[f].String(), Why: group[i].why, Likely: telling(guesses[f]),
		})
	}
	return out
}

// telling leaves single wrong digits out where there are too many of them.
func telling(guesses []Guess) []Guess {
	digits := 0
	for _, g := range guesses {
		if g.Slip == OneDigit {
			digits++
		}
	}
	if digits <= mostWrongDigits {
		return guesses
	}
	return slices.DeleteFunc(guesses, func(g Guess) bool { return g.Slip == OneDigit })
}

// moves returns what may have gone wrong with some fields, the likeliest first:
// two limits exchanged, one slip in one printing, the same slip in both.
func (s sheet) moves(fields []Field) []move {
	var out []move
	for _, o := range orders {
		if low, high, both := s.pair(o); both && low.Length() > high.Length() && o.low != Target && o.high != Target {
			out = append(out, s.exchange(o))
		}
	}
	for _, f := range fields {
		a, b := s.at[f], s.also[f]
		for _, g := range a.before(b) {
			out = append(out, s.slip(f, g.was, b, g.slip, g.was.String()))
		}
		if b == (Printed{}) {
			continue
		}
		for _, g := range b.before(a) {
			out = append(out, s.slip(f, a, g.was, g.slip, g.was.String()))
		}
		if a.Agrees(b) {
			out = append(out, s.slipInBoth(f)...)
		}
	}
	return out
}

// digitMoves are the moves of a single wrong digit, in either printing.
func (s sheet) digitMoves(fields []Field) []move {
	var out []move
	for _, f := range fields {
		a, b := s.at[f], s.also[f]
		for _, g := range a.wrongDigits() {
			out = append(out, s.slip(f, g.was, b, g.slip, g.was.String()))
		}
		if b == (Printed{}) {
			continue
		}
		for _, g := range b.wrongDigits() {
			out = append(out, s.slip(f, a, g.was, g.slip, g.was.String()))
		}
	}
	return out
}

// before returns what a printing may have been before one slip; beside is the
// other printing, zero where there is none.
func (p Printed) before(beside Printed) []slipped {
	out := p.turned(beside)
	if beside == (Printed{}) {
		out = p.untwisted()
	}
	for _, g := range p.slips() {
		if g.slip != WrongUnit || g.was.Unit != beside.Unit {
			out = append(out, g)
		}
	}
	return out
}

// slipInBoth are the moves of the same slip in both printings of a field.
func (s sheet) slipInBoth(f Field) []move {
	var out []move
	for _, g := range s.at[f].slips() {
		for _, h := range s.also[f].slips() {
			if g.slip == h.slip && g.was.Agrees(h.was) {
				out = append(out, s.slip(f, g.was, h.was, g.slip, g.was.String()+" ("+h.was.String()+")"))
			}
		}
	}
	return out
}

// slip is the move by which a field had other printings.
func (s sheet) slip(f Field, at, also Printed, slip Slip, text string) move {
	m := move{fields: []Field{f}, before: s.clone(), guesses: []Guess{{slip, text}}}
	m.before.at[f] = at
	if also != (Printed{}) {
		m.before.also[f] = also
	}
	return m
}

// exchange is the move by which two fields stood in each other's place.
func (s sheet) exchange(o ordered) move {
	low, high := s.at[o.low], s.at[o.high]
	m := move{
		fields: []Field{o.low, o.high}, before: s.clone(),
		guesses: []Guess{{Exchanged, high.String()}, {Exchanged, low.String()}},
	}
	m.before.at[o.low], m.before.at[o.high] = high, low
	m.before.also[o.low], m.before.also[o.high] = s.also[o.high], s.also[o.low]
	return m
}

// clone returns a sheet that can be changed.
func (s sheet) clone() sheet {
	s.at, s.also = maps.Clone(s.at), maps.Clone(s.also)
	return s
}
