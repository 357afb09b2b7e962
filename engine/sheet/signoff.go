package sheet

import (
	"fmt"
	"strings"

	"borewright/engine/prep"
	"borewright/engine/record"
)

// signOff is where the prep list stands, with what was counted out and in.
func signOff(views []view) Section {
	v := views[0]
	ready := v.a.Ready
	x := Section{Heading: "Prep and sign-off"}
	if !ready.Listed() {
		return x
	}
	x.Notes = append(x.Notes, fmt.Sprintf("%d of %d steps done.", ready.Done, ready.Steps))
	for _, text := range []string{ready.NotReady(), ready.Oil} {
		if text != "" {
			x.Notes = append(x.Notes, upper(text))
		}
	}
	if ready.NotReady() == "" {
		x.Notes = append(x.Notes, "Nothing keeps it from being ready.")
	}
	for _, f := range ready.Findings {
		if !f.Blocks() {
			x.Notes = append(x.Notes, upper(f.Text))
		}
	}
	for _, t := range []Table{tallies(ready.Tallies), v.signed()} {
		if len(t.Rows) > 0 {
			x.Tables = append(x.Tables, t)
		}
	}
	return x
}

// tallies is the table of what was counted out, and whether it came back.
func tallies(all []prep.Tally) Table {
	t := Table{Caption: "Counted out, counted in", Columns: []string{"what", "out", "in", "accounted for", "must be in", "stands"}}
	for _, x := range all {
		row := []Cell{{Text: x.Name}, {Number: true}, {Number: true}, {Number: true}, {Number: true}, {Text: "not counted out", Tone: Doubtful}}
		if x.Known {
			for i, n := range []int{x.Out, x.In, x.Accounted, x.Need} {
				row[1+i].Text = fmt.Sprint(n)
			}
			row[5] = Cell{Text: "all back or accounted for", Tone: Good}
			if wrong := x.Wrong(); wrong != "" {
				row[5] = Cell{Text: wrong, Tone: Bad}
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// signed is the table of what was signed off.
func (v view) signed() Table {
	t := Table{Caption: "What was signed off", Columns: []string{"when", "by", "what"}}
	for _, e := range v.s.Log() {
		if e.Live && e.Is() == record.IsDone {
			t.Rows = append(t.Rows, []Cell{{Text: day(e.At)}, {Text: e.By}, {Text: strings.TrimPrefix(e.Text, "prep: ")}})
		}
	}
	return t
}

// notes are what was noted down, as it was.
func notes(views []view) Section {
	v := views[0]
	t := Table{Columns: []string{"when", "by", "note"}, Caption: "What was noted down"}
	for _, e := range v.s.Log() {
		if e.Live && e.Is() == record.IsNote {
			t.Rows = append(t.Rows, []Cell{{Text: day(e.At)}, {Text: e.By}, {Text: strings.TrimPrefix(e.Text, "note: ")}})
		}
	}
	if len(t.Rows) == 0 {
		return Section{}
	}
	return Section{Heading: "Notes", Tables: []Table{t}}
}
