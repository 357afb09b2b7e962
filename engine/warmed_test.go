package engine_test

import (
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestANewTemperatureAsksForAZeroCheck(t *testing.T) {
	choose := record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}, Instrument: "a"},
	}}}
	set := func(id, part, of string) record.Set {
		return record.Set{Set: gauge.Set{ID: id, Setting: "sa", At: gauge.Temperatures{Part: part, Gauge: of}}}
	}
	reading := func(set string) record.Reading { return deviation(t, "bore/1", set, "0.0003") }
	skipped := record.Zero{Set: "new", Skipped: true, Why: "no ring at hand"}
	for _, c := range []struct {
		name string
		want string
		then []record.Body
	}{
		{"never taken", "", []record.Body{reading("ta")}},
		{"taken for the first time after readings", "", []record.Body{reading("ta"), set("new", "12", "12")}},
		{"as before", "", []record.Body{set("t", "20", "20"), reading("t"), set("new", "20.5", "20")}},
		{"just allowed", "", []record.Body{set("t", "20", "20"), reading("t"), set("new", "22", "18")}},
		{"a colder part", "the part is 7.5 °C colder than at the last zero", []record.Body{set("t", "20", "20"), reading("t"), set("new", "12.5", "")}},
		{"a warmer gauge", "gauge a is 3 °C warmer than at the last zero", []record.Body{set("t", "20", "20"), reading("t"), set("new", "20", "23")}},
		{"checked since", "", []record.Body{set("t", "20", "20"), reading("t"), set("new", "12", "12"), zero(t, "new", "0.0000")}},
		{"skipped since", "", []record.Body{set("t", "20", "20"), reading("t"), set("new", "12", "12"), skipped}},
		{"taken right after a check", "", []record.Body{set("t", "20", "20"), reading("t"), zero(t, "t", "0.0000"), set("new", "12", "12")}},
		{"taken after a check and a reading", "the part is 8 °C colder than at the last zero", []record.Body{set("t", "20", "20"), zero(t, "t", "0.0000"), reading("t"), set("new", "12", "12")}},
		{"ten allowed", "", []record.Body{record.Rules{StaleWarm: "10"}, set("t", "20", "20"), reading("t"), set("new", "12", "12")}},
		{"half allowed", "the part is 1 °C colder than at the last zero", []record.Body{record.Rules{StaleWarm: "0.5"}, set("t", "20", "20"), reading("t"), set("new", "19", "20")}},
	} {
		s := replay(t, append(append(gauged(t), choose), c.then...))
		if got := s.Warmed(plan.Bore); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
