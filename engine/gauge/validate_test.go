package gauge_test

import (
	"errors"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

// finds checks that err is a Fault of the field, or none when field is empty.
func finds(t *testing.T, name string, err error, field string) {
	t.Helper()
	var f *gauge.Fault
	switch {
	case field == "" && err != nil:
		t.Errorf("%s: %v", name, err)
	case field != "" && (!errors.As(err, &f) || f.Field != field):
		t.Errorf("%s: %v, want a fault of %s", name, err, field)
	case field != "" && (f.Of == "" || strings.Contains(f.Error(), "\n")):
		t.Errorf("%s: %v does not say of what in one line", name, err)
	}
}

func TestInstrumentValidate(t *testing.T) {
	for _, tt := range []struct {
		name, field string
		change      func(*gauge.Instrument)
	}{
		{"as it is", "", func(*gauge.Instrument) {}},
		{"everything given", "", func(i *gauge.Instrument) {
			i.Contacts, i.Step, i.Turn = 3, written(t, "0.00005 in"), written(t, "0.02 in")
			i.Low, i.High = written(t, "3 in"), written(t, "4 in")
			i.Sense, i.Sends, i.Material, i.Due = gauge.ClockwiseLarger, gauge.SendsSize, "steel", "2026-12-31"
			i.Alpha, i.AlphaDoubt, i.S, i.DF = "11.5", "1.0", written(t, "0.00003 in"), 12
		}},
		{"no id", "id", func(i *gauge.Instrument) { i.ID = "" }},
		{"no name", "name", func(i *gauge.Instrument) { i.Name = "" }},
		{"escape in the name", "name", func(i *gauge.Instrument) { i.Name = "a\x1b[2J" }},
		{"broken name", "name", func(i *gauge.Instrument) { i.Name = "a\xff" }},
		{"blank name", "name", func(i *gauge.Instrument) { i.Name = " " }},
		{"long name", "name", func(i *gauge.Instrument) { i.Name = strings.Repeat("é", 32) + "x" }},
		{"name of the longest", "", func(i *gauge.Instrument) { i.Name = strings.Repeat("é", 32) }},
		{"long id", "id", func(i *gauge.Instrument) { i.ID = strings.Repeat("x", 65) }},
		{"long material", "material", func(i *gauge.Instrument) { i.Material = strings.Repeat("x", 65) }},
		{"kind", "kind", func(i *gauge.Instrument) { i.Kind = "laser" }},
		{"contacts", "contacts", func(i *gauge.Instrument) { i.Contacts = 4 }},
		{"unit", "unit", func(i *gauge.Instrument) { i.Unit = length.UM }},
		{"no graduation", "graduation", func(i *gauge.Instrument) { i.Graduation = length.Written{} }},
		{"an indicator without", "", func(i *gauge.Instrument) { i.Kind, i.Graduation = gauge.Indicator, length.Written{} }},
		{"graduation zero", "graduation", func(i *gauge.Instrument) { i.Graduation = written(t, "0 in") }},
		{"coarse step", "step", func(i *gauge.Instrument) { i.Step = written(t, "0.001 in") }},
		{"step zero", "step", func(i *gauge.Instrument) { i.Step = written(t, "0 in") }},
		{"short turn", "turn", func(i *gauge.Instrument) { i.Turn = written(t, "0.0001 in") }},
		{"negative low", "low", func(i *gauge.Instrument) { i.Low = written(t, "-1 in") }},
		{"high of nothing", "high", func(i *gauge.Instrument) { i.High = written(t, "0 in") }},
		{"high at low", "high", func(i *gauge.Instrument) { i.Low, i.High = written(t, "3 in"), written(t, "3.0 in") }},
		{"high under low", "high", func(i *gauge.Instrument) { i.Low, i.High = written(t, "4 in"), written(t, "3 in") }},
		{"huge", "scale", func(i *gauge.Instrument) { i.High = written(t, "90000 mm") }},
		{"sense", "sense", func(i *gauge.Instrument) { i.Sense = "left" }},
		{"sends", "sends", func(i *gauge.Instrument) { i.Sends = "all" }},
		{"alpha", "alpha", func(i *gauge.Instrument) { i.Alpha = "steel" }},
		{"alpha below zero", "alpha", func(i *gauge.Instrument) { i.Alpha = "-0.1" }},
		{"alpha too large", "alpha", func(i *gauge.Instrument) { i.Alpha = "1000.000000000001" }},
		{"doubt alone", "alpha doubt", func(i *gauge.Instrument) { i.AlphaDoubt = "1" }},
		{"due", "due", func(i *gauge.Instrument) { i.Due = "31.12.2026" }},
		{"repeatability", "repeatability", func(i *gauge.Instrument) { i.S, i.DF = written(t, "-1 µm"), 3 }},
		{"no freedom", "degrees of freedom", func(i *gauge.Instrument) { i.S = written(t, "1 µm") }},
		{"freedom below zero", "degrees of freedom", func(i *gauge.Instrument) { i.DF = -1 }},
	} {
		i := inch(t).Instrument
		tt.change(&i)
		finds(t, tt.name, i.Validate(), tt.field)
	}
}

// What stands in a sentence says of what it is, and is cut when it is long.
func TestFaultSays(t *testing.T) {
	i := inch(t).Instrument
	long := strings.Repeat("x", 65)
	for want, change := range map[string]func(*gauge.Instrument){
		"instrument: id is missing":                                                              func(i *gauge.Instrument) { i.ID = "" },
		`instrument: id "` + long[:40] + `…" is longer than 64 bytes`:                            func(i *gauge.Instrument) { i.ID = long },
		`instrument "m1": kind "` + long[:40] + `…" is neither comparator, direct nor indicator`: func(i *gauge.Instrument) { i.Kind = long },
		`instrument "m1": contacts "1" are neither 2 nor 3`:                                      func(i *gauge.Instrument) { i.Contacts = 1 },
		`instrument "m1": name "a\x1b" holds a control character`:                                func(i *gauge.Instrument) { i.Name = "a\x1b" },
		`instrument "m1": graduation is missing`:                                                 func(i *gauge.Instrument) { i.Graduation = length.Written{} },
	} {
		bad := i
		change(&bad)
		if err := bad.Validate(); err == nil || err.Error() != want {
			t.Errorf("got  %v\nwant %s", err, want)
		}
	}
}

func TestWithin(t *testing.T) {
	for _, tt := range []struct {
		text      string
		low, high int64
		want      bool
	}{
		{"0", 0, 1, true},
		{"-0.000000000000001", 0, 1, false},
		{"1.00000000000000", 0, 1, true},
		{"1.00000000000001", 0, 1, false},
		{"999.999999999999", -1000, 1000, true},
		{"-1000", -1000, 1000, true},
		{"-1000.1", -1000, 1000, false},
	} {
		d, err := length.ParseDecimal(tt.text)
		if err != nil {
			t.Fatal(err)
		}
		if got := gauge.Within(d, tt.low, tt.high); got != tt.want {
			t.Errorf("%s from %d to %d: %v", tt.text, tt.low, tt.high, got)
		}
	}
}

func TestSettingValidate(t *testing.T) {
	for _, tt := range []struct {
		name, field string
		change      func(*gauge.Setting)
	}{
		{"on a ring", "", func(*gauge.Setting) {}},
		{"on a feature", "", func(s *gauge.Setting) { s.On, s.Feature = gauge.OnFeature, "main-journal/2" }},
		{"on a feature not measured", "", func(s *gauge.Setting) {
			s.On, s.Feature, s.Size = gauge.OnFeature, "main-journal/2", length.Written{}
		}},
		{"on its scale", "", func(s *gauge.Setting) { s.On, s.Size = gauge.OnScale, length.Written{} }},
		{"no id", "id", func(s *gauge.Setting) { s.ID = "" }},
		{"no instrument", "instrument", func(s *gauge.Setting) { s.Instrument = "" }},
		{"on", "on", func(s *gauge.Setting) { s.On = "thumb" }},
		{"ring without size", "size", func(s *gauge.Setting) { s.Size = length.Written{} }},
		{"size zero", "size", func(s *gauge.Setting) { s.Size = written(t, "0 in") }},
		{"scale with size", "size", func(s *gauge.Setting) { s.On = gauge.OnScale }},
		{"feature unknown", "feature", func(s *gauge.Setting) { s.On, s.Feature = gauge.OnFeature, "thumb/1" }},
		{"ring with feature", "feature", func(s *gauge.Setting) { s.Feature = "main-journal/2" }},
		{"doubt", "doubt", func(s *gauge.Setting) { s.Doubt = written(t, "-1 µm") }},
		{"cold part", "part temperature", func(s *gauge.Setting) { s.At.Part = "-61" }},
		{"cold enough", "", func(s *gauge.Setting) { s.At.Part = "-60" }},
		{"hot master", "master temperature", func(s *gauge.Setting) { s.At.Master = "300.1" }},
		{"gauge", "gauge temperature", func(s *gauge.Setting) { s.At.Gauge = "warm" }},
	} {
		s := gauge.Setting{ID: "s1", Instrument: "m1", On: gauge.OnRing, Size: written(t, "3.7500 in")}
		tt.change(&s)
		finds(t, tt.name, s.Validate(), tt.field)
	}
}

func TestSettingValidateFor(t *testing.T) {
	ring := gauge.Setting{ID: "s1", Instrument: "d1", On: gauge.OnRing, Size: written(t, "3.7500 in")}
	scale := gauge.Setting{ID: "s2", Instrument: "d1", On: gauge.OnScale}
	feature := gauge.Setting{ID: "s3", Instrument: "m1", On: gauge.OnFeature, Feature: "bore/1"}
	finds(t, "dial on a ring", ring.ValidateFor(dial(t).Instrument), "")
	finds(t, "dial on its scale", scale.ValidateFor(dial(t).Instrument), "on")
	finds(t, "another instrument's", ring.ValidateFor(inch(t).Instrument), "instrument")
	finds(t, "micrometer on a feature", feature.ValidateFor(inch(t).Instrument), "on")
	ring.ID = ""
	finds(t, "wrong by itself", ring.ValidateFor(dial(t).Instrument), "id")
}

func TestSetValidate(t *testing.T) {
	for _, tt := range []struct {
		name, field string
		change      func(*gauge.Set)
	}{
		{"as it is", "", func(*gauge.Set) {}},
		{"no id", "id", func(s *gauge.Set) { s.ID = "" }},
		{"no setting", "setting", func(s *gauge.Set) { s.Setting = "" }},
		{"long plate", "plate", func(s *gauge.Set) { s.Plate = strings.Repeat("x", 201) }},
		{"bell in the lubricant", "lube", func(s *gauge.Set) { s.Lube = "\a" }},
		{"temperature", "part temperature", func(s *gauge.Set) { s.At.Part = "1e2" }},
	} {
		s := gauge.Set{ID: "set1", Setting: "s1", Plate: "fitted", At: gauge.Temperatures{Part: "18.5"}}
		tt.change(&s)
		finds(t, tt.name, s.Validate(), tt.field)
	}
	if !(gauge.Temperatures{}).IsZero() || (gauge.Temperatures{Gauge: "20"}).IsZero() {
		t.Error("only no temperature at all is not measured")
	}
}
