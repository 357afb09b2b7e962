package tui

import (
	"fmt"
	"slices"

	"borewright/engine/plan"
	"borewright/engine/setup"
)

// freely is the choice of labels that follow no scheme.
const freely = "free, as each one is marked"

// mostLabelBytes is how many bytes a label may be typed with; how many
// characters it may have is for the draft's check.
const mostLabelBytes = 32

// numberingRows ask how the cylinders are numbered: by a scheme, or one by one.
func (s *setupForm) numberingRows() []row {
	var schemes []plan.Scheme
	var names []string
	for _, x := range plan.Schemes() {
		if !x.Banked || s.draft.Layout.Banks() > 1 {
			schemes, names = append(schemes, x), append(names, x.Name)
		}
	}
	now, known := s.draft.Layout.Numbering()
	free := s.free[setup.Cylinders] || !known
	at, why := len(schemes), "how the cylinders are numbered"
	if !free {
		at = slices.IndexFunc(schemes, func(x plan.Scheme) bool { return x.ID == now.ID })
		why += ": " + now.About
	}
	out := []row{{label: "numbered", fields: []field{choiceOf("layout.numbering", why, append(names, freely), at, "", func(i int) {
		if s.free[setup.Cylinders] = i == len(schemes); i < len(schemes) {
			s.draft.SetNumbering(schemes[i])
		}
	})}}}
	if !free {
		return out
	}
	banks, rows := s.draft.Layout.Banks(), s.draft.Layout.Cylinders/max(1, s.draft.Layout.Banks())
	for b, name := range []string{"left bank", "right bank"}[:banks] {
		if banks == 1 {
			name = "cylinders"
		}
		out = append(out, s.labelRows(setup.Cylinders, name, b*rows+1, (b+1)*rows)...)
	}
	return out
}

// mainLabelRows ask what the mains are called.
func (s *setupForm) mainLabelRows() []row {
	free := s.free[setup.Mains] || s.draft.Layout.Labels[setup.Mains] != nil
	at := 0
	if free {
		at = 1
	}
	out := []row{{label: "mains numbered", fields: []field{choiceOf("layout.mains.numbering",
		"what the mains are called: 1, 2, 3 ... from the front, or as each one is marked", []string{"in sequence", freely}, at, "", func(i int) {
			if s.free[setup.Mains] = i == 1; i == 0 {
				s.draft.CountUp(setup.Mains)
			}
		})}}}
	if !free {
		return out
	}
	return append(out, s.labelRows(setup.Mains, "mains", 1, len(s.draft.Labels(setup.Mains)))...)
}

// labelsInRow is how many labels stand in one row.
const labelsInRow = 5

// labelRows are the labels of a list from one position to another, a few in a
// row.
func (s *setupForm) labelRows(list, name string, first, last int) []row {
	var out []row
	for from := first; from <= last; from += labelsInRow {
		r := row{label: name + ", front first"}
		if from > first {
			r.label = ""
		}
		for at := from; at <= min(last, from+labelsInRow-1); at++ {
			r.fields = append(r.fields, s.labelField(list, name, at, at-first+1))
		}
		out = append(out, r)
	}
	return out
}

func (s *setupForm) labelField(list, name string, at, nth int) field {
	return field{
		id: fmt.Sprintf("layout.labels.%s.%d", list, at), kind: wordsField, wide: 8, most: mostLabelBytes,
		why: fmt.Sprintf("what number %d of the %s is called, counted from the front: 8 characters at most. No reading moves", nth, name),
		get: func() string { return s.draft.Labels(list)[at-1] },
		set: func(text string) error {
			s.draft.SetLabel(list, at, text)
			return nil
		},
	}
}
