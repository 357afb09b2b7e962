package gauge

import (
	"fmt"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Validate says what is wrong with the instrument; the error is a *Fault.
func (i Instrument) Validate() error {
	f := faultsOf("instrument", i.ID)
	f.name("name", i.Name)
	f.oneOf("kind", i.Kind, "is neither comparator, direct nor indicator", Comparator, Direct, Indicator)
	f.oneOf("contacts", fmt.Sprint(i.Contacts), "are neither 2 nor 3", "0", "2", "3")
	f.oneOf("unit", i.Unit.String(), "is neither in nor mm", length.In.String(), length.MM.String())
	i.validateScale(f)
	f.oneOf("sense", i.Sense, "is neither clockwise larger nor clockwise smaller", "", ClockwiseLarger, ClockwiseSmaller)
	f.notBelow(1, "proved", i.Proved, "is no step")
	f.add(!i.Proved.IsZero() && i.Sense == "", "proved", i.Proved.String(), "is given without a sense")
	f.oneOf("sends", i.Sends, "is neither size, deviation nor graduations", "", SendsSize, SendsDeviation, SendsGraduations)
	f.text("material", i.Material, longestName)
	f.decimal("alpha", i.Alpha, 0, mostAlpha)
	f.decimal("alpha doubt", i.AlphaDoubt, 0, mostAlpha)
	f.add(i.AlphaDoubt != "" && i.Alpha == "", "alpha doubt", i.AlphaDoubt, "is given without an alpha")
	if i.Due != "" {
		_, err := time.Parse(time.DateOnly, i.Due)
		f.add(err != nil, "due", i.Due, "is not a day such as 2026-11-25")
	}
	f.notBelow(0, "repeatability", i.S, "is below zero")
	f.add(i.DF < 0, "degrees of freedom", fmt.Sprint(i.DF), "are below zero")
	f.add(!i.S.IsZero() && i.DF < 1, "degrees of freedom", "", "are missing beside a repeatability")
	return f.err
}

func (i Instrument) validateScale(f *faults) {
	f.add(i.Graduation.IsZero() && i.Kind != Indicator, "graduation", "", "is missing")
	f.notBelow(1, "graduation", i.Graduation, "is not above zero")
	f.notBelow(1, "step", i.Step, "is not above zero")
	f.add(!i.Graduation.IsZero() && i.Step.Length > i.Graduation.Length, "step", i.Step.String(), "is coarser than a graduation")
	f.notBelow(1, "turn", i.Turn, "is not above zero")
	f.add(!i.Turn.IsZero() && i.Turn.Length <= i.Graduation.Length, "turn", i.Turn.String(), "is not above a graduation")
	f.notBelow(0, "low", i.Low, "is below zero")
	f.add(!i.High.IsZero() && i.High.Length <= i.Low.Length, "high", i.High.String(), "is not above low")
	for _, w := range []length.Written{i.Graduation, i.Step, i.Turn, i.Low, i.High} {
		f.add(w.Length > length.Metre*10, "scale", w.String(), "is longer than any instrument")
	}
}

// Validate says what is wrong with the setting; the error is a *Fault.
func (s Setting) Validate() error {
	f := faultsOf("setting", s.ID)
	f.name("instrument", s.Instrument)
	f.oneOf("on", s.On, "is neither ring, blocks, micrometer, feature nor scale", OnRing, OnBlocks, OnMicrometer, OnFeature, OnScale)
	f.notBelow(1, "size", s.Size, "is not above zero")
	f.add(s.On == OnScale && !s.Size.IsZero(), "size", s.Size.String(), "is given, but an instrument on its own scale has no master")
	f.add(s.Size.IsZero() && (s.On == OnRing || s.On == OnBlocks || s.On == OnMicrometer), "size", "", "of the master is missing")
	if s.On == OnFeature {
		_, err := plan.ParseFeature(s.Feature)
		f.add(s.Feature == "", "feature", "", "that it was zeroed on is missing")
		f.add(err != nil, "feature", s.Feature, "is not a feature such as main-journal/2")
	} else {
		f.add(s.Feature != "", "feature", s.Feature, "is given, but it was not zeroed on a feature")
	}
	f.notBelow(0, "doubt", s.Doubt, "is below zero")
	f.text("material", s.Material, longestName)
	f.decimal("alpha", s.Alpha, 0, mostAlpha)
	f.decimal("alpha doubt", s.AlphaDoubt, 0, mostAlpha)
	s.At.validate(f)
	return f.err
}

// ValidateFor says too whether the setting can be one of this instrument: a
// comparator is zeroed on a master of a size that it reaches, and only a
// comparator on a feature. The error is a *Fault.
func (s Setting) ValidateFor(i Instrument) error {
	f := faultsOf("setting", s.ID)
	f.err = s.Validate()
	f.add(s.Instrument != i.ID, "instrument", s.Instrument, "is not "+plan.Quote(i.ID))
	f.add(i.Kind == Comparator && s.On == OnScale, "on", s.On, "is not possible: a comparator is zeroed on a master")
	f.add(i.Kind != Comparator && s.On == OnFeature, "on", s.On, "is only possible with a comparator")
	below, above := !i.Low.IsZero() && s.Size.Length < i.Low.Length, !i.High.IsZero() && s.Size.Length > i.High.Length
	f.add(!s.Size.IsZero() && below, "size", s.Size.String(), fmt.Sprintf("is below what %s reads, from %s", i.Name, i.Low))
	f.add(!s.Size.IsZero() && above, "size", s.Size.String(), fmt.Sprintf("is above what %s reads, to %s", i.Name, i.High))
	return f.err
}

// Validate says what is wrong with the set; the error is a *Fault.
func (s Set) Validate() error {
	f := faultsOf("set", s.ID)
	f.name("setting", s.Setting)
	for _, t := range []struct{ field, value string }{
		{"plate", s.Plate},
		{"caps", s.Caps},
		{"torque", s.Torque},
		{"fastener", s.Fastener},
		{"lube", s.Lube},
		{"oiled", s.Oiled},
	} {
		f.text(t.field, t.value, longestText)
	}
	s.At.validate(f)
	return f.err
}

func (t Temperatures) validate(f *faults) {
	f.decimal("part temperature", t.Part, coldest, warmest)
	f.decimal("master temperature", t.Master, coldest, warmest)
	f.decimal("gauge temperature", t.Gauge, coldest, warmest)
	f.decimal("doubt of the temperatures", t.Doubt, 0, warmest)
}
