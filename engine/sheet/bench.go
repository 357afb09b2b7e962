package sheet

import (
	"fmt"
	"strings"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// gauges are the instruments, what they were set on and their zero checks.
func gauges(views []view) Section {
	return Section{Heading: "Gauges and zero checks", Tables: append(tablesIn(views, view.instruments), tablesIn(views, view.settings)...)}
}

// instruments is the table of what was read with.
func (v view) instruments() Table {
	t := Table{Caption: "Gauges", Columns: []string{"gauge", "kind", "graduation", "reading step", "repeatability s", "calibration ends"}}
	for _, g := range v.s.Gauges() {
		t.Rows = append(t.Rows, []Cell{
			{Text: g.Name}, {Text: g.Kind}, number(written(g.Graduation)), number(written(g.Step)), number(v.repeats(g.Repeats)), {Text: g.Due},
		})
	}
	return t
}

// settings is the table of what the instruments were zeroed on.
func (v view) settings() Table {
	t := Table{
		Caption: "Settings and zero checks, in " + unitWord(v),
		Columns: []string{"gauge", "set on", "master's size", "made", "zero checks", "readings", "suspect"},
	}
	for _, g := range v.s.Gauges() {
		for _, z := range g.Settings {
			tone := Plain
			if z.Doubtful {
				tone = Bad
			}
			t.Rows = append(t.Rows, []Cell{
				{Text: g.Name},
				{Text: v.setOn(z.Setting)},
				number(v.figure(z.Size)),
				{Text: day(z.Made)},
				{Text: v.checks(z.Checks), Tone: tone},
				number(fmt.Sprint(z.Readings)), number(fmt.Sprint(z.Suspect)),
			})
		}
	}
	return t
}

func (v view) setOn(x gauge.Setting) string {
	if x.Feature == "" {
		return x.On
	}
	return x.On + " " + v.s.NameOf(x.Feature)
}

// conditions are the sets that were read, with the part's condition and the
// temperatures.
func conditions(views []view) Section {
	v := views[0]
	t := Table{Caption: "Conditions of each set of readings", Columns: []string{
		"set", "parts", "plate", "caps", "torque", "fastener", "lubricant", "surface", "part °C", "gauge °C", "master °C",
	}}
	for _, x := range v.s.Sets() {
		if v.s.SetUsed(x.ID) {
			t.Rows = append(t.Rows, []Cell{
				{Text: x.ID},
				{Text: v.readIn(x.ID)},
				{Text: x.Plate},
				{Text: x.Caps},
				{Text: x.Torque},
				{Text: x.Fastener},
				{Text: x.Lube},
				{Text: x.Oiled},
				number(x.At.Part), number(x.At.Gauge), number(x.At.Master),
			})
		}
	}
	if len(t.Rows) == 0 {
		return Section{}
	}
	return Section{Heading: "Conditions and temperatures", Tables: []Table{t}}
}

// readIn names the families that were read in a set.
func (v view) readIn(set string) string {
	var out []string
	seen := map[plan.Family]bool{}
	for _, e := range v.s.Events() {
		r, ok := e.Body.(record.Reading)
		if ok && r.Set == set && !seen[r.Of.Family] {
			seen[r.Of.Family] = true
			out = append(out, r.Of.Family.Plural())
		}
	}
	return strings.Join(out, ", ")
}
