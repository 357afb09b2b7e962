package doubt

import (
	"fmt"
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/stat/distuv"

	"borewright/engine/length"
)

// usualLevel is the coverage where none is chosen.
const usualLevel = 0.95

// Coverage is how sure an expanded uncertainty is to hold the truth: a level by
// Student's t, or a factor k as it stands. The zero value is 95 %.
type Coverage struct {
	level, k float64
}

// AtLevel returns the coverage of a level between 0 and 1, such as 0.99, by
// Student's t. Any other level is the usual 95 %.
func AtLevel(level float64) Coverage {
	if !(level > 0 && level < 1) {
		return Coverage{}
	}
	return Coverage{level: level}
}

// The factors k that are believed.
const leastK, mostK = 1, 10

// ParseCoverage reads a factor k as decimal text, from 1 to 10, as a session
// states it; empty text is the usual 95 %.
func ParseCoverage(text string) (Coverage, error) {
	if text == "" {
		return Coverage{}, nil
	}
	d, err := length.ParseDecimal(text)
	if err != nil {
		return Coverage{}, fmt.Errorf("coverage factor: %w", err)
	}
	k := float64(d.Coef) / math.Pow10(d.Places)
	if k < leastK || k > mostK {
		return Coverage{}, fmt.Errorf("coverage factor %q is not from %d to %d", text, leastK, mostK)
	}
	return Coverage{k: k}, nil
}

// Factor returns the coverage factor for so many degrees of freedom: the factor
// k where one was chosen, else the quantile of Student's t, both sides, the
// degrees of freedom cut to a whole number (GUM G.4.2). Infinitely many, and 0,
// are the normal distribution.
func (c Coverage) Factor(df float64) float64 {
	if c.k > 0 {
		return c.k
	}
	level := c.level
	if level == 0 {
		level = usualLevel
	}
	if whole := int(math.Floor(df)); level == usualLevel && whole > 0 && whole < tabled {
		return usualFactor(whole)
	}
	return studentQuantile(math.Floor(df), level)
}

// tabled is below how many degrees of freedom a usual factor is worked out once:
// they were a quarter of what a full assessment costs, those from 200 on a
// twentieth. To work all below 200 out at the first use took 4 of the 17 ms that
// resuming a session of 500 events added.
const tabled = 4096

// usualFactors are the factors of the usual level by degrees of freedom, zero
// where one was not asked for yet.
var usualFactors [tabled]atomic.Uint64

func usualFactor(df int) float64 {
	if k := usualFactors[df].Load(); k != 0 {
		return math.Float64frombits(k)
	}
	k := studentQuantile(float64(df), usualLevel)
	usualFactors[df].Store(math.Float64bits(k))
	return k
}

// String says the coverage: "95 %" or "k = 2".
func (c Coverage) String() string {
	switch {
	case c.k > 0:
		return fmt.Sprintf("k = %.4g", c.k)
	case c.level == 0:
		return fmt.Sprintf("%.4g %%", 100*usualLevel)
	default:
		return fmt.Sprintf("%.4g %%", 100*c.level)
	}
}

// asNormal is from how many degrees of freedom on Student's t is the normal
// distribution, to a part in a million.
const asNormal = 1e6

// studentQuantile returns what Student's t stays within, on both sides of zero,
// with a chance of level.
func studentQuantile(df, level float64) float64 {
	p := (1 + level) / 2
	if df <= 0 || df > asNormal {
		return distuv.UnitNormal.Quantile(p)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(p)
}
