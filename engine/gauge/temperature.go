package gauge

import (
	"cmp"
	"math/big"

	"borewright/engine/length"
)

// Warm is a reading with all that was warm or cold when it was made. A
// comparator has a Master of a size at 20 °C and reads how much the part
// differs from it; a direct instrument reads a size and has no Master, its
// scale being true at 20 °C.
type Warm struct {
	// Read is the size as read: of a comparator the master's size at 20 °C with
	// the deviation added.
	Read length.Length
	// Master is the master's size at 20 °C; 0 for a direct instrument.
	Master length.Length
	// OnMaster is the master when the gauge was set on it.
	OnMaster Body
	// Part and Gauge are as they were when read.
	Part, Gauge Body
	// GaugeSet is the gauge's temperature when it was set, in °C, as decimal
	// text; empty is not known. A direct instrument has none.
	GaugeSet, GaugeSetDoubt string
	// SetMoment tells when that was: see Body.Moment.
	SetMoment string
}

// Corrected is a reading brought to 20 °C.
type Corrected struct {
	// Size is at 20 °C, rounded half to even to 1 pm, and Correction what was
	// added to the reading for it: 0 leaves the very same length.
	Size, Correction length.Length
	// Missing says in sentences what was not corrected for, and why.
	Missing []string
}

// Validate says which figure is none, or impossible; the error is a *Fault.
func (w Warm) Validate() error {
	f := &faults{of: "temperatures"}
	for _, b := range []Body{w.OnMaster, w.Part, w.Gauge} {
		b.validate(f)
	}
	f.decimal("temperature of the gauge when it was set", w.GaugeSet, coldest, warmest)
	f.decimal("doubt of the temperature of the gauge when it was set", w.GaugeSetDoubt, 0, warmest)
	return f.err
}

// compares reports whether it was read with a comparator.
func (w Warm) compares() bool { return w.Master != 0 }

// Sentences for what is not known.
const (
	noPartOrMaster = "sizes are as read, not at 20 °C: it takes expansion and temperature of both part and master"
	noPartOrGauge  = "sizes are as read, not at 20 °C: it takes expansion and temperature of both part and gauge"
	noGaugeChange  = "the gauge is taken to be as warm as when it was set: it takes its expansion and both temperatures"
)

// factors are the growths of a comparison. A part and what it is compared with
// are corrected for together or not at all, for a shop that is warm warms both:
// one alone would be worse than none.
type factors struct {
	master, gauge, part growth
	both                bool // part and other are known
	change              bool // the gauge's own change is known
	missing             []string
}

func (w Warm) factors() factors {
	f := factors{master: none(), gauge: none(), part: none()}
	other, sentence := w.Gauge, noPartOrGauge
	if w.compares() {
		other, sentence = w.OnMaster, noPartOrMaster
	}
	if f.both = w.Part.Known() && other.Known(); f.both {
		f.master, f.part = other.over20(), w.Part.over20()
	} else {
		f.missing = append(f.missing, sentence)
	}
	if !w.compares() {
		return f
	}
	if f.change = w.Gauge.Known() && w.GaugeSet != ""; f.change {
		f.gauge = w.Gauge.growthFrom(w.GaugeSet)
	} else {
		f.missing = append(f.missing, noGaugeChange)
	}
	return f
}

// At20 returns the size of the part at 20 °C, worked out exactly. Of a
// comparator, which spans the bore and was set on the master, it is
//
//	[M(1 + αm(Tm - 20))(1 + αg(Tg,read - Tg,set)) + d] / (1 + αp(Tp - 20))
//
// M being the master's size at 20 °C and d the deviation; of a direct
// instrument R(1 + αg(Tg - 20)) / (1 + αp(Tp - 20)). The error is a *Fault.
func (w Warm) At20() (Corrected, error) {
	if err := w.Validate(); err != nil {
		return Corrected{}, err
	}
	f := w.factors()
	from := w.Read
	if w.compares() {
		from = w.Master
	}
	den := new(big.Int).Mul(f.master.den, f.gauge.den)
	num := big.NewInt(int64(from))
	num.Mul(num, f.master.num).Mul(num, f.gauge.num)
	num.Add(num, new(big.Int).Mul(big.NewInt(int64(w.Read-from)), den))
	size := quotient(num.Mul(num, f.part.den), den.Mul(den, f.part.num))
	return Corrected{Size: size, Correction: size - w.Read, Missing: f.missing}, nil
}

// Influence is one input of the size at 20 °C that is not known exactly.
type Influence struct {
	// Name is what a budget calls it, Source tells it from other inputs.
	Name, Source string
	// Doubt is how far it may be to either side, in its own unit: 1e-6 per °C
	// for an expansion, °C for a temperature.
	Doubt float64
	// Sensitivity is how far the size at 20 °C moves for one of that unit, in
	// picometres.
	Sensitivity float64
}

// Influences returns what the size at 20 °C rests on but the reading and the
// master themselves, both of which move it one for one to within a part in a
// thousand. Only what was corrected for and has a doubt is there. The error is a
// *Fault.
func (w Warm) Influences() ([]Influence, error) {
	if err := w.Validate(); err != nil {
		return nil, err
	}
	f := w.factors()
	other, from := w.Gauge, w.Read
	if w.compares() {
		other, from = w.OnMaster, w.Master
	}
	m, g, p := 1+f.master.less1(), 1+f.gauge.less1(), 1+f.part.less1()
	base := float64(from)
	var out []Influence
	if f.both {
		size := base*m*g + float64(w.Read-from)
		out = append(out, other.influences(base*g/p, value(other.At)-reference)...)
		out = append(out, w.Part.influences(-size/(p*p), value(w.Part.At)-reference)...)
	}
	if f.change {
		out = append(out, w.Gauge.influences(base*m/p, value(w.Gauge.At)-value(w.GaugeSet))...)
		set := Body{Of: w.Gauge.Of + " when it was set", Alpha: w.Gauge.Alpha, Moment: w.SetMoment, AtDoubt: w.GaugeSetDoubt}
		out = append(out, set.influences(-base*m/p, 0)...)
	}
	return withDoubt(out), nil
}

// influences returns those of a body's expansion and temperature. by is how far
// the size moves, in picometres, where the body grows to twice its size; rise is
// how much warmer it is than where it is true.
func (b Body) influences(by, rise float64) []Influence {
	const micro = 1e-6
	return []Influence{
		{"the expansion of the " + b.Of, "expansion of " + cmp.Or(b.Material, b.Of), value(b.AlphaDoubt), by * rise * micro},
		{"the temperature of the " + b.Of, "temperature of " + cmp.Or(b.Moment, b.Of), value(b.AtDoubt), by * value(b.Alpha) * micro},
	}
}

func withDoubt(all []Influence) []Influence {
	var out []Influence
	for _, i := range all {
		if i.Doubt > 0 && i.Sensitivity != 0 {
			out = append(out, i)
		}
	}
	return out
}
