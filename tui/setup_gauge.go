package tui

import (
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/setup"
)

// gaugeRows ask what a family is read with.
func (s *setupForm) gaugeRows(f *setup.FamilyDraft) []row {
	name := string(f.Family) + ".gauge"
	kinds := setup.GaugeKinds(f.Family)
	var choices []string
	for _, kind := range kinds {
		choices = append(choices, gaugeWords[kind])
	}
	out := []row{{label: "read with", fields: []field{choiceOf(name+".kind", "a comparator counts from its master; a micrometer reads the size itself",
		choices, slices.Index(kinds, f.Gauge.Kind), gaugeOther(f),
		func(i int) { s.pickGauge(f, kinds[i]) })}}}
	if f.Gauge.ID == "" {
		return out
	}
	units := []length.Unit{length.In, length.MM}
	out = append(out,
		row{label: "called", fields: []field{s.shared(f, wordsOf(name+".name", "what this gauge is called in the shop", mostName, &f.Gauge.Name))}},
		row{label: "marked in", fields: []field{choiceOf(name+".unit", "the unit on its dial or thimble; a bare reading is in it", []string{"in", "mm"},
			slices.Index(units, f.Gauge.Unit), "", func(i int) {
				f.SetGauge(f.Gauge.Kind, units[i])
				s.draft.Share(f.Family)
			})}},
		s.scaleRow(f, "one mark", ".graduation", "one mark of its dial or thimble: a comparator is keyed in these", &f.Gauge.Graduation),
		s.scaleRow(f, "finest reading", ".step", "the finest that is read on it, often half a mark; finer readings are held", &f.Gauge.Step),
		s.scaleRow(f, "one turn", ".turn", "one revolution of its dial or thimble: a reading one turn out is held", &f.Gauge.Turn),
		row{label: "contacts", fields: []field{choiceOf(name+".contacts", "with three contacts an oval cannot be seen, and out-of-round is not measured", []string{"2", "3"},
			f.Gauge.Contacts-2, "not said", func(i int) {
				f.Gauge.Contacts = i + 2
				s.draft.Share(f.Family)
			})}})
	if f.NeedsMaster() {
		out = append(out, s.masterKindRow(f))
	}
	return out
}

// gaugeWords are what the kinds of gauge are called in the form.
var gaugeWords = map[string]string{
	gauge.Comparator: "comparator, from a zero",
	gauge.Direct:     "micrometer, in full",
	gauge.Indicator:  "indicator or feeler, in full",
}

// gaugeOther is what stands where none of the usual kinds is chosen.
func gaugeOther(f *setup.FamilyDraft) string {
	if f.Gauge.ID == "" {
		return "nothing yet"
	}
	return f.Gauge.Kind
}

// pickGauge chooses another kind of gauge. The gauge that the session has had
// comes back when its kind is chosen again.
func (s *setupForm) pickGauge(f *setup.FamilyDraft, kind string) {
	if was := s.was.Of(f.Family); was != nil && was.Gauge.ID != "" && was.Gauge.Kind == kind {
		f.Gauge, f.Setting, f.Set, f.Instrument = was.Gauge, was.Setting, was.Set, was.Instrument
		return
	}
	f.SetGauge(kind, s.draft.Unit)
}

// shared makes a field of a gauge one of all families that are read with it.
func (s *setupForm) shared(f *setup.FamilyDraft, x field) field {
	set := x.set
	x.set = func(text string) error {
		err := set(text)
		s.draft.Share(f.Family)
		return err
	}
	return x
}

func (s *setupForm) scaleRow(f *setup.FamilyDraft, label, id, why string, at *length.Written) row {
	x := lengthField(string(f.Family)+".gauge"+id, f.Gauge.Unit, func() length.Written { return *at }, func(w length.Written) error {
		*at = w
		return nil
	})
	x.why = why
	return row{label: label, fields: []field{s.shared(f, x)}, note: f.Gauge.Unit.String()}
}

// masterKindRow asks what the comparator is zeroed on.
func (s *setupForm) masterKindRow(f *setup.FamilyDraft) row {
	kinds := []string{gauge.OnRing, gauge.OnMicrometer, gauge.OnBlocks}
	return row{label: "zeroed on", fields: []field{choiceOf(string(f.Family)+".master.on", "what kind of master it is; its size stands at the top of this form",
		[]string{"a setting ring", "a micrometer locked at a size", "a stack of gauge blocks"}, slices.Index(kinds, f.Setting.On), f.Setting.On,
		func(i int) {
			f.SetMaster(kinds[i], f.Setting.Size)
			s.draft.Share(f.Family)
		})}}
}
