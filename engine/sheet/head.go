package sheet

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// counts are how many findings came out how.
type counts struct{ outside, close, suspect, open, inside int }

func (v view) counts() (c counts) {
	for _, f := range v.a.Findings {
		switch j := f.Judgement; {
		case j.Verdict == limit.Outside:
			c.outside++
		case j.Verdict == limit.TooClose:
			c.close++
		case j.Verdict == limit.NotMeasured:
			c.open++
		case j.Suspect:
			c.suspect++
		case j.Verdict.Inside():
			c.inside++
		}
	}
	return c
}

// verdict is the verdict on the engine in one line.
func (v view) verdict() (text string, tone Tone) {
	c := v.counts()
	switch {
	case c.outside > 0:
		text, tone = fmt.Sprintf("%d outside the limits", c.outside), Bad
	case c.close > 0:
		text, tone = fmt.Sprintf("%d too close to call", c.close), Doubtful
	case c.suspect > 0:
		text, tone = fmt.Sprintf("%d suspect", c.suspect), Doubtful
	case c.inside == 0:
		return "Nothing is judged: no limit is given, or nothing is measured that one is for.", Doubtful
	default:
		text, tone = "inside the limits in all that is judged", Good
	}
	if c.open > 0 {
		text += fmt.Sprintf(", %d not measured", c.open)
		tone = max(tone, Doubtful)
	}
	if not := v.a.Ready.NotReady(); not != "" {
		text += ", prep not finished"
		tone = max(tone, Doubtful)
	}
	return upper(text) + ". Worst: " + clean(v.a.Findings[0].Text), tone
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// toneOf is how a judgement is.
func toneOf(j limit.Judgement) Tone {
	switch {
	case j.Verdict == limit.Outside:
		return Bad
	case j.Verdict == limit.NotMeasured || j.Verdict == limit.NoLimits:
		return Plain
	case j.Verdict == limit.TooClose || j.Suspect || j.Doubtful:
		return Doubtful
	default:
		return Good
	}
}

// head says what was on the bench.
func head(views []view) Section {
	v := views[0]
	settled, planned := v.s.Progress()
	x := Section{Heading: "The engine", Pictures: blockMap(v), Notes: []string{
		layoutNote(v.s.Layout()),
		fmt.Sprintf("%d of %d places read or left out, as of event %d.", settled, planned, v.s.Head().N),
		unitNote(views),
	}}
	if d := v.s.Details(); d.Ran != "" {
		x.Notes = append(x.Notes, "Ran: "+d.Ran)
	}
	if again := v.s.MeasureAgain(); len(again) > 0 {
		x.Notes = append(x.Notes, fmt.Sprintf("%d places are to be measured again: the gauge's zero could not be believed.", len(again)))
	}
	return x
}

// layoutNote says how the engine is laid out, or that nobody said.
func layoutNote(l plan.Layout) string {
	if l.Form == "" {
		return "No layout is set."
	}
	return fmt.Sprintf("%s, %s, %s.", upper(l.Form), several(l.Cylinders, "cylinder"), several(l.Mains, "main"))
}

// several is a number of things.
func several(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

func unitNote(views []view) string {
	text := "All sizes and clearances are diametral (⌀), in " + unitWord(views[0])
	if len(views) > 1 {
		text += "; in the tables the same in " + unitWord(views[1]) + " stands below each figure"
	}
	return text + "."
}

func unitWord(v view) string {
	if v.u.String() == "in" {
		return "inch"
	}
	return v.u.String()
}

// worst ranks the cylinders and the mains.
func worst(views []view) Section {
	v := views[0]
	x := Section{Heading: "Cylinders and mains, worst first"}
	for _, line := range []struct {
		name string
		rs   []engine.Ranking
	}{{"Cylinders", v.a.Cylinders}, {"Mains", v.a.Mains}} {
		t := Table{Caption: line.name, Columns: []string{"", "verdict", "margin used", "worst of it"}}
		for _, r := range line.rs {
			f, ok := r.Worst()
			if !ok {
				continue
			}
			t.Rows = append(t.Rows, []Cell{
				{Text: r.Label},
				{Text: engine.VerdictText(f.Judgement), Tone: toneOf(f.Judgement)},
				number(margin(&f)),
				{Text: f.Text},
			})
		}
		if len(t.Rows) > 0 {
			x.Tables = append(x.Tables, t)
		}
	}
	if len(x.Tables) > 0 {
		x.Notes = []string{"Margin used is 0 at the target and 1.00 on a limit."}
	}
	return x
}

func margin(f *engine.Finding) string {
	if !f.Judgement.Ranked {
		return ""
	}
	return engine.MarginText(f.Judgement.Margin)
}

// number is a cell of a figure; its sign is a minus, not a hyphen.
func number(text string) Cell {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		text = "−" + rest
	}
	return Cell{Text: text, Number: true}
}

// bare takes the unit of the view off a figure of its report.
func (v view) bare(text string) Cell { return number(strings.TrimSuffix(text, " "+v.u.String())) }
