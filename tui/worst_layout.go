package tui

// worstLayout is how the worst screen shares its body: a pure function of its
// height and of how many lineups there are to draw.
type worstLayout struct {
	big int // rows of the two in large digits
	// forms are the rows of the form in each lineup that is drawn.
	forms []int
	// what says that a lineup names what is worst of each.
	what bool
	list int // rows of the findings
}

// What a lineup takes beside its forms (its rule, the labels, the clearance and
// the margin), the least and the most rows of a form, the least for the
// findings, and the heights from which the large digits grow.
const (
	lineupRows         = 4
	leastForm, tallest = 3, 14
	leastList          = 9
	bigFrom, largeFrom = 40, 54
)

func layoutWorst(h, lineups int) worstLayout {
	l := worstLayout{big: 5}
	switch {
	case h >= largeFrom:
		l.big = 10
	case h >= bigFrom:
		l.big = 7
	}
	spare := h - l.big - leastList
	for range min(lineups, spare/(lineupRows+leastForm)) {
		l.forms = append(l.forms, leastForm)
		spare -= lineupRows + leastForm
	}
	if n := len(l.forms); n > 0 && spare >= 3*n {
		l.what, spare = true, spare-n
	}
	for grown := true; grown && spare > 0; {
		grown = false
		for i := range l.forms {
			if l.forms[i] < tallest && spare >= 2 { // every other row is for the findings
				l.forms[i], spare, grown = l.forms[i]+1, spare-2, true
				l.list++
			}
		}
	}
	l.list += leastList + spare
	return l
}

// lineupHigh is how many rows a lineup takes.
func (l worstLayout) lineupHigh(i int) int {
	if l.what {
		return lineupRows + l.forms[i] + 1
	}
	return lineupRows + l.forms[i]
}
