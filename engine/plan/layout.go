package plan

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// The forms of a layout.
const (
	Inline = "inline"
	Vee    = "vee"
	Flat   = "flat"
)

// The banks of a vee or flat layout, as seen from the rear looking forward:
// which is left is the engine maker's to say.
const (
	LeftBank  = "left"
	RightBank = "right"
)

// Layout is how many of everything an engine has. Counts are data: Default
// proposes the usual ones and any of them may be changed.
type Layout struct {
	Form           string `json:"form"`
	Cylinders      int    `json:"cylinders"`
	Mains          int    `json:"mains,omitempty"`
	RodJournals    int    `json:"rod_journals,omitempty"`
	RodsPerJournal int    `json:"rods_per_journal,omitempty"`
	CamBearings    int    `json:"cam_bearings,omitempty"`
	// Shared says that two rods stand on one rod journal (vee layouts).
	Shared bool `json:"shared,omitempty"`
	// Lead is the bank whose rods stand in front on the crank, "left" (also
	// when empty) or "right", where a layout has two banks.
	Lead string `json:"lead,omitempty"`
	// Labels name the positions of "cylinders", "mains", "rod journals", "cam
	// bearings", "lifters" and "banks", front first, left bank first. A missing
	// list counts from 1.
	Labels map[string][]string `json:"labels,omitempty"`
}

// Default returns the usual counts of a form with so many cylinders. A vee has
// shared rod journals when shared is set, else split ones; other forms have a
// rod journal each. The number of cylinders is not checked: see Validate.
func Default(form string, cylinders int, shared bool) Layout {
	l := Layout{Form: form, Cylinders: cylinders, RodJournals: cylinders, RodsPerJournal: 1, Mains: cylinders + 1}
	switch form {
	case Vee:
		l.Mains = cylinders/2 + 1
		if shared {
			l.Shared, l.RodJournals, l.RodsPerJournal = true, cylinders/2, 2
		}
	case Flat:
		if cylinders == 2 {
			l.Mains = 2
		}
	}
	l.CamBearings = l.Mains
	return l
}

// Filled returns the layout with the counts that it leaves out taken from
// Default.
func (l Layout) Filled() Layout {
	d := Default(l.Form, l.Cylinders, l.Shared)
	for _, c := range []struct {
		have  *int
		usual int
	}{
		{&l.Mains, d.Mains},
		{&l.RodJournals, d.RodJournals},
		{&l.RodsPerJournal, d.RodsPerJournal},
		{&l.CamBearings, d.CamBearings},
	} {
		if *c.have == 0 {
			*c.have = c.usual
		}
	}
	return l
}

// Validate says what is wrong with the layout, naming the count and its value:
// inline has 1 to 8 cylinders, vee an even 2 to 16, flat an even 2 to 12; the
// rods of all rod journals are the cylinders; labels are 1 to 8 characters long
// and differ. The error is an *InvalidError.
func (l Layout) Validate() error {
	low, high, even := 1, 8, false
	switch l.Form {
	case Inline:
	case Vee:
		low, high, even = 2, 16, true
	case Flat:
		low, high, even = 2, 12, true
	default:
		return wrongLayout("form %s is neither inline, vee nor flat", Quote(l.Form))
	}
	if l.Cylinders < low || l.Cylinders > high {
		return wrongLayout("%s has %d to %d cylinders, not %d", l.Form, low, high, l.Cylinders)
	}
	if even && l.Cylinders%2 != 0 {
		return wrongLayout("%s has an even number of cylinders, not %d", l.Form, l.Cylinders)
	}
	return l.validateCounts()
}

func (l Layout) validateCounts() error {
	for _, c := range []struct {
		name      string
		n, lo, hi int
	}{
		{"mains", l.Mains, 1, 17},
		{"rod journals", l.RodJournals, 1, 16},
		{"rods per journal", l.RodsPerJournal, 1, 2},
		{"cam bearings", l.CamBearings, 0, 20},
	} {
		if c.n < c.lo || c.n > c.hi {
			return wrongLayout("%s %d is not from %d to %d", c.name, c.n, c.lo, c.hi)
		}
	}
	if l.RodJournals*l.RodsPerJournal != l.Cylinders {
		return wrongLayout("%d rod journals with %d rods each do not carry %d cylinders", l.RodJournals, l.RodsPerJournal, l.Cylinders)
	}
	if l.Shared != (l.RodsPerJournal == 2) {
		return wrongLayout("rods per journal is %d, but shared is %v", l.RodsPerJournal, l.Shared)
	}
	if l.Lead != "" && l.Lead != LeftBank && (l.Lead != RightBank || l.Banks() < 2) {
		return wrongLayout("lead %q is neither left nor right of two banks", l.Lead)
	}
	return l.validateLabels()
}

func (l Layout) validateLabels() error {
	counts := map[string]int{
		"cylinders": l.Cylinders, "mains": l.Mains, "rod journals": l.RodJournals,
		"cam bearings": l.CamBearings, "lifters": lifters(l), "banks": l.Banks(),
	}
	for _, key := range slices.Sorted(maps.Keys(l.Labels)) {
		labels := l.Labels[key]
		n, ok := counts[key]
		if !ok {
			return wrongLayout("labels are for cylinders, mains, rod journals, cam bearings, lifters or banks, not for %s", Quote(key))
		}
		if len(labels) != n {
			return wrongLayout("%d labels for %d %s", len(labels), n, key)
		}
		if err := distinct(key, labels); err != nil {
			return err
		}
	}
	return nil
}

func distinct(key string, labels []string) error {
	seen := map[string]bool{}
	for _, s := range labels {
		if strings.TrimSpace(s) == "" || utf8.RuneCountInString(s) > 8 {
			return wrongLayout("label %s of %s is not 1 to 8 characters", Quote(s), key)
		}
		if seen[s] {
			return wrongLayout("label %q of %s is given twice", s, key)
		}
		seen[s] = true
	}
	return nil
}

func wrongLayout(format string, args ...any) error {
	return &InvalidError{Of: "layout", Reason: fmt.Sprintf(format, args...)}
}
