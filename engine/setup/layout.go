package setup

import (
	"slices"

	"borewright/engine/plan"
)

// CylinderCounts returns how many cylinders a form may have.
func CylinderCounts(form string) []int {
	var out []int
	for n := 1; n <= 16; n++ {
		if plan.Default(form, n, false).Validate() == nil {
			out = append(out, n)
		}
	}
	return out
}

// SetForm chooses the form of the layout. The number of cylinders stays, or
// becomes the nearest one that the form has.
func (d *Draft) SetForm(form string) {
	d.Layout.Shared = d.Layout.Shared && form == plan.Vee
	counts := CylinderCounts(form)
	if len(counts) == 0 {
		d.Layout.Form = form
		return
	}
	n := d.Layout.Cylinders
	best := slices.MinFunc(counts, func(a, b int) int { return max(a-n, n-a) - max(b-n, n-b) })
	d.relay(d.usual(form, best, d.Layout.Shared))
}

// SetCylinders chooses the number of cylinders, and with it the usual counts
// of everything else.
func (d *Draft) SetCylinders(n int) {
	d.relay(d.usual(d.Layout.Form, n, d.Layout.Shared))
}

// SetShared says whether two rods stand on one rod journal.
func (d *Draft) SetShared(shared bool) {
	d.relay(d.usual(d.Layout.Form, d.Layout.Cylinders, shared))
}

// SetMains chooses the number of mains.
func (d *Draft) SetMains(n int) {
	l := d.Layout
	l.Mains = n
	d.relay(l)
}

// relay takes a layout up. Cylinders stay numbered as they were; other labels
// stay where there are as many positions as before.
func (d *Draft) relay(l plan.Layout) {
	old, kept := d.Layout, map[string][]string{}
	for key, names := range old.Labels {
		trial := l
		trial.Labels = map[string][]string{key: names}
		if trial.Validate() == nil {
			kept[key] = names
		}
	}
	if l.Banks() < 2 {
		l.Lead = ""
	}
	scheme, known := old.Numbering()
	if l.Labels = kept; known {
		l = numbered(l, scheme)
	}
	if len(l.Labels) == 0 {
		l.Labels = nil
	}
	d.Layout = l
	d.halve()
}

// usual returns the usual layout, with the bank in front that the draft has.
func (d *Draft) usual(form string, cylinders int, shared bool) plan.Layout {
	l := plan.Default(form, cylinders, shared)
	l.Lead = d.Layout.Lead
	return l
}

// SetLead says which bank's rods stand in front on the crank.
func (d *Draft) SetLead(bank string) {
	l := d.Layout
	if l.Lead = bank; bank == plan.LeftBank {
		l.Lead = ""
	}
	d.relay(l)
}

// SetNumbering chooses how the cylinders are numbered. Positions stay what they
// are, so no reading moves.
func (d *Draft) SetNumbering(s plan.Scheme) {
	l := numbered(d.Layout, s)
	if len(l.Labels) == 0 {
		l.Labels = nil
	}
	d.Layout = l
}

// numbered numbers the cylinders; those that count up plainly need no labels.
func numbered(l plan.Layout, s plan.Scheme) plan.Layout {
	l = l.Numbered(s)
	if now, _ := l.Numbering(); now.ID == plan.Schemes()[0].ID {
		delete(l.Labels, "cylinders")
	}
	return l
}

// halve says which half of a shared rod journal each of its levels is on: the
// front levels on the front half, the rear ones on the rear half, a middle one
// on both.
func (d *Draft) halve() {
	f := d.Of(plan.RodJournal)
	if f == nil {
		return
	}
	f.Levels = slices.Clone(f.Levels)
	n := len(f.Levels)
	for i := range f.Levels {
		half := ""
		switch {
		case !d.Layout.Shared:
		case 2*i+1 < n:
			half = plan.FrontHalf
		case 2*i+1 > n:
			half = plan.RearHalf
		}
		f.Levels[i].Half = half
	}
}
