package tui

import (
	"errors"
	"slices"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// faultText is an error of the gauges in words, or "".
func faultText(err error) string {
	if err != nil {
		return err.Error()
	}
	return ""
}

// instrumentForm is what the form of an instrument holds while it is filled in.
type instrumentForm struct {
	was, now gauge.Instrument
	fresh    bool
}

// newInstrumentForm edits an instrument, or makes a fresh one; nothing that was
// read changes but what its expansion and scale say of it. A fresh one is kept in
// the shop too, and so is one that the shop has.
func newInstrumentForm(st *Station, d *Desk, shop *shelved, was gauge.Instrument, fresh bool) *entry {
	f := &instrumentForm{was, was, fresh}
	title := was.Name + ", the gauge"
	if fresh {
		title = "a new gauge"
	}
	return &entry{
		filling: filling{st: st, form: newForm(f.rows)}, title: title,
		wrong:   func() string { return f.wrong(d.Session) },
		changed: func() bool { return f.now != was }, hint: func() string { return "" },
		keep: func() error { return f.keep(st, d, shop) },
	}
}

// wrong says why it cannot be kept.
func (f *instrumentForm) wrong(s *engine.Session) string {
	if f.fresh && slices.ContainsFunc(s.Instruments(), func(x gauge.Instrument) bool { return x.Name == f.now.Name }) {
		return "there is a gauge of that name in this session"
	}
	return faultText(f.now.Validate())
}

// keep records it.
func (f *instrumentForm) keep(st *Station, d *Desk, shop *shelved) error {
	if f.now == f.was {
		return nil
	}
	if f.now.Sense != f.was.Sense {
		f.now.Proved = length.Written{} // it is only said now
	}
	if err := d.Record(record.Instrument{Instrument: f.now}); err != nil {
		return err
	}
	if f.fresh {
		st.Say(draw.Plain, f.now.Name+" is on hand, here and in the shop: Enter takes it up")
		if shop.off != "" {
			return errors.New(f.now.Name + " is on hand here only: " + shop.off)
		}
		return shop.keep(f.now, f.now.Name)
	}
	st.Say(draw.Plain, f.now.Name+" is changed")
	return shop.follow(f.now, f.was.Name)
}

// The choices of an instrument in the order they are offered.
var (
	kindIs  = []string{gauge.Comparator, gauge.Direct, gauge.Indicator}
	senseIs = []string{"", gauge.ClockwiseLarger, gauge.ClockwiseSmaller}
	sendsIs = []string{"", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations}
)

func (f *instrumentForm) rows() []row {
	now := &f.now
	out := []row{{label: "called", fields: []field{wordsOf("name", "what it is called in the shop", mostName, &now.Name)}}}
	if f.fresh {
		units := []length.Unit{length.In, length.MM}
		var kinds []string
		for _, k := range kindIs {
			kinds = append(kinds, gaugeWords[k])
		}
		out = append(out,
			row{label: "read as", fields: []field{choiceOf("kind", "a comparator counts from its master; a micrometer reads the size itself", kinds,
				slices.Index(kindIs, now.Kind), "", func(i int) { now.Kind = kindIs[i] })}},
			row{label: "marked in", fields: []field{choiceOf("unit", "the unit on its dial or thimble; a bare reading is in it", []string{"in", "mm"},
				slices.Index(units, now.Unit), "", func(i int) { now.Unit = units[i] })}})
	}
	out = append(append(out, f.scaleRows()...), f.dialRows()...)
	return append(out, materialRows("gauge", "gauge", &now.Material, &now.Alpha, &now.AlphaDoubt)...)
}

// scaleRows ask what it reads.
func (f *instrumentForm) scaleRows() []row {
	now := &f.now
	u := now.Unit.String()
	return []row{
		{label: "contacts", fields: []field{choiceOf("contacts", "with three contacts an oval cannot be seen, and out-of-round is not measured",
			[]string{"not said", "2", "3"}, max(0, now.Contacts-1), "", func(i int) { now.Contacts = []int{0, 2, 3}[i] })}},
		{label: "one mark", fields: []field{writtenOf("graduation", "one mark of its dial or thimble", now.Unit, &now.Graduation)}, note: u},
		{label: "finest reading", fields: []field{writtenOf("step", "the finest that is read on it, often half a mark; empty is one mark", now.Unit, &now.Step)}, note: u},
		{label: "one turn", fields: []field{writtenOf("turn", "one revolution of its dial or thimble", now.Unit, &now.Turn)}, note: u},
		{label: "reads from", fields: []field{writtenOf("low", "the smallest it reaches", now.Unit, &now.Low)}, note: u},
		{label: "reads to", fields: []field{writtenOf("high", "the largest it reaches", now.Unit, &now.High)}, note: u},
	}
}

// dialRows ask how its needle goes, what its cable sends, and until when it is
// calibrated.
func (f *instrumentForm) dialRows() []row {
	now := &f.now
	return []row{
		{label: "needle clockwise is", fields: []field{choiceOf("sense", "p on the gauges proves it with a known step. What is keyed always means size",
			[]string{"not proved", "larger", "smaller"}, slices.Index(senseIs, now.Sense), now.Sense, func(i int) { now.Sense = senseIs[i] })}},
		{label: "its cable sends", fields: []field{choiceOf("sends", "what a value means that comes by its cable",
			[]string{"nothing, or as keyed", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations}, slices.Index(sendsIs, now.Sends), now.Sends,
			func(i int) { now.Sends = sendsIs[i] })}},
		{label: "calibration due", fields: []field{wordsOf("due", "the last day of its calibration, such as 2026-11-25", mostName, &now.Due)}},
	}
}

// The masters in the order they are offered.
var masterKinds = []struct{ on, word string }{
	{gauge.OnRing, "a setting ring"},
	{gauge.OnMicrometer, "a micrometer locked at a size"},
	{gauge.OnBlocks, "a stack of gauge blocks"},
	{gauge.OnFeature, "the measured part itself"},
	{gauge.OnScale, "its own scale"},
}

// settingForm is what the setting form holds while it is filled in.
type settingForm struct {
	d        *Desk
	i        gauge.Instrument
	was, now gauge.Setting
	fresh    bool
	features []plan.Feature
}

// newSettingForm zeroes an instrument anew, or corrects a setting that was made:
// then everything read from it is read again from what the master is now said
// to be.
func newSettingForm(st *Station, d *Desk, i gauge.Instrument, was gauge.Setting, fresh bool) *entry {
	f := &settingForm{d: d, i: i, was: was, now: was, fresh: fresh, features: d.measuredFeatures()}
	title := "correct the setting of " + i.Name
	hint := "everything read from this setting is read again from it; "
	if fresh {
		title, hint = "a new setting of "+i.Name, "a new zero, and a new set of readings; "
	}
	return &entry{
		filling: filling{st: st, form: newForm(f.rows)}, title: title,
		wrong:   func() string { return faultText(f.now.ValidateFor(i)) },
		changed: func() bool { return f.now != f.was },
		hint:    func() string { return f.says() + hint },
		keep:    func() error { return f.keep(st) },
	}
}

// measuredFeatures are the features that have a reading now.
func (d *Desk) measuredFeatures() []plan.Feature {
	return slices.DeleteFunc(d.Session.Plan().Features(d.Session.Layout()), func(f plan.Feature) bool {
		x, ok := d.Now.Feature(f)
		t, _ := f.Family.Traits()
		return !ok || x.Read == 0 || t.Figure != ""
	})
}

// kinds are the masters that this instrument can be zeroed on.
func (f *settingForm) kinds() (on, words []string) {
	for _, k := range masterKinds {
		scale, feature := k.on == gauge.OnScale, k.on == gauge.OnFeature
		comparator := f.i.Kind == gauge.Comparator
		if scale && comparator || feature && (!comparator || len(f.features) == 0) {
			continue
		}
		on, words = append(on, k.on), append(words, k.word)
	}
	return on, words
}

func (f *settingForm) rows() []row {
	on, words := f.kinds()
	out := []row{{label: "zeroed on", fields: []field{choiceOf("on", "a part that was measured makes the chain: the dial then reads clearance, and the micrometer's own error cancels in it",
		words, slices.Index(on, f.now.On), f.now.On, func(i int) { f.pick(on[i]) })}}}
	switch f.now.On {
	case gauge.OnScale:
		return append(out, temperatureRows("at", &f.now.At, "gauge")...)
	case gauge.OnFeature:
		out = append(out, f.featureRow())
	default:
		out = append(out, row{label: "its size", fields: []field{writtenOf("size", "what is engraved or set, not what is hoped for", f.i.Unit, &f.now.Size)}, note: f.i.Unit.String()})
	}
	out = append(out, row{label: "good to", fields: []field{writtenOf("doubt", "how far the master may be off, to either side, such as on its certificate", f.i.Unit, &f.now.Doubt)}, note: f.i.Unit.String()})
	out = append(out, temperatureRows("at", &f.now.At, "master", "gauge")...)
	return append(out, materialRows("master", "master", &f.now.Material, &f.now.Alpha, &f.now.AlphaDoubt)...)
}

// pick chooses another master.
func (f *settingForm) pick(on string) {
	f.now.On = on
	if on == gauge.OnFeature {
		f.now.Size = length.Written{}
		if f.now.Feature == "" && len(f.features) > 0 {
			f.now.Feature = f.features[0].String()
		}
		return
	}
	f.now.Feature = ""
	switch {
	case on == gauge.OnScale:
		f.now.Size = length.Written{}
	case f.now.Size.IsZero():
		f.now.Size = f.was.Size
	}
}

// featureRow asks which measured part it was zeroed on.
func (f *settingForm) featureRow() row {
	var names []string
	at := -1
	for i, x := range f.features {
		names = append(names, f.d.Session.Name(x))
		if x.String() == f.now.Feature {
			at = i
		}
	}
	return row{label: "which part", fields: []field{choiceOf("feature", "the micrometer was locked at what this part measures, and the gauge zeroed in the micrometer",
		names, at, f.d.Session.NameOf(f.now.Feature), func(i int) { f.now.Feature = f.features[i].String() })}}
}

// says what the chain does, where there is one.
func (f *settingForm) says() string {
	if f.now.On != gauge.OnFeature {
		return ""
	}
	return "the dial reads the clearance over " + f.d.Session.NameOf(f.now.Feature) + " straight off; "
}

// keep records the setting, and for a new one its set.
func (f *settingForm) keep(st *Station) error {
	if f.now == f.was && !f.fresh {
		return nil
	}
	bodies := []record.Body{record.Setting{Setting: f.now}}
	text := f.i.Name + ": the setting is corrected, what was read from it is read again"
	if f.fresh {
		set := gauge.Set{ID: freshID("t", len(f.d.Session.Sets())), Setting: f.now.ID, At: gauge.Temperatures{Doubt: f.now.At.Doubt}}
		bodies, text = append(bodies, record.Set{Set: set}), f.i.Name+" is zeroed on "+masterWords(f.d.Session, f.now)
	}
	if err := f.d.Record(bodies...); err != nil {
		return err
	}
	st.Say(draw.Plain, text)
	return nil
}

// freshSetting is a new setting of an instrument, beginning with what its last
// one was made on.
func freshSetting(s *engine.Session, i gauge.Instrument) gauge.Setting {
	x := gauge.Setting{Instrument: i.ID, On: gauge.OnRing}
	if i.Kind != gauge.Comparator {
		x.On = gauge.OnScale
	}
	for _, old := range s.Settings() {
		if old.Instrument == i.ID {
			x = old
		}
	}
	x.ID, x.At = freshID("s", len(s.Settings())), gauge.Temperatures{Doubt: x.At.Doubt}
	return x
}
