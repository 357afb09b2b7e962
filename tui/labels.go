package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/engine/plan"
)

// labelled returns the feature of a family that is called so: by its label, in
// capital or small letters where only one is, or by the number that stands for
// it on a keypad.
func labelled(l plan.Layout, family plan.Family, label string) (f plan.Feature, ok bool) {
	if f, ok = l.ByLabel(family, label); ok {
		return f, true
	}
	labels := labelsOf(l, family)
	alike := slices.DeleteFunc(slices.Clone(labels), func(s string) bool { return !strings.EqualFold(s, label) })
	if len(alike) == 1 {
		return l.ByLabel(family, alike[0])
	}
	if i := slices.Index(keypadNumbers(labels), label); i >= 0 {
		return l.ByLabel(family, labels[i])
	}
	return plan.Feature{}, false
}

// labelsOf returns what the positions of a family are called.
func labelsOf(l plan.Layout, family plan.Family) []string {
	t, ok := family.Traits()
	if !ok {
		return nil
	}
	var out []string
	for at := range t.Count(l) {
		out = append(out, l.Label(plan.Feature{Family: family, At: at + 1}))
	}
	return out
}

// keypadNumbers returns the number that stands for each label on a keypad: the
// label itself where that is a number, else its place in the list, or the first
// number that is free where a label is that number.
func keypadNumbers(labels []string) []string {
	out, used := make([]string, len(labels)), map[string]bool{}
	for i, label := range labels {
		if isNumber(label) {
			out[i], used[label] = label, true
		}
	}
	for i := range labels {
		if out[i] != "" {
			continue
		}
		n := strconv.Itoa(i + 1)
		for k := 1; used[n]; k++ {
			n = strconv.Itoa(k)
		}
		out[i], used[n] = n, true
	}
	return out
}

func isNumber(label string) bool { return label != "" && strings.Trim(label, "0123456789") == "" }

// keypadList says which number stands for which label, or nothing where all
// labels are numbers.
func keypadList(l plan.Layout, family plan.Family) string {
	labels := labelsOf(l, family)
	var out []string
	for i, n := range keypadNumbers(labels) {
		if n != labels[i] {
			out = append(out, fmt.Sprintf("%s is %s", n, labels[i]))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return strings.Join(out, ", ") + ". "
}
