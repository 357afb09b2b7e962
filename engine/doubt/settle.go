package doubt

import (
	"fmt"

	"borewright/engine/length"
)

// mostMore is how many more readings at a place are ever asked for: beyond it a
// finer gauge is the shorter way. Common practice, no source.
const mostMore = 99

// Settlement says what would take a figure clear of a limit. The zero value is
// of a figure that is clear already.
type Settlement struct {
	// More is how many more readings at each place would settle it, 0 where it
	// is settled or none will.
	More int
	// Places is how many places the figure rests on.
	Places int
	// Finer says that it takes a finer gauge: more readings will not settle it,
	// or only so many that nobody takes them.
	Finer bool
	// Never says that no number of readings will: what they cannot reduce is
	// more than the distance already.
	Never bool
	// Floor is what readings cannot reduce, as an expanded uncertainty in
	// picometres, and Most the name of the most of it.
	Floor float64
	Most  string
}

// Settle says what takes the figure further from a limit than its expanded
// uncertainty, if the mean stays where it is. distance is how far away the
// nearest limit is, on whichever side of it the figure lies: exactly as far is
// clear. Pooled repeatabilities count as they stand. The error is a
// *BadContribution.
func (f Figure) Settle(distance length.Length, c Coverage) (Settlement, error) {
	distance = max(distance, -distance)
	floor, err := f.unrepeated()
	if err != nil {
		return Settlement{}, err
	}
	s := Settlement{Places: f.Places(), Floor: floor.Expanded(c), Finer: true}
	if len(floor.Lines) > 0 {
		s.Most = floor.Lines[0].Name
	}
	// However well it is known, it is never less than this.
	if s.Never = c.Factor(0)*floor.U > float64(distance); s.Never {
		return s, nil
	}
	for more := range mostMore + 1 {
		b, err := f.repeated(more)
		if err != nil {
			return Settlement{}, err
		}
		if b.Guard(c) <= distance {
			s.More, s.Finer = more, false
			break
		}
	}
	return s, nil
}

// Settled reports whether nothing more is needed.
func (s Settlement) Settled() bool { return s.More == 0 && !s.Finer }

// Sentence says what settles it, lengths in the unit with its usual decimals and
// one more: "5 more readings at each of the 2 places would settle it, if they
// read the same". It is empty where nothing more is needed.
func (s Settlement) Sentence(u length.Unit) string {
	switch {
	case s.Settled():
		return ""
	case s.Finer && !s.Never:
		return fmt.Sprintf("it would take more than %d more readings at each place; use a finer gauge", mostMore)
	case s.Finer:
		return fmt.Sprintf("no number of readings will settle it, use a finer gauge: %s stays%s", shown(s.Floor, u), s.mostly())
	case s.Places == 1:
		return fmt.Sprintf("%s at this place would settle it, if they read the same", readings(s.More))
	default:
		return fmt.Sprintf("%s at each of the %d places would settle it, if they read the same", readings(s.More), s.Places)
	}
}

func (s Settlement) mostly() string {
	if s.Most == "" {
		return ""
	}
	return ", most of it " + s.Most
}

func readings(n int) string {
	if n == 1 {
		return "1 more reading"
	}
	return fmt.Sprintf("%d more readings", n)
}
