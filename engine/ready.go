package engine

import (
	"fmt"
	"strings"

	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
)

// Ready is where the prep list of a session stands. The zero value is that of
// a session without one.
type Ready struct {
	// Done of Steps steps stand.
	Done, Steps int
	// Findings are what is to be said, what matters most first.
	Findings []prep.Finding
	Tallies  []prep.Tally
	// Oil tells the oil path as decided, or is empty.
	Oil string
}

func (s *Session) ready() Ready {
	p := s.Prep()
	r := Ready{Findings: p.Findings(s.layout), Tallies: p.Tallies(), Oil: p.OilPath().Text()}
	r.Done, r.Steps = p.Progress()
	return r
}

// Listed reports whether there is a prep list.
func (r Ready) Listed() bool { return r.Steps > 0 }

// NotReady says in one line what keeps the engine from being ready, or "".
func (r Ready) NotReady() string { return prep.NotReady(r.Findings) }

// Tally says every tally in one line, those that are open first, or "".
func (r Ready) Tally() string {
	var open, closed, unknown []string
	for _, t := range r.Tallies {
		switch {
		case !t.Known:
			unknown = append(unknown, t.Name)
		case t.Wrong() != "":
			open = append(open, t.Text())
		default:
			closed = append(closed, t.Text())
		}
	}
	if len(unknown) > 0 {
		closed = append(closed, "not counted out yet: "+strings.Join(unknown, ", "))
	}
	return strings.Join(append(open, closed...), "; ")
}

// Lines tells the prep in plain lines, none without a list.
func (r Ready) Lines() []string {
	if !r.Listed() {
		return nil
	}
	lines := []string{fmt.Sprintf("prep: %d of %d steps done", r.Done, r.Steps)}
	if text := r.NotReady(); text != "" {
		lines = append(lines, strings.ToUpper(text[:1])+text[1:])
	}
	for _, text := range []string{r.Tally(), r.Oil} {
		if text != "" {
			lines = append(lines, text)
		}
	}
	for _, f := range r.Findings {
		if !f.Blocks() {
			lines = append(lines, f.Text)
		}
	}
	return lines
}

// note puts the notes of features on a finding that rests on them.
func (s *Session) note(f *Finding, of ...plan.Feature) {
	if !f.Value.Measured() {
		return
	}
	if f.Notes = s.Notes(of...); len(f.Notes) > 0 {
		f.Text += " (" + strings.Join(f.Notes, ", ") + ")"
	}
}

// tellDone says a tick of the prep list in words.
func (s *Session) tellDone(d record.Done) string {
	name := d.Step
	if step, _, ok := s.Prep().List().Find(d.Step); ok {
		name = step.Name
	}
	text := "prep: " + name + prefixed(" at ", prep.SpotOf(d.Place).Name(s.layout))
	switch {
	case d.Way == prep.Accounted:
		text += fmt.Sprintf(", %d accounted for: %s", d.Count, d.Choice)
	case d.Way != "" || d.Count > 0:
		text += fmt.Sprintf(", %d", d.Count)
	case d.Value+d.Choice != "":
		text += ", " + d.Value + d.Choice
	default:
		text += ", done"
	}
	return text + prefixed(", forced although ", d.Forced)
}

// ReportPrep is where the prep list stands, as other programs read it.
type ReportPrep struct {
	Ready    bool                `json:"ready"`
	Steps    int                 `json:"steps"`
	Done     int                 `json:"done"`
	Findings []ReportPrepFinding `json:"findings"`
	Tallies  []ReportTally       `json:"tallies"`
	Oil      string              `json:"oil,omitempty"`
}

// ReportPrepFinding is one thing to be said of the prep; the engine is not
// ready while it blocks.
type ReportPrepFinding struct {
	Kind   string `json:"kind"`
	Step   string `json:"step,omitempty"`
	Blocks bool   `json:"blocks"`
	Text   string `json:"text"`
}

// ReportTally is what was counted out and what came back.
type ReportTally struct {
	Name      string `json:"name"`
	Out       int    `json:"out"`
	In        int    `json:"in"`
	Accounted int    `json:"accounted"`
	Text      string `json:"text"`
}

func (r Ready) report() *ReportPrep {
	if !r.Listed() {
		return nil
	}
	out := &ReportPrep{
		Ready: r.NotReady() == "", Steps: r.Steps, Done: r.Done, Oil: r.Oil,
		Findings: []ReportPrepFinding{}, Tallies: []ReportTally{},
	}
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, ReportPrepFinding{string(f.Kind), f.Step, f.Blocks(), f.Text})
	}
	for _, t := range r.Tallies {
		out.Tallies = append(out.Tallies, ReportTally{t.Name, t.Out, t.In, t.Accounted, t.Text()})
	}
	return out
}
