package gauge_test

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

func TestReadZero(t *testing.T) {
	i := gauge.Instrument{Kind: gauge.Direct, Unit: length.In, Graduation: length.Written{Length: length.Inch / 10_000, Unit: length.In, Places: 4}}
	for _, c := range []struct {
		name, keyed, sends string
		cable              bool
		want               string // the deviation, or what the refusal says
	}{
		{"graduations", "+1.5", "", false, "0.00015 in"},
		{"a direct gauge's too", "-2", gauge.SendsSize, false, "-0.0002 in"},
		{"by a cable as keyed", "+1.5", "", true, "0.00015 in"},
		{"graduations by a cable", "-1", gauge.SendsGraduations, true, "-0.0001 in"},
		{"a deviation by a cable", "-0.0003", gauge.SendsDeviation, true, "-0.0003 in"},
		{"another unit", "0.00254 mm", gauge.SendsDeviation, true, "the cable sent millimetres"},
		{"a deviation keyed", "-3", gauge.SendsDeviation, false, "-0.0003 in"},
		{"a size by a cable", "3.7503", gauge.SendsSize, true, `"3.7503": this cable sends sizes`},
		{"a unit of graduations", "1 mm", gauge.SendsGraduations, true, "graduations have no unit"},
	} {
		i.Sends = c.sends
		r := gauge.ReadZero(c.keyed, i, c.cable)
		if got := r.Meaning.Dev.String(); r.Kind == gauge.Taken && got != c.want || r.Kind != gauge.Taken && !strings.Contains(r.Reason, c.want) {
			t.Errorf("%s: %v %s %s, want %s", c.name, r.Kind, got, r.Reason, c.want)
		}
	}
}
