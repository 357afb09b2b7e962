package setup

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The lists of positions that a draft labels freely, as plan.Layout.Labels
// names them.
const (
	Cylinders = "cylinders"
	Mains     = "mains"
)

// mostLabel is how many characters a label may have, as the layout has it.
const mostLabel = 8

// Labels returns what every position of a list is called, front first, left
// bank first; none for a list nobody knows.
func (d Draft) Labels(list string) []string {
	count := map[string]int{Cylinders: d.Layout.Cylinders, Mains: d.Layout.Filled().Mains}[list]
	out := slices.Clone(d.Layout.Labels[list])
	for at := len(out); at < count; at++ {
		out = append(out, strconv.Itoa(at+1))
	}
	return out
}

// SetLabel calls one position of a list, from 1 on, by a label; an empty one is
// its number. Positions stay what they are, so no reading moves. Labels that
// are too long or given twice are for Check to find.
func (d *Draft) SetLabel(list string, at int, label string) {
	labels := d.Labels(list)
	if at < 1 || at > len(labels) {
		return
	}
	if label = strings.TrimSpace(label); label == "" {
		label = strconv.Itoa(at)
	}
	labels[at-1] = label
	all := maps.Clone(d.Layout.Labels)
	if all == nil {
		all = map[string][]string{}
	}
	if all[list] = labels; countsUp(labels) {
		delete(all, list)
	}
	d.setLabels(all)
}

// CountUp takes the labels of a list away: its positions count from 1.
func (d *Draft) CountUp(list string) {
	all := maps.Clone(d.Layout.Labels)
	delete(all, list)
	d.setLabels(all)
}

func (d *Draft) setLabels(all map[string][]string) {
	if len(all) == 0 {
		all = nil
	}
	d.Layout.Labels = all
}

func countsUp(labels []string) bool {
	for i, l := range labels {
		if l != strconv.Itoa(i+1) {
			return false
		}
	}
	return true
}

// checkLabels looks at the labels one by one; ok is false when it found
// something.
func (d Draft) checkLabels(ps *problems) (ok bool) {
	n := len(*ps)
	for _, list := range []string{Cylinders, Mains} {
		noun := strings.TrimSuffix(list, "s")
		seen := map[string]int{}
		for i, label := range d.Layout.Labels[list] {
			field := "layout.labels." + list + "." + strconv.Itoa(i+1)
			switch at := seen[label]; {
			case utf8.RuneCountInString(label) > mostLabel:
				ps.wrong(field, "the label %q of %s %d has more than %d characters", label, noun, i+1, mostLabel)
			case at > 0:
				ps.wrong(field, "%s %d from the front is labelled %q, and so is number %d", noun, i+1, label, at)
			}
			seen[label] = i + 1
		}
	}
	return len(*ps) == n
}
