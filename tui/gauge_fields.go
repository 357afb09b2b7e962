package tui

import (
	"errors"
	"slices"
	"strings"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

// decimalOf is a field of a number without a unit, kept as text.
func decimalOf(id, why string, text *string) field {
	return field{
		id: id, kind: numberField, wide: 10, why: why,
		get: func() string { return *text },
		set: func(t string) error {
			t = strings.ReplaceAll(t, ",", ".")
			if t != "" {
				if _, err := length.ParseDecimal(t); err != nil {
					return errors.New(t + " is not a number")
				}
			}
			*text = t
			return nil
		},
	}
}

// writtenOf is a field of a length kept at w.
func writtenOf(id, why string, unit length.Unit, w *length.Written) field {
	x := lengthField(id, unit, func() length.Written { return *w }, func(to length.Written) error {
		*w = to
		return nil
	})
	x.why = why
	return x
}

// ownMaterial is the choice of a material that is not in the table.
const ownMaterial = "another, its expansion keyed below"

// materialRows ask what a body is made of: a material of the table fills in its
// expansion, which can be keyed over.
func materialRows(id, of string, name, alpha, alphaDoubt *string) []row {
	all := gauge.Materials()
	choices := []string{"not known"}
	at := 0
	for i, m := range all {
		choices = append(choices, m.Name)
		if m.Name == *name {
			at = i + 1
		}
	}
	choices = append(choices, ownMaterial)
	if at == 0 && (*name != "" || *alpha != "") {
		at = len(choices) - 1
	}
	pick := func(i int) {
		switch {
		case i == 0:
			*name, *alpha, *alphaDoubt = "", "", ""
		case i == len(choices)-1:
			*name = "as keyed"
		default:
			m := all[i-1]
			*name, *alpha, *alphaDoubt = m.Name, m.Alpha, m.Doubt
		}
	}
	note := ""
	if m, ok := gauge.FindMaterial(*name); ok {
		note = m.Source
	}
	return []row{
		{label: of + " made of", fields: []field{choiceOf(id+".material", "fills in its expansion, to be keyed over: the maker's figure governs", choices, at, *name, pick)}},
		{label: "expansion, 1e-6 per °C", fields: []field{decimalOf(id+".alpha", "by how much it grows per °C, in millionths of its length", alpha)}, note: note},
		{label: "to either side", fields: []field{decimalOf(id+".alphadoubt", "how far the expansion may be to either side; it goes into the doubt", alphaDoubt)}},
	}
}

// temperatureRows ask for temperatures in °C; which are those that matter here.
func temperatureRows(id string, at *gauge.Temperatures, which ...string) []row {
	var out []row
	for _, x := range []struct {
		what string
		text *string
	}{{"part", &at.Part}, {"master", &at.Master}, {"gauge", &at.Gauge}} {
		if slices.Contains(which, x.what) {
			out = append(out, row{label: x.what + ", °C", fields: []field{decimalOf(id+"."+x.what, "the temperature of the "+x.what+"; empty where it was not taken", x.text)}})
		}
	}
	return append(out, row{label: "good to, °C", fields: []field{decimalOf(id+".doubt", "how far each of these temperatures may be to either side", &at.Doubt)}})
}
