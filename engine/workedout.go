package engine

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// WorkedOut is a figure that is worked out from what is measured and given, and
// that no limit of the session judges.
type WorkedOut struct {
	// Name says what it is of, Value the figure in words, with its unit.
	Name, Value string
	// Outside says that it is outside the limits given with it, Missing what is
	// not known of it; with that there is no Value.
	Outside bool
	Missing string
}

// Text says it in words, what is outside its limits first.
func (x WorkedOut) Text() string {
	if x.Outside {
		return x.Name + ": OUTSIDE, " + x.Value + x.Missing
	}
	return x.Name + ": " + x.Value + x.Missing
}

// WorkedOut returns the clearances as they run warm, the hot ring gaps, the
// compression ratios, and the stretch and torque of fasteners: whatever is given
// enough for.
func (s *Session) WorkedOut(a *Assessment) []WorkedOut {
	var out []WorkedOut
	for _, c := range a.Clearances {
		out = append(out, s.runningOf(a, c)...)
	}
	for _, m := range a.Features {
		if m.Of.Family == plan.RingGap && m.Read > 0 {
			out = append(out, s.hotGapOf(a, m.Of)...)
		}
	}
	out = append(out, s.compressions(a)...)
	return append(out, s.fasteners()...)
}

// body returns what a part is made of and how warm it runs, as given.
func (s *Session) body(f plan.Feature) (b fit.Body, ok bool) {
	alpha, okAlpha := s.givenNumber(GivenExpansion, f)
	at, okAt := s.givenNumber(GivenRunning, f)
	return fit.Body{Alpha: alpha, At: at}, okAlpha && okAt
}

// runningOf works a clearance out at the temperatures its parts run at: nothing
// where neither part has one.
func (s *Session) runningOf(a *Assessment, c *Fit) []WorkedOut {
	hole, okHole := s.body(c.Hole)
	shaft, okShaft := s.body(c.Shaft)
	if !okHole && !okShaft || !c.Clearance.Judged.Measured() {
		return nil
	}
	name := c.Name + ", running clearance"
	if !okHole || !okShaft {
		of := c.Hole
		if okHole {
			of = c.Shaft
		}
		return []WorkedOut{{Name: name, Missing: "the expansion or the running temperature of " + of.Family.Plural() + " is not given"}}
	}
	// What is judged is of one hole and one shaft: they differ by it whatever
	// their size, and only the difference of their growth matters.
	m, _ := a.Feature(c.Shaft)
	size := m.Figures.Mean
	warm := fit.Running(size.Add(c.Clearance.Judged), size, hole, shaft)
	return []WorkedOut{{Name: name, Value: fmt.Sprintf("%s at %s and %s °C, %s cold", s.amount(s.rounded(warm)), degrees(hole.At), degrees(shaft.At), s.amount(c.Clearance.Judged))}}
}

// rounded brings a figure that went through floating point to one decimal more
// than the unit's usual.
func (s *Session) rounded(e length.Exact) length.Exact {
	u := s.Unit()
	w, err := length.Parse(e.Format(u, u.Decimals()+1), u)
	if err != nil {
		return e
	}
	return w.Exact()
}

func degrees(t float64) string { return strconv.FormatFloat(t, 'f', -1, 64) }

// hotGapOf works the gap of a ring out when it is hot.
func (s *Session) hotGapOf(a *Assessment, of plan.Feature) []WorkedOut {
	r := s.Ring(a, of)
	if !r.Hot.Measured() {
		return nil
	}
	value := s.amount(s.rounded(r.Hot)) + " hot"
	if r.ButtsAt > 0 {
		value += fmt.Sprintf(", its ends touch at %.0f °C", r.ButtsAt)
	}
	return []WorkedOut{{Name: s.Name(of), Value: value, Outside: r.Hot.Sign() <= 0}}
}

// compressions works the compression ratio of every cylinder out, if chambers
// are given.
func (s *Session) compressions(a *Assessment) []WorkedOut {
	var out []WorkedOut
	for at := 1; at <= s.layout.Cylinders; at++ {
		f := plan.Feature{Family: plan.Bore, At: at}
		if _, ok := s.given(GivenChamber, f); ok {
			out = append(out, s.compression(a, f))
		}
	}
	return out
}

func (s *Session) compression(a *Assessment, bore plan.Feature) WorkedOut {
	out := WorkedOut{Name: "cylinder " + s.layout.Label(bore) + ", compression ratio"}
	m, _ := a.Feature(bore)
	deck, _ := a.Feature(plan.Feature{Family: plan.Deck, At: bore.At})
	c := fit.Cylinder{
		Bore: m.Figures.Mean, Stroke: s.givenLength(GivenStroke, bore), Deck: deck.Figures.Mean,
		Gasket: s.givenLength(GivenGasket, bore), GasketBore: s.givenLength(GivenGasketBore, bore),
	}
	c.Chamber, _ = s.givenNumber(GivenChamber, bore)
	c.Dish, _ = s.givenNumber(GivenDish, bore)
	var missing []string
	for _, x := range []struct {
		e    length.Exact
		what string
	}{{c.Bore, "the bore"}, {c.Stroke, "the stroke"}, {c.Deck, "the deck clearance"}, {c.Gasket, "the gasket's thickness"}, {c.GasketBore, "the gasket's bore"}} {
		if !x.e.Measured() {
			missing = append(missing, x.what)
		}
	}
	if len(missing) > 0 {
		out.Missing = "not known: " + strings.Join(missing, ", ")
		return out
	}
	ratio, ok := c.Ratio()
	if !ok {
		out.Missing = "what is given leaves no room for the charge"
		return out
	}
	v := c.Volumes()
	out.Value = fmt.Sprintf("%.2f to 1: %.1f cm³ swept, %.1f cm³ left", ratio, v.Swept, v.Compressed())
	return out
}

// workedOutLines tells what is worked out, for whoever reads every figure.
func (a *Assessment) workedOutLines(s *Session) []string {
	var out []string
	for _, x := range s.WorkedOut(a) {
		out = append(out, "  "+x.Text())
	}
	if len(out) == 0 {
		return nil
	}
	return append([]string{"", "Worked out:"}, out...)
}
