package sheet

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// judged lists every finding that is measured, worst first, and what to do.
func judged(views []view) Section {
	x := Section{Heading: "What was judged", Tables: tablesIn(views, view.findings)}
	v := views[0]
	var open []string
	for i, f := range v.a.Findings {
		if f.Judgement.Verdict == limit.NotMeasured {
			open = append(open, f.Text)
		}
		if remedy := v.r.Findings[i].Remedy; remedy != "" {
			x.Notes = append(x.Notes, "To do: "+remedy+".")
		}
	}
	if len(open) > 0 {
		x.Notes = append(x.Notes, fmt.Sprintf("Not measured, %d: %s.", len(open), strings.Join(open, "; ")))
	}
	return x
}

// findings is the table of what is measured and judged.
func (v view) findings() Table {
	t := Table{
		Caption: "Findings, worst first, ⌀ in " + unitWord(v) + "; ± is the expanded uncertainty (" + v.s.Coverage().String() + ")",
		Columns: []string{"part", "what", "value", "±", "low limit", "high limit", "margin used", "verdict"},
	}
	for i, f := range v.a.Findings {
		if !f.Value.Measured() {
			continue
		}
		r, by := v.r.Findings[i], f.Limits.Range(f.Judgement.By)
		t.Rows = append(t.Rows, []Cell{
			{Text: v.partOf(f)},
			{Text: whatOf(f)},
			v.bare(r.Value), number(uncertainty(f, v.u)),
			v.bare(v.limitIn(by.Low)), v.bare(v.limitIn(by.High)), number(margin(f)),
			{Text: verdictOf(f), Tone: toneOf(f.Judgement)},
		})
	}
	return t
}

// limitIn is a limit in the unit of the view.
func (v view) limitIn(w length.Written) string {
	if w.IsZero() {
		return ""
	}
	text, _, _ := strings.Cut(engine.LimitText(w, v.u), " (") // behind it stands how it was written
	return text
}

func verdictOf(f *engine.Finding) string {
	text := engine.VerdictText(f.Judgement)
	if f.Judgement.Doubtful && f.Judgement.Verdict.Inside() {
		text += ", a limit within the doubt"
	}
	if len(f.Notes) > 0 {
		text += " (" + strings.Join(f.Notes, ", ") + ")"
	}
	return text
}

// partOf names what a finding is of and where.
func (v view) partOf(f *engine.Finding) string {
	name := v.s.Name(f.Of)
	if t, _ := f.Of.Family.Traits(); f.Level != "" && t.Figure == "" {
		name += ", " + v.s.LevelName(f.Of.Family, f.Level)
	}
	if f.Dir != "" && f.Dir != plan.Once {
		name += ", " + engine.DirName(f.Dir)
	}
	return name
}

func whatOf(f *engine.Finding) string {
	text := string(f.On)
	if f.By != "" {
		text += " (" + string(f.By) + ")"
	}
	if f.Bound {
		text += ", a bound"
	}
	return text
}
