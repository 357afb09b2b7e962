package draw

import "math"

// Profiles are features of one kind side by side, each cut along its axis, with
// their form drawn much too large by one factor that is common to all of them.
// Everything is diametral: each wall is moved by half of the difference in
// diameter.
//
// Read one by shape: solid is metal whichever way it was read, hatched lies
// between the smallest and the largest reading of a level, and a dotted line is
// the reference, alone where nothing was read.
type Profiles struct {
	Kind    Kind
	Depths  []float64 // of the levels, as in a Level
	Of      []Profile
	ASCII   bool
	Palette *Palette
}

// Profile is one feature of the row.
type Profile struct {
	// Levels has a span for each depth; what is missing was not read.
	Levels []Span
	// At is the level that is marked with a sign in a tone; there is none where
	// the sign is empty.
	At   int
	Sign string
	Tone Tone
}

// Span is what was read at one level: the smallest and the largest diameter,
// each as (diameter - reference) / reference. It is used when Measured is set.
type Span struct {
	Least, Most float64
	Measured    bool
}

// ProfileLeast is the least width of a profile, in cells.
const ProfileLeast = 5

// known reports whether a span can be drawn.
func (s Span) known() bool {
	sum := s.Least + s.Most
	return s.Measured && !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// Measured reports whether there is any form to draw.
func (p Profiles) Measured() bool {
	_, _, measured := p.extent()
	return measured
}

// Draw draws every profile in exactly h lines of w cells. There is nothing but
// blanks in less than [ProfileLeast] cells.
func (p Profiles) Draw(w, h int) [][]string {
	out := make([][]string, len(p.Of))
	at := p.scale(w)
	rows := p.Rows(h)
	for i, x := range p.Of {
		c := newCanvas(w, h)
		if w >= ProfileLeast && len(rows) > 0 {
			profileOn{p, x, c, at, rows}.draw()
		}
		out[i] = c.lines(p.Palette)
	}
	return out
}

// Rows gives the row of each level when h rows are drawn.
func (p Profiles) Rows(h int) []int {
	levels := make([]Level, len(p.Depths))
	for i, d := range p.Depths {
		levels[i].Depth = d
	}
	if h < 1 {
		return nil
	}
	return levelRows(levels, h)
}

// Factor is how much too large the form is drawn in w cells.
func (p Profiles) Factor(w int) float64 { return p.scale(w).factor }

// FactorText states a factor in words, such as "form × 2000".
func FactorText(factor float64, signs Signs) string { return factorText(factor, signs.Times) }

// leastSpread is the spread of deviations from which on the factor follows from
// it; below it any factor draws them alike.
const leastSpread = 1e-12

// profileScale turns a deviation into where the wall stands.
type profileScale struct {
	factor float64
	low    float64 // the deviation that stands farthest in
	edge   float64 // half cells from either end to the wall at low
	cells  float64 // half cells per deviation
}

// wall is where a wall stands, in half cells from either end: less for what is
// larger.
func (s profileScale) wall(deviation float64) float64 {
	return s.edge - s.cells*(deviation-s.low)
}

// scale gives all deviations, and the reference among them, the same reach at
// both sides of w cells. One cell at either end is always left for the metal of
// a hole or the room around a shaft, and a quarter in the middle.
func (p Profiles) scale(w int) profileScale {
	low, high, _ := p.extent()
	w = max(w, ProfileLeast)
	reach := (w - 2 - max(1, w/4)) / 2
	s := profileScale{factor: profileFactors[len(profileFactors)-1], low: low, edge: float64(2 + 2*reach)}
	inner := float64(w) - s.edge // cells between the walls at low
	if high-low > leastSpread {
		most := float64(reach) / (high - low)
		s.factor = niceBelow(2 * most / (inner - 2*most*low))
	}
	// The diameter drawn at the reference, inner - 2*cells*low, is itself larger
	// where the reference does not stand farthest in.
	s.cells = s.factor * inner / (1 + s.factor*low)
	return s
}

// extent is the range of what is drawn, the reference among it.
func (p Profiles) extent() (low, high float64, measured bool) {
	for _, x := range p.Of {
		for i, s := range x.Levels {
			if i < len(p.Depths) && s.known() {
				low, high, measured = min(low, clamp(s.Least)), max(high, clamp(s.Most)), true
			}
		}
	}
	return low, high, measured
}

// clamp keeps a deviation to what a diameter can be in a drawing: from half of
// the reference to twice it.
func clamp(deviation float64) float64 { return min(max(deviation, -0.5), 1) }

// profileFactors are the factors that are stated.
var profileFactors = []float64{
	1, 1.5, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 600, 800,
	1000, 1500, 2000, 3000, 4000, 5000,
}

// niceBelow is the largest of them that is not above f; f itself, rounded down
// to a hundredth, when it is below them all.
func niceBelow(f float64) float64 {
	best := math.Floor(f*100) / 100
	for _, x := range profileFactors {
		if x <= f {
			best = x
		}
	}
	return best
}
