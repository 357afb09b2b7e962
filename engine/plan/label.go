package plan

import (
	"strconv"
	"strings"
)

// Label returns what the bench calls the feature's position: the layout's
// label, else the position's number.
func (l Layout) Label(f Feature) string {
	t, _ := f.Family.Traits()
	if names := l.Labels[t.Labels]; f.At >= 1 && f.At <= len(names) {
		return names[f.At-1]
	}
	return strconv.Itoa(f.At)
}

// Name returns the feature as a sentence names it, such as "main journal 2".
func (l Layout) Name(f Feature) string {
	t, ok := f.Family.Traits()
	switch {
	case !ok:
		return f.String()
	case t.Count(l) == 1 && t.Labels == "":
		return t.Noun
	default:
		return strings.ReplaceAll(t.Noun, "{part}", f.Part) + " " + l.Label(f)
	}
}

// ByLabel returns the feature of the family that bears the label; ok is false
// when none does.
func (l Layout) ByLabel(family Family, label string) (f Feature, ok bool) {
	t, known := family.Traits()
	if !known {
		return Feature{}, false
	}
	for at := 1; at <= t.Count(l); at++ {
		f := Feature{Family: family, At: at}
		if len(t.Parts) > 0 {
			f.Part = t.Parts[0]
		}
		if l.Label(f) == label {
			return f, true
		}
	}
	return Feature{}, false
}
