package record

import (
	"time"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

func (i Instrument) validate(int64) error {
	if err := first(
		name("id", i.ID),
		name("name", i.Name),
		one("kind", i.Kind, gauge.Comparator, gauge.Direct, gauge.Indicator),
		when(i.Contacts != 0 && i.Contacts != 2 && i.Contacts != 3, wrong("contacts", "", "contacts are 2 or 3")),
		inchOrMillimetre("unit", i.Unit),
		one("sense", i.Sense, "", "clockwise larger", "clockwise smaller"),
		one("sends", i.Sends, "", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations),
		short("material", i.Material, maxName),
		decimal("alpha", i.Alpha, 0, 1000),
		decimal("alpha_doubt", i.AlphaDoubt, 0, 1000),
		day("due", i.Due),
		atLeast("df", int64(i.DF), 0),
	); err != nil {
		return err
	}
	return i.validateLengths()
}

func (i Instrument) validateLengths() error {
	for _, w := range []struct {
		path string
		w    length.Written
	}{
		{"graduation", i.Graduation},
		{"step", i.Step},
		{"turn", i.Turn},
		{"high", i.High},
	} {
		if err := first(writable(w.path, w.w), above(w.path, w.w)); err != nil {
			return err
		}
	}
	return first(
		writable("low", i.Low),
		notBelow("low", i.Low),
		writable("s", i.S),
		notBelow("s", i.S),
		when(i.Graduation.IsZero() && i.Kind != gauge.Indicator, wrong("graduation", "", "it is missing")),
		when(!i.High.IsZero() && i.Low.Length > i.High.Length, wrong("low", i.Low.String(), "above high, "+i.High.String())),
	)
}

func (s Setting) validate(int64) error {
	if err := first(
		name("id", s.ID),
		name("instrument", s.Instrument),
		one("on", s.On, gauge.OnRing, gauge.OnBlocks, gauge.OnMicrometer, gauge.OnFeature, gauge.OnScale),
		writable("size", s.Size),
		above("size", s.Size),
		writable("doubt", s.Doubt),
		notBelow("doubt", s.Doubt),
		temperatures(s.At),
	); err != nil {
		return err
	}
	switch s.On {
	case gauge.OnFeature:
		_, err := plan.ParseFeature(s.Feature)
		return textError("feature", s.Feature, err)
	case gauge.OnScale:
		return when(s.Feature != "", wrong("feature", s.Feature, "a scale is no feature"))
	default:
		return first(
			when(s.Feature != "", wrong("feature", s.Feature, "named though set on "+s.On)),
			when(s.Size.IsZero(), wrong("size", "", "the size of the master is missing")),
		)
	}
}

func (s Set) validate(int64) error {
	return first(
		name("id", s.ID),
		name("setting", s.Setting),
		short("plate", s.Plate, maxTitle),
		short("caps", s.Caps, maxTitle),
		short("torque", s.Torque, maxTitle),
		short("fastener", s.Fastener, maxTitle),
		short("lube", s.Lube, maxTitle),
		short("oiled", s.Oiled, maxTitle),
		temperatures(s.At),
	)
}

func (z Zero) validate(int64) error {
	if z.Skipped {
		return first(
			name("set", z.Set),
			when(z.Keyed != "", wrong("keyed", z.Keyed, "a check that was skipped has no reading")),
			when(!z.Deviation.IsZero(), wrong("deviation", z.Deviation.String(), "a check that was skipped has no deviation")),
			when(z.Why == "", wrong("why", "", "a check that was skipped says why")),
		)
	}
	return first(
		name("set", z.Set),
		name("keyed", z.Keyed),
		when(z.Deviation.IsZero(), wrong("deviation", "", "it is missing")),
		writable("deviation", z.Deviation),
	)
}

// temperatures refuses what is no temperature of a workshop, in °C.
func temperatures(t gauge.Temperatures) error {
	return first(
		decimal("temperatures.part", t.Part, -60, 300),
		decimal("temperatures.master", t.Master, -60, 300),
		decimal("temperatures.gauge", t.Gauge, -60, 300),
	)
}

// day refuses what is no day of the calendar; empty text passes.
func day(at, s string) error {
	if s == "" {
		return nil
	}
	_, err := time.Parse(time.DateOnly, s)
	return when(err != nil, wrong(at, s, "not a day such as 2026-11-25"))
}
