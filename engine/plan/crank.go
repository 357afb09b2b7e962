package plan

// The halves of a shared rod journal.
const (
	FrontHalf = "front"
	RearHalf  = "rear"
)

// RodJournalOf returns the rod journal that carries a cylinder's rod and, when
// two rods share it, the half that is its own. Cylinders count from the front,
// left bank first; journals count from the front. The bank that leads has its
// rods in front.
func (l Layout) RodJournalOf(cylinder int) (journal int, half string) {
	perBank := l.Cylinders / l.Banks()
	if l.Banks() == 1 {
		return cylinder, ""
	}
	along, second := (cylinder-1)%perBank+1, cylinder > perBank
	if l.Lead == RightBank {
		second = !second
	}
	switch {
	case l.Shared && second:
		return along, RearHalf
	case l.Shared:
		return along, FrontHalf
	case second:
		return 2 * along, ""
	default:
		return 2*along - 1, ""
	}
}

// CylindersOn returns the cylinders whose rods stand on a rod journal, the one
// in front first.
func (l Layout) CylindersOn(journal int) []int {
	var front, rear []int
	for c := 1; c <= l.Cylinders; c++ {
		switch j, half := l.RodJournalOf(c); {
		case j != journal:
		case half == RearHalf:
			rear = append(rear, c)
		default:
			front = append(front, c)
		}
	}
	return append(front, rear...)
}
