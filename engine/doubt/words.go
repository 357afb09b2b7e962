package doubt

import (
	"fmt"
	"math"
	"strings"

	"borewright/engine/length"
)

// Above these shares one line is most of a doubt, and two together are.
const (
	mostShare = 0.5
	pairShare = 0.75
)

// Sentence says in a machinist's words what the doubt is made of: "most of it is
// the gauge's step". Where something cancels it says that too.
func (b Budget) Sentence() string {
	text := b.most()
	if len(b.Cancelled) > 0 {
		text += "; " + strings.Join(b.Cancelled, " and ") + " " + verb(b.Cancelled, "cancels", "cancel")
	}
	return text
}

func (b Budget) most() string {
	switch {
	case len(b.Lines) == 0:
		return "nothing is known that would make it doubtful"
	case len(b.Lines) == 1:
		return "all of it is " + b.Lines[0].Name
	case b.Lines[0].Share > mostShare:
		return "most of it is " + b.Lines[0].Name
	case b.Lines[0].Share+b.Lines[1].Share > pairShare:
		return "most of it is " + b.Lines[0].Name + " and " + b.Lines[1].Name
	default:
		return fmt.Sprintf("no one thing is most of it; %s is the largest, %.0f %%", b.Lines[0].Name, 100*b.Lines[0].Share)
	}
}

func verb(of []string, one, several string) string {
	if len(of) == 1 {
		return one
	}
	return several
}

// Text says the expanded uncertainty of a diametral figure with its coverage:
// "±0.00012 in (diametral, 95 %, k = 2.12 with 16 degrees of freedom)".
func (b Budget) Text(c Coverage, u length.Unit) string {
	how := c.String()
	if c.k == 0 {
		how = fmt.Sprintf("%s, k = %.2f", how, c.Factor(b.DF))
		if !math.IsInf(b.DF, 0) {
			how += fmt.Sprintf(" with %.0f degrees of freedom", math.Floor(b.DF))
		}
	}
	return fmt.Sprintf("±%s (diametral, %s)", shown(b.Expanded(c), u), how)
}

// shown writes a doubt in picometres with one decimal more than the unit is
// usually shown with, never as nothing where there is some.
func shown(pm float64, u length.Unit) string {
	const most = 12
	e := length.Of(length.Length(math.RoundToEven(pm)))
	places := u.Decimals() + 1
	for ; places < most && e.Sign() != 0 && strings.Trim(e.Format(u, places), "-0.") == ""; places++ {
	}
	return e.Format(u, places) + " " + u.String()
}
