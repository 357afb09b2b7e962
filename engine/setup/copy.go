package setup

import (
	"fmt"
	"reflect"
	"slices"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Source is the session that a draft was copied from: which one, as of which
// event, and what of its setup the rows of a draft do not show.
type Source struct {
	UID  string
	Head record.Head
	// Rest are the rules, the limits of single features, the figures that are
	// given for the whole engine, tables, prep steps and spare gauges.
	Rest []record.Body
}

// CopyOf returns the setup of a session as the draft of another one, for the
// next engine of its kind. Layout, plan, limits and gauges are as they are;
// every gauge has to be zeroed anew, and whose engine it is has to be said
// again. Events of the draft name the session it comes from.
func CopyOf(s *engine.Session) Draft {
	d := Of(s)
	d.Customer = ""
	d.From = &Source{UID: s.Details().UID, Head: s.Head(), Rest: rest(s, d)}
	for i := range d.Families {
		if f := &d.Families[i]; f.Gauge.ID != "" {
			f.zeroAnew()
		}
	}
	return d
}

// zeroAnew proposes a setting and a set as for a gauge that was never zeroed,
// on a master of the same sort. What is set on a feature of one engine is set
// on no feature of another.
func (f *FamilyDraft) zeroAnew() {
	on := f.Setting.On
	f.Setting, f.Set = proposedSetting(f.Gauge, never), proposedSet(f.Gauge, never)
	if f.Gauge.Kind == gauge.Comparator && on != gauge.OnFeature && on != gauge.OnScale {
		f.Setting.On = on
	}
}

// rest returns the events of a session's setup that a draft has no rows for,
// each as it was last set, in the order in which they were set first.
func rest(s *engine.Session, d Draft) []record.Body {
	var out []record.Body
	at := map[string]int{}
	for _, e := range s.Events() {
		b, carried := carriedOver(e.Body, d)
		if !carried || !s.Live(e.N) {
			continue
		}
		name := record.NameOf(b)
		if i, have := at[name]; have {
			out[i] = b
			continue
		}
		at[name] = len(out)
		out = append(out, b)
	}
	return slices.DeleteFunc(out, func(b record.Body) bool { return reflect.DeepEqual(b, record.Rules{}) })
}

// carriedOver returns what of an event a copy keeps; ok is false when it keeps
// nothing, or when the draft has a row for it. The unit is the draft's.
func carriedOver(b record.Body, d Draft) (kept record.Body, ok bool) {
	switch b := b.(type) {
	case record.Rules:
		b.Unit = length.NoUnit
		return b, true
	case record.Limit:
		_, err := plan.ParseFeature(b.Of)
		return b, err == nil
	case record.Given:
		_, err := plan.ParseFeature(b.Of)
		return b, err != nil
	case record.Table, record.Steps:
		return b, true
	case record.Instrument:
		inRow := slices.ContainsFunc(d.Measured(), func(f FamilyDraft) bool { return f.Gauge.ID == b.ID })
		return b, !inRow
	default:
		return nil, false
	}
}

// copied returns the details of a draft that comes from another session: which
// one, and that it is the engine's earlier one when the engine is the same.
func (d Draft) copied(x record.Details) record.Details {
	if d.From == nil {
		return x
	}
	x.Copied = fmt.Sprintf("%d %s", d.From.Head.N, d.From.Head.Hash)
	if d.SameEngine {
		x.Earlier = d.From.UID
	}
	return x
}

// carried returns what the draft keeps of its source beside its rows; the
// limits of features that the layout does not have are left away.
func (d Draft) carried() []record.Body {
	if d.From == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(d.From.Rest), func(b record.Body) bool {
		l, is := b.(record.Limit)
		if !is {
			return false
		}
		f, err := plan.ParseFeature(l.Of)
		return err != nil || d.Layout.Filled().Has(f) != nil
	})
}
