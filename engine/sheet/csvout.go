package sheet

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// The columns of a table of readings that say where and how one was taken. A
// column of values has its unit behind it: "read (in)".
const (
	colFeature   = "feature"
	colLevel     = "level"
	colDirection = "direction"
	colStage     = "stage"
	colKeyed     = "keyed"
	colRead      = "read"      // a size as it was read
	colDeviation = "deviation" // from the gauge's zero, + larger
	colSet       = "set"
	colAs        = "as"
	colBlind     = "blind"
	colDespite   = "despite"
)

// ReadingsCSV writes every reading that counts as comma-separated text (RFC
// 4180) with a heading, as ReadCSV reads it: what was read in the unit it was
// read in, and the size at 20 °C that it means in the session's unit.
func ReadingsCSV(w io.Writer, s *engine.Session) error {
	var rows [][]string
	units := valueUnits(s)
	head := []string{"event", "time", "by", colFeature, "name", colLevel, "level name", colDirection, colStage, colKeyed}
	for _, u := range units {
		head = append(head, inUnit(colRead, u), inUnit(colDeviation, u))
	}
	head = append(head, inUnit("size at 20 °C", s.Unit()), colSet, colAs, colBlind, colDespite)
	for _, p := range s.Places() {
		for stage := 0; stage <= s.Stage(p.Of); stage++ {
			for _, t := range append(s.At(p, stage), s.Blind(p, stage)...) {
				rows = append(rows, readingRow(s, p, stage, t, units))
			}
		}
	}
	return writeTable(w, head, rows)
}

// valueUnits are the units that readings are written in, in a certain order.
func valueUnits(s *engine.Session) []length.Unit {
	seen := map[length.Unit]bool{s.Unit(): true}
	for _, e := range s.Events() {
		if r, ok := e.Body.(record.Reading); ok {
			seen[writtenOf(r).Unit] = true
		}
	}
	var out []length.Unit
	for u := length.Unit(1); u.Size() != 0; u++ {
		if seen[u] {
			out = append(out, u)
		}
	}
	return out
}

func writtenOf(r record.Reading) length.Written {
	if r.Size.IsZero() {
		return r.Dev
	}
	return r.Size
}

func inUnit(name string, u length.Unit) string { return name + " (" + u.String() + ")" }

func readingRow(s *engine.Session, p plan.Place, stage int, t engine.Taken, units []length.Unit) []string {
	row := []string{
		strconv.FormatInt(t.N, 10), t.At.Format(time.RFC3339), t.By, p.Of.String(), s.Name(p.Of),
		p.Level, s.LevelName(p.Of.Family, p.Level), p.Dir, s.StageName(p.Of, stage), t.Keyed,
	}
	for _, u := range units {
		row = append(row, numberIn(t.Size, u), numberIn(t.Dev, u))
	}
	return append(row, engine.FigureText(s.SizeOf(t), s.Unit()), t.Set, t.As, yes(t.Blind), t.Despite)
}

func numberIn(w length.Written, u length.Unit) string {
	if w.Unit != u || w.IsZero() {
		return ""
	}
	return w.Number()
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

// ResultsCSV writes every finding, worst first, as comma-separated text (RFC
// 4180) with a heading. Values, limits and expanded uncertainties are in the
// session's unit, diametral; empty is not measured, or no limit.
func ResultsCSV(w io.Writer, s *engine.Session, a *engine.Assessment) error {
	u := s.Unit()
	head := []string{
		colFeature, "with", "what", "definition", colLevel, colDirection, inUnit("value", u), inUnit("low limit", u),
		inUnit("high limit", u), inUnit("expanded uncertainty", u), "margin used", "verdict", "suspect", "judged by", "in words",
	}
	var rows [][]string
	for _, f := range a.Findings {
		with := ""
		if !f.With.IsZero() {
			with = f.With.String()
		}
		rows = append(rows, []string{
			f.Of.String(), with, string(f.On), string(f.By), f.Level, f.Dir,
			engine.FigureText(f.Value, u), engine.FigureText(f.Judgement.Low, u), engine.FigureText(f.Judgement.High, u),
			uncertainty(f, u), margin(f), f.Judgement.Verdict.String(), yes(f.Judgement.Suspect), f.Judgement.By, f.Text,
		})
	}
	return writeTable(w, head, rows)
}

// uncertainty is the expanded uncertainty of a finding with a decimal more than
// a figure has, "" where it is not known.
func uncertainty(f *engine.Finding, u length.Unit) string {
	if f.Doubt.Expanded <= 0 {
		return ""
	}
	return length.Of(f.Doubt.Expanded).Format(u, u.Decimals()+1)
}

// writeTable writes a table whose lines end as RFC 4180 has it.
func writeTable(w io.Writer, head []string, rows [][]string) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out.WriteAll(append([][]string{head}, rows...))
}
