package setup

import (
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Formula is a rule of thumb that makes limits of a nominal size. It fills
// limits in beforehand; what the maker of the part prints goes before it.
type Formula struct {
	// Source says where it comes from, or that it is common practice.
	Source string
	// From is the family whose nominal size goes into it.
	From plan.Family
	rule thumbRow
	// perTravel says that the figures are per one of the unit of travel.
	perTravel bool
}

// moreFormulas are those that no setup proposes by itself.
var moreFormulas = []Formula{
	{
		Source: sourceCommon, From: plan.Bore,
		rule: thumbRow{of: plan.RingGap, on: limit.EndGap, newLow: per(3500)},
	},
	{
		Source: sourceTravel, From: plan.Bore, perTravel: true,
		rule: thumbRow{of: plan.Bore, on: limit.Taper, wearHigh: plainSlope(5)},
	},
}

const sourceTravel = "0.0005 per inch of piston travel: TM 10-3930-647-14&P; the maker's data govern"

// plainSlope is so many ten-thousandths per one, in either unit: a slope has no
// unit.
func plainSlope(n int64) thumb { return thumb{given: true, inch: n, mm: n} }

// Formulas returns the rules of thumb for a characteristic of a family.
func Formulas(f plan.Family, on limit.Characteristic) []Formula {
	var out []Formula
	for _, r := range thumbs {
		if r.of == f && r.on == on {
			out = append(out, Formula{Source: r.source, From: f, rule: r})
		}
	}
	for _, x := range moreFormulas {
		if x.rule.of == f && x.rule.on == on {
			out = append(out, x)
		}
	}
	return out
}

// Limits returns what the formula makes of a nominal size, in the unit that is
// written in; nothing without one in inches or millimetres. Of limits per
// travel the travel is left to be filled in.
func (f Formula) Limits(nominal length.Written) limit.Limits {
	if nominal.Unit != length.In && nominal.Unit != length.MM {
		return limit.Limits{}
	}
	if f.perTravel {
		return f.slope(nominal.Unit)
	}
	l := f.rule.limits(nominal)
	l.Source = f.Source
	return l
}

// slope returns limits per one of a unit.
func (f Formula) slope(u length.Unit) limit.Limits {
	w := func(t thumb) length.Written {
		if !t.given {
			return length.Written{}
		}
		return length.Written{Length: u.Size() / 10_000 * length.Length(t.inch), Unit: u, Places: 4}
	}
	return limit.Limits{
		On: f.rule.on, Of: string(f.rule.of), Source: f.Source,
		New:  limit.Range{Low: w(f.rule.newLow), High: w(f.rule.newHigh)},
		Wear: limit.Range{Low: w(f.rule.wearLow), High: w(f.rule.wearHigh)},
		Per:  length.Written{Length: u.Size(), Unit: u},
	}
}

// Text writes the formula, its added lengths in the unit.
func (f Formula) Text(u length.Unit) string {
	var out []string
	for _, x := range []struct {
		name      string
		low, high thumb
	}{{"new", f.rule.newLow, f.rule.newHigh}, {"wear", f.rule.wearLow, f.rule.wearHigh}} {
		low, high := f.term(x.low, u), f.term(x.high, u)
		switch {
		case low == "" && high == "":
		case low == "":
			out = append(out, x.name+" to "+high)
		case high == "":
			out = append(out, x.name+" from "+low)
		default:
			out = append(out, x.name+" "+low+" to "+high)
		}
	}
	return strings.Join(out, "; ")
}

// term writes one limit of the formula.
func (f Formula) term(t thumb, u length.Unit) string {
	if !t.given {
		return ""
	}
	add := length.Written{Length: u.Size() / 10_000 * length.Length(t.inch), Unit: u, Places: 4}
	if u == length.MM && !f.perTravel {
		add = millimetres(t.mm)
	}
	of := "nominal"
	if f.From != f.rule.of {
		of = f.From.Noun() + " " + of
	}
	share := strings.TrimRight(length.Decimal{Coef: t.perMillion, Places: 6}.String(), "0") + " × " + of
	switch {
	case f.perTravel:
		return add.Number() + " per 1 of travel"
	case !t.size && t.perMillion == 0:
		return add.String()
	case !t.size:
		return share
	case t.perMillion != 0:
		return of + " + " + share
	case add.Length < 0:
		return of + " - " + strings.TrimPrefix(add.String(), "-")
	case add.Length > 0:
		return of + " + " + add.String()
	default:
		return of
	}
}

// IsFilledIn reports whether the program itself wrote where limits come from: a
// proposal, a formula or a tolerance class. It holds no longer once a value is
// keyed over what was filled in.
func IsFilledIn(source string) bool {
	return proposedSources[source] || source == sourceTravel || strings.HasPrefix(source, classSource)
}
