package setup

import (
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Rules of thumb only fill a setup in beforehand. Each says where it comes
// from; what the maker of the part prints goes before all of them.
const (
	sourceCommon  = "common practice, no source; the maker's data govern"
	sourceBore    = "new: common practice, no source; wear: TM 10-3930-647-14&P; the maker's data govern"
	sourceRound   = "new: NAVEDTRA 14264A p. 3-4; wear: a used liner, TM 9-2815-202-34 p. 4-147; the maker's data govern"
	sourceTaper   = "new: common practice, no source; wear: a used liner, TM 9-2815-202-34 p. 4-147; the maker's data govern"
	sourceJournal = "wear: one engine's journals, TM 9-2815-202-34 p. 4-158; the maker's data govern"
)

var proposedSources = map[string]bool{
	sourceCommon: true, sourceBore: true, sourceRound: true, sourceTaper: true, sourceJournal: true,
}

// thumb is one limit as a rule of thumb: so much, and so much for each unit of
// the nominal. The zero value is no limit.
type thumb struct {
	// on the nominal itself, or from zero.
	size, given bool
	// perMillion is how many millionths of the nominal are added.
	perMillion int64
	// inch and mm are added: ten-thousandths of an inch, or thousandths of a
	// millimetre, as the nominal is written. A limit from an inch table is
	// rounded to the tighter side in millimetres.
	inch, mm int64
}

// thumbRow are the rules for one characteristic of a family.
type thumbRow struct {
	of       plan.Family
	on       limit.Characteristic
	newLow   thumb
	newHigh  thumb
	wearLow  thumb
	wearHigh thumb
	source   string
}

func plain(inch, mm int64) thumb { return thumb{given: true, inch: inch, mm: mm} }

func per(perMillion int64) thumb { return thumb{given: true, perMillion: perMillion} }

func around(perMillion, inch, mm int64) thumb {
	return thumb{size: true, given: true, perMillion: perMillion, inch: inch, mm: mm}
}

// thumbs are the rules of thumb of every family, all diametral.
var thumbs = []thumbRow{
	{of: plan.Bore, on: limit.Size, newLow: around(0, 0, 0), newHigh: around(0, 10, 25), wearHigh: around(1000, 0, 0), source: sourceBore},
	{of: plan.Bore, on: limit.OutOfRound, newHigh: plain(5, 12), wearHigh: plain(25, 63), source: sourceRound},
	{of: plan.Bore, on: limit.Taper, newHigh: plain(5, 12), wearHigh: plain(20, 50), source: sourceTaper},
	{of: plan.Bore, on: limit.Clearance, newLow: per(500), newHigh: per(1000), source: sourceCommon},
	{of: plan.MainBearing, on: limit.Clearance, newLow: per(750), newHigh: per(1000), source: sourceCommon},
	{of: plan.MainJournal, on: limit.Size, newLow: around(0, -10, -25), newHigh: around(0, 0, 0), source: sourceCommon},
	{of: plan.MainJournal, on: limit.OutOfRound, wearHigh: plain(5, 12), source: sourceJournal},
	{of: plan.MainJournal, on: limit.Taper, wearHigh: plain(6, 15), source: sourceJournal},
	{of: plan.RodBearing, on: limit.Clearance, newLow: per(750), newHigh: per(1000), source: sourceCommon},
	{of: plan.RodJournal, on: limit.Size, newLow: around(0, -10, -25), newHigh: around(0, 0, 0), source: sourceCommon},
	{of: plan.RodJournal, on: limit.OutOfRound, wearHigh: plain(5, 12), source: sourceJournal},
	{of: plan.RodJournal, on: limit.Taper, wearHigh: plain(6, 15), source: sourceJournal},
}

// proposedLimits returns the limits that rules of thumb make of a nominal size,
// in the unit it is written in: none without one.
func proposedLimits(f plan.Family, nominal length.Written) []limit.Limits {
	if nominal.Unit != length.In && nominal.Unit != length.MM {
		return nil
	}
	var out []limit.Limits
	for _, r := range thumbs {
		if r.of != f {
			continue
		}
		l := r.limits(nominal)
		if l.Validate() == nil {
			out = append(out, l)
		}
	}
	return out
}

// limits are what the rules make of a nominal size. A wear limit is no tighter
// than the new one.
func (r thumbRow) limits(nominal length.Written) limit.Limits {
	l := limit.Limits{On: r.on, Of: string(r.of), Source: r.source}
	l.New = limit.Range{Low: r.newLow.of(nominal), High: r.newHigh.of(nominal)}
	l.Wear = limit.Range{Low: r.wearLow.of(nominal), High: r.wearHigh.of(nominal)}
	if !l.Wear.High.IsZero() && l.Wear.High.Length < l.New.High.Length {
		l.Wear.High = l.New.High
	}
	return l
}

// of makes the limit for a nominal size, rounded to the usual last decimal of
// its unit; a size has the decimals of the nominal where those are more.
func (t thumb) of(nominal length.Written) length.Written {
	if !t.given {
		return length.Written{}
	}
	u := nominal.Unit
	step, more := length.Inch/10_000, t.inch
	if u == length.MM {
		step, more = length.Micrometre, t.mm
	}
	w := length.Written{Unit: u, Places: u.Decimals()}
	share := length.Exact{Sum: nominal.Length, Count: 1_000_000}.Times(t.perMillion)
	steps := length.Exact{Sum: share.Round(), Count: int64(step)}.Round()
	w.Length = step * (steps + length.Length(more))
	if t.size {
		w.Length += nominal.Length
		w.Places = max(w.Places, nominal.Places)
	}
	return w
}
