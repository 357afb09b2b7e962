package engine

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Lines tells a study as text.
func (r StudyReport) Lines() []string {
	out := []string{r.heading()}
	out = append(out, r.components(r.Tolerance != nil)...)
	if r.Distinct != nil {
		out = append(out, fmt.Sprintf("The gauge tells %s of part apart (1.41 × parts / gauge, cut).", counted(*r.Distinct, "size")))
	}
	out = append(out, r.guide()...)
	if len(r.Table) > 0 {
		out = append(out, "", "Analysis of variance"+r.interaction()+":")
		out = append(out, r.table()...)
	}
	out = append(out, r.other()...)
	if r.Pooled != nil {
		out = append(out, "", fmt.Sprintf("Pooled repeatability of one reading: s %s%s with %s.",
			significant(r.Pooled.Deviation), r.inUnit(), counted(r.Pooled.DF, "degree")+" of freedom"))
	}
	for _, note := range r.Notes {
		out = append(out, "Note: "+note+".")
	}
	return out
}

// heading says what was analysed, and how.
func (r StudyReport) heading() string {
	how := "average and range"
	if r.Method == StudyByVariance {
		how = "analysis of variance"
	}
	if len(r.Components) == 0 {
		return fmt.Sprintf("%s, by %s.", counted(r.Values, "value"), how)
	}
	unit := "in the unit of the values"
	if r.Unit != "" {
		unit = "in " + r.Unit
	}
	if r.Operators == 0 {
		return fmt.Sprintf("%s; standard deviations %s:", counted(r.Values, "value"), unit)
	}
	return fmt.Sprintf("%s by %s in %s, by %s; standard deviations %s:",
		counted(r.Parts, "part"), counted(r.Operators, "operator"), counted(r.Trials, "trial"), how, unit)
}

// inUnit is the unit after a number, "" where the values state none.
func (r StudyReport) inUnit() string {
	if r.Unit == "" {
		return ""
	}
	return " " + r.Unit
}

// components lays the components out as a table.
func (r StudyResult) components(tolerance bool) []string {
	if len(r.Components) == 0 {
		return nil
	}
	heading := fmt.Sprintf("  %-16s%12s%12s%14s", "", "sd", "of total", "of variance")
	if tolerance {
		heading += fmt.Sprintf("%14s", "of tolerance")
	}
	out := []string{heading}
	_, split := r.Component(studyInteraction)
	for _, c := range r.Components {
		if c.Name == studyOperators && !split {
			continue // it is all of the reproducibility
		}
		line := fmt.Sprintf("  %-16s%12s%12s%14s", c.Name, significant(c.Deviation), percentText(c.OfTotal), percentText(c.Contribution))
		if tolerance {
			line += fmt.Sprintf("%14s", percentText(c.OfTolerance))
		}
		if c.Clamped {
			line += "  (below zero, taken as none)"
		}
		out = append(out, strings.TrimRight(line, " "))
	}
	return out
}

// What a gauge may take of a variation or a tolerance, in percent: AIAG MSA
// manual, from memory.
const goodBelow, enoughTo = 10, 30

// guide says how the gauge's share is usually taken.
func (r StudyReport) guide() []string {
	gauge, _ := r.Component(studyGauge)
	share, of := gauge.OfTotal, "the total variation"
	if gauge.OfTolerance != nil {
		share, of = gauge.OfTolerance, "the tolerance"
	}
	if share == nil {
		return nil
	}
	words := "good"
	switch {
	case *share > enoughTo:
		words = "not enough"
	case *share >= goodBelow:
		words = "may do"
	}
	return []string{
		fmt.Sprintf("The gauge takes %s of %s: %s.", percentText(share), of, words),
		fmt.Sprintf("Guide of the AIAG MSA manual: under %d %% is good, over %d %% is not enough; what the work needs governs.",
			goodBelow, enoughTo),
	}
}

// interaction says what was done with it.
func (r StudyResult) interaction() string {
	switch r.Interaction {
	case "pooled":
		return ", the interaction pooled with the repeatability"
	case "kept":
		return ", the interaction kept"
	default:
		return ""
	}
}

// table lays the analysis of variance out.
func (r StudyResult) table() []string {
	out := []string{fmt.Sprintf("  %-16s%12s%6s%12s%10s%8s", "", "SS", "df", "MS", "F", "p")}
	for _, l := range r.Table {
		line := fmt.Sprintf("  %-16s%12s%6d%12s%10s%8s", l.Name, significant(l.SS), l.DF,
			maybeText(l.MS, significant), maybeText(l.F, decimals3), maybeText(l.P, chanceText))
		out = append(out, strings.TrimRight(line, " "))
	}
	return out
}

// other tells what the other treatment of the interaction comes to.
func (r StudyReport) other() []string {
	if r.Other == nil {
		return nil
	}
	how := "The interaction kept instead:"
	if r.Other.Interaction == "pooled" {
		how = "The interaction pooled with the repeatability instead:"
	}
	return append([]string{"", how}, r.Other.components(r.Tolerance != nil)...)
}

// significant writes a number with five significant digits.
func significant(f float64) string {
	const digits = 5
	if f == 0 {
		return "0"
	}
	places := digits - 1 - int(math.Floor(math.Log10(math.Abs(f))))
	return strconv.FormatFloat(f, 'f', max(0, places), 64)
}

func decimals3(f float64) string { return strconv.FormatFloat(f, 'f', 3, 64) }

// chanceText writes a chance; one that would be shown as none is below 0.001.
func chanceText(p float64) string {
	if p < 0.0005 {
		return "<0.001"
	}
	return decimals3(p)
}

func percentText(f *float64) string {
	return maybeText(f, func(f float64) string { return strconv.FormatFloat(f, 'f', 2, 64) + " %" })
}

func maybeText(f *float64, text func(float64) string) string {
	if f == nil {
		return ""
	}
	return text(*f)
}

// counted returns "1 part", "2 parts" and so on.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
