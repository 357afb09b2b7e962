package setup

import (
	"errors"
	"fmt"
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Problem is one thing that is wrong with a draft, or doubtful. It is an error.
type Problem struct {
	// Field names what it is about: "title", "layout", "bore.master",
	// "bore.size.new.low". A Field that names several, such as "bore.size", is
	// about all of them.
	Field string
	// Text is one clear sentence that names the place and the value.
	Text string
	// Doubt says that it is not wrong but looks like a slip: measuring may
	// begin all the same.
	Doubt bool
}

// Error returns the sentence.
func (p Problem) Error() string { return p.Text }

// firstWrong returns the first problem that is no doubt.
func firstWrong(ps []Problem) (p Problem, ok bool) {
	i := slices.IndexFunc(ps, func(p Problem) bool { return !p.Doubt })
	if i < 0 {
		return Problem{}, false
	}
	return ps[i], true
}

// problems collects them.
type problems []Problem

func (ps *problems) wrong(field, format string, args ...any) {
	*ps = append(*ps, Problem{Field: field, Text: fmt.Sprintf(format, args...)})
}

func (ps *problems) doubt(field, format string, args ...any) {
	*ps = append(*ps, Problem{Field: field, Text: fmt.Sprintf(format, args...), Doubt: true})
}

// The most bytes that the texts of a draft may have.
const (
	mostTitle    = 200
	mostInitials = 32
)

// Sizes that engines have: from a model's to a ship's. Common practice, no
// source; they are there to catch inches keyed as millimetres.
const (
	leastNominal = 5 * length.Millimetre
	mostNominal  = 1200 * length.Millimetre
)

// masterReach is how far from the nominal a setting master may be before it
// looks like a slip: what the stem of a bore gauge travels. A tenth of the
// nominal is beyond any gauge. Common practice, no source.
const (
	masterReach = length.Millimetre
	masterShare = 10
)

// Check returns what is wrong with the draft and what is doubtful, in the
// order of the fields; none when measuring can begin.
func (d Draft) Check() []Problem {
	var ps problems
	d.checkTexts(&ps)
	if d.Unit != length.In && d.Unit != length.MM {
		ps.wrong("unit", "the unit is in or mm, not %q", d.Unit)
	}
	if err := d.Layout.Filled().Validate(); d.checkLabels(&ps) && err != nil {
		ps.wrong("layout", "%v", err)
	}
	rows := d.Measured()
	if len(rows) == 0 {
		ps.wrong("measured", "nothing is measured: choose one family at least")
	}
	for i, f := range rows {
		f.check(&ps, i == 0, d.shares(f))
	}
	return ps
}

func (d Draft) checkTexts(ps *problems) {
	if d.Title == "" {
		ps.wrong("title", "the session has no title")
	}
	for _, t := range []struct {
		field, text string
		most        int
	}{
		{"title", d.Title, mostTitle},
		{"customer", d.Customer, mostTitle},
		{"engine", d.Engine, mostTitle},
		{"initials", d.Initials, mostInitials},
	} {
		if n := len(t.text); n > t.most {
			ps.wrong(t.field, "the %s has %d bytes, which is more than %d", t.field, n, t.most)
		}
	}
}

// field returns the name of one of the family's fields.
func (f FamilyDraft) field(name string) string { return string(f.Family) + "." + name }

// check looks at one family. The first one measured has to be ready to read; a
// gauge that is shared may stand at a master for another family.
func (f FamilyDraft) check(ps *problems, first, shared bool) {
	f.checkNominal(ps)
	if err := (plan.Plan{Families: []plan.Group{f.Group}}).Validate(); err != nil && f.Nominal.Length >= 0 {
		ps.wrong(f.field("grid"), "%v", err)
	}
	for _, l := range f.Limits {
		f.checkLimit(ps, l)
	}
	f.checkGauge(ps, first, shared)
}

func (f FamilyDraft) checkNominal(ps *problems) {
	n := f.Nominal
	switch field := f.field("nominal"); {
	case f.isPoint():
	case n.IsZero():
		ps.wrong(field, "no nominal size for %s yet", f.Family.Plural())
	case n.Length < leastNominal || n.Length > mostNominal:
		ps.wrong(field, "the nominal size %s of %s is not from %s to %s", n, f.Family.Plural(), inUnit(leastNominal, n.Unit), inUnit(mostNominal, n.Unit))
	}
}

// apart is how far two lengths differ.
func apart(a, b length.Length) length.Length { return max(a-b, b-a) }

// isPoint reports whether what is read is no diameter, such as an end gap: it
// needs no nominal, and its nominal may be anything.
func (f FamilyDraft) isPoint() bool {
	t, _ := f.Family.Traits()
	return t.Figure != ""
}

// inUnit writes a plain length in a unit, with its usual decimals.
func inUnit(l length.Length, u length.Unit) string {
	return length.Of(l).Format(u, u.Decimals()) + " " + u.String()
}

func (f FamilyDraft) checkLimit(ps *problems, l limit.Limits) {
	field := f.field(string(l.On))
	var invalid *limit.InvalidError
	if err := l.Validate(); errors.As(err, &invalid) {
		ps.wrong(field, "%s of %s: %s", l.On, f.Family.Plural(), invalid.Reason)
		return
	}
	if l.On != limit.Size || f.Nominal.IsZero() {
		return
	}
	for _, side := range Sides() {
		w := *side.Of(&l)
		if off := apart(w.Length, f.Nominal.Length); !w.IsZero() && off > f.Nominal.Length/limitReach {
			ps.doubt(field+"."+side.String(), "the %s size of %s, %s, is far from the nominal %s", side.words(), f.Family.Plural(), w, f.Nominal)
		}
	}
}

// limitReach says how far a limit of a size may be from the nominal before it
// looks like a slip: a fiftieth of it. Common practice, no source.
const limitReach = 50

func (f FamilyDraft) checkGauge(ps *problems, first, shared bool) {
	if f.Gauge.ID == "" {
		if first {
			ps.wrong(f.field("gauge"), "no gauge is chosen for %s", f.Family.Plural())
		}
		return
	}
	if err := f.Gauge.Validate(); err != nil {
		ps.wrong(f.field("gauge"), "%v", err)
	}
	f.checkMaster(ps, first, shared)
}

func (f FamilyDraft) checkMaster(ps *problems, first, shared bool) {
	if !f.NeedsMaster() {
		return
	}
	size, field := f.Setting.Size, f.field("master")
	switch off := apart(size.Length, f.Nominal.Length); {
	case size.IsZero() && first:
		ps.wrong(field, "no master's size for %s yet", f.Family.Plural())
	case size.IsZero():
	case size.Length <= 0:
		ps.wrong(field, "the master's size %s is not above zero", size)
	case !f.Nominal.IsZero() && off > f.Nominal.Length/masterShare && !shared:
		ps.wrong(field, "no gauge reaches so far: master %s for %s, nominal %s", size, f.Family.Plural(), f.Nominal)
	case !f.Nominal.IsZero() && off > masterReach:
		ps.doubt(field, "the master %s for %s is %s from their nominal %s", size, f.Family.Plural(), inUnit(off, size.Unit), f.Nominal)
	}
	if f.Setting.On == gauge.OnScale {
		ps.wrong(field, "the %s is zeroed on a master, not on a scale of its own", f.Gauge.Name)
	}
}
