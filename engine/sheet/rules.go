package sheet

import (
	"fmt"
	"math"
	"strings"

	"borewright/engine"
	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/record"
)

// rules say how the session judges, and by which limits.
func rules(views []view) Section {
	v := views[0]
	x := Section{Heading: "Limits, decision rule and doubt", Notes: []string{v.decision()}}
	t := Table{Caption: "Limits, as they were written", Columns: []string{
		"of", "what", "new, low", "new, high", "wear, low", "wear, high", "target", "from",
	}}
	for _, l := range v.s.Limits() {
		t.Rows = append(t.Rows, []Cell{
			{Text: v.s.NameOf(l.Of)},
			{Text: limited(l)},
			number(written(l.New.Low)), number(written(l.New.High)),
			number(written(l.Wear.Low)), number(written(l.Wear.High)), number(written(l.Target)),
			{Text: l.Source},
		})
	}
	if len(t.Rows) > 0 {
		x.Tables = []Table{t}
	}
	for _, f := range v.a.Findings {
		if f.Doubt.Settles != "" {
			x.Notes = append(x.Notes, f.Text+": "+f.Doubt.Settles+".")
		}
	}
	return x
}

func limited(l limit.Limits) string {
	text := string(l.On)
	if l.By != "" {
		text += " (" + string(l.By) + ")"
	}
	if !l.Per.IsZero() {
		text += fmt.Sprintf(", per %s over %s", l.Per, l.Travel)
	}
	return text
}

func (v view) decision() string {
	sure := v.s.Coverage().String()
	if v.s.Rules().Decision == record.Guarded {
		return "Guard bands: a figure is inside only where it is inside by more than its expanded uncertainty (" + sure +
			"), outside only where it is outside by more, and else too close to call (ISO 14253-1, JCGM 106)."
	}
	return "Simple acceptance: a figure on a limit is inside. Its expanded uncertainty (" + sure + ") is shown beside it (±) and moves no verdict."
}

// repeats is the standard deviation of one reading, with a decimal more than a
// figure has.
func (v view) repeats(e doubt.Estimate) string {
	if e.DF == 0 {
		return ""
	}
	return length.Of(length.Length(math.Round(e.S))).Format(v.u, v.u.Decimals()+2) + " " + v.u.String()
}

// checks tells the zero checks of a setting.
func (v view) checks(all []engine.CheckState) string {
	var out []string
	for _, c := range all {
		if !c.Drift.Measured() {
			out = append(out, day(c.At)+" skipped: "+c.Why)
			continue
		}
		out = append(out, day(c.At)+" read "+strings.ReplaceAll(c.Drift.FormatSigned(v.u, v.u.Decimals()+1), "-", "−")+" "+v.u.String())
	}
	if len(out) == 0 {
		return "none"
	}
	return strings.Join(out, "; ")
}

func written(w length.Written) string {
	if w.IsZero() {
		return ""
	}
	return w.String()
}

// definitions say in words how figures are computed. Every family of manuals
// has its own, so the sheet names those it uses.
var definitions = []string{
	"Diametral (⌀): a size is a diameter, and a clearance is hole less shaft across the whole diameter, never one side.",
	"Out-of-round: at each level the largest less the smallest diameter over the directions read, the worst level counting. Two contacts see odd lobes not at all.",
	"Taper, end to end: the first level less the last in one direction, + larger at the head end or front; the direction with most counts.",
	"Taper, spread: the largest less the smallest over the levels in one direction. Overall spread: the same over all readings of the part.",
	"Clearance: tightest, mean and loosest over the levels where hole and shaft were both read; the one judged is named by what it takes of the hole and of the shaft. A bound is made from different levels.",
	"Bearings are read square to the parting line, caps torqued. Shells are eccentric by design: the eccentricity at the parting line is a figure, not a fault.",
	"As found: before any work in this session. After work: read again since. Final: as it was when the session was closed.",
	"Suspect: it rests on a gauge whose zero came back wrong.",
}

// words are the definitions, the cautions and the digest.
func words(views []view) Section {
	h := views[0].s.Head()
	notes := append([]string{}, definitions...)
	return Section{Heading: "Definitions, cautions and digest", Notes: append(
		notes,
		"Caution: "+engine.Advice,
		"Caution: a running clearance that is wrong can seize or break an engine on a road, a track or the water. Whoever assembles it measures for himself.",
		at20,
		fmt.Sprintf("Digest: event %d, SHA-256 %s. It proves that no event up to that one was altered afterwards.", h.N, h.Hash),
	)}
}

const at20 = "Sizes are meant at 20 °C, the reference temperature of ISO 1."
