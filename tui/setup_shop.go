package tui

import (
	"fmt"
	"reflect"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/setup"
)

// Init reads what the shop has, where a new session is set up.
func (s *setupForm) Init() tea.Cmd {
	if s.desk != nil {
		return nil // the gauges of an open session are taken up on their screen
	}
	return s.st.loadShop()
}

// Update takes in what the shop has, or a key that no action took.
func (s *setupForm) Update(msg tea.Msg) tea.Cmd {
	if a, ok := msg.(answer[engine.Shop]); ok && s.desk == nil {
		s.shop = a.value.Instruments
		s.fromShop()
		s.form.rebuild()
		return nil
	}
	return s.filling.Update(msg)
}

// fromShop reads with the shop's gauges where they have the very names that were
// proposed: they are the same ones.
func (s *setupForm) fromShop() {
	untouched := reflect.DeepEqual(s.draft, s.was)
	for _, f := range s.draft.Measured() {
		for _, i := range s.shop {
			if i.Name == f.Gauge.Name && i.Kind == f.Gauge.Kind && s.draft.Fits(f.Family, i) {
				s.draft.UseGauge(f.Family, i)
			}
		}
	}
	if untouched {
		s.was = s.draft
		s.was.Families = slices.Clone(s.draft.Families)
	}
}

// shopRows offer the shop's gauges that fit a family, each under a digit: none
// where the shop has none that does.
func (s *setupForm) shopRows(f *setup.FamilyDraft) []row {
	choices, at := []string{"0 " + f.Gauge.Name}, 0
	var fitting []gauge.Instrument
	for _, i := range s.shop {
		if !s.draft.Fits(f.Family, i) {
			continue
		}
		if fitting = append(fitting, i); i.Name == f.Gauge.Name && i.Kind == f.Gauge.Kind {
			at = len(fitting)
		}
		choices = append(choices, fmt.Sprintf("%d %s", len(fitting), i.Name))
	}
	if len(fitting) == 0 {
		return nil
	}
	if at > 0 {
		choices[0] = "0 the usual one"
	}
	x := choiceOf(string(f.Family)+".shop", "a digit takes a gauge of the shop, with its scale and how well it repeats; 0 the usual one, as it stands further down",
		choices, at, "", func(n int) {
			if n == 0 {
				f.UseUsual()
				return
			}
			s.draft.UseGauge(f.Family, fitting[n-1])
		})
	x.wide = 0
	r := row{label: plural(f) + ", gauge", fields: []field{x}}
	if f.Gauge.PastDue(s.st.look()) {
		r.note = "its calibration was due " + f.Gauge.Due
	}
	return []row{r}
}
