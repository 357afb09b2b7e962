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

func TestAMasterOutsideTheRange(t *testing.T) {
	inch := func(text string) length.Written {
		w, err := length.Parse(text, length.In)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	i := gauge.Instrument{ID: "g", Name: "bore gauge", Kind: gauge.Comparator, Unit: length.In, Low: inch("2"), High: inch("6")}
	for size, want := range map[string]string{
		"1.9999": `size "1.9999 in" is below what bore gauge reads, from 2 in`, "2": "", "3.75": "", "6.0000": "",
		"6.0001": `size "6.0001 in" is above what bore gauge reads, to 6 in`, "152.5 mm": "is above what bore gauge reads",
	} {
		x := gauge.Setting{ID: "s", Instrument: "g", On: gauge.OnRing, Size: inch(size)}
		err := x.ValidateFor(i)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", size, err, want)
		}
	}
	i.Low, i.High = length.Written{}, length.Written{}
	if err := (gauge.Setting{ID: "s", Instrument: "g", On: gauge.OnRing, Size: inch("99")}).ValidateFor(i); err != nil {
		t.Errorf("a range that is not known refuses: %v", err)
	}
}

func TestImpossibleTemperatures(t *testing.T) {
	for text, want := range map[string]string{
		"20": "", "-10.5": "", "300": "", "-60": "", "301": "is not from -60 to 300", "-61": "is not from -60 to 300", "2000": "is not from -60 to 300",
		"": "is missing", "warm": "is not a decimal number", "NaN": "is not a decimal number", "1e3": "is not a decimal number",
	} {
		err := gauge.CheckTemperature(text)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
		set := gauge.Set{ID: "t", Setting: "s", At: gauge.Temperatures{Part: text}}
		if err := set.Validate(); text != "" && (err == nil) != (want == "") {
			t.Errorf("%q in a set: %v, want %q", text, err, want)
		}
	}
}
