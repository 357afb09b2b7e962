package engine

import (
	"fmt"
	"math"
	"strconv"

	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/record"
)

// The methods a study is analysed by.
const (
	StudyByRange    = "range" // average and range
	StudyByVariance = "anova" // analysis of variance
)

// StudyMethods returns the methods a study can be analysed by.
func StudyMethods() []string { return []string{StudyByRange, StudyByVariance} }

// StudyReport is a study as analysed. Numbers are in Unit, squares in its
// square; what could not be computed is absent, and Notes say why.
type StudyReport struct {
	Borewright int    `json:"borewright"`
	Method     string `json:"method"`
	// Unit is that of the values, "" where they state none.
	Unit      string   `json:"unit"`
	Values    int      `json:"values"`
	Tolerance *float64 `json:"tolerance,omitempty"`
	// Pooled is the repeatability of every value, whether others are missing or
	// not: what an instrument's budget takes.
	Pooled *StudyPooled `json:"pooled_repeatability,omitempty"`
	StudyResult
	// Other is the analysis of variance with the interaction treated the other
	// way: kept where it was pooled, pooled where it was kept.
	Other *StudyResult `json:"other,omitempty"`
	Notes []string     `json:"notes,omitempty"`
}

// StudyPooled is a repeatability with its degrees of freedom.
type StudyPooled struct {
	Deviation float64 `json:"sd"`
	DF        int     `json:"df"`
}

// StudyResult is what a study comes to.
type StudyResult struct {
	// Operators, Parts and Trials count what was analysed.
	Operators int `json:"operators"`
	Parts     int `json:"parts"`
	Trials    int `json:"trials"`
	// Interaction says of an analysis of variance what was done with it: "kept"
	// or "pooled".
	Interaction string      `json:"interaction,omitempty"`
	Components  []StudyPart `json:"components"`
	// Distinct is how many sizes of part the gauge tells apart.
	Distinct *int        `json:"distinct,omitempty"`
	Table    []StudyLine `json:"table,omitempty"`
}

// StudyPart is one part of the variation, as a standard deviation.
type StudyPart struct {
	Name      string  `json:"name"`
	Deviation float64 `json:"sd"`
	// OfTotal and OfTolerance are percent of the total variation and, six
	// standard deviations, of the tolerance; Contribution is percent of the total
	// variance.
	OfTotal      *float64 `json:"percent_of_total,omitempty"`
	Contribution *float64 `json:"percent_contribution,omitempty"`
	OfTolerance  *float64 `json:"percent_of_tolerance,omitempty"`
	Clamped      bool     `json:"clamped,omitempty"`
}

// StudyLine is one line of a table of analysis of variance.
type StudyLine struct {
	Name string   `json:"name"`
	SS   float64  `json:"ss"`
	DF   int      `json:"df"`
	MS   *float64 `json:"ms,omitempty"`
	F    *float64 `json:"f,omitempty"`
	P    *float64 `json:"p,omitempty"`
}

// The names of the components of a study.
const (
	studyRepeatability   = "repeatability"
	studyReproducibility = "reproducibility"
	studyOperators       = "operators"
	studyInteraction     = "interaction"
	studyGauge           = "gauge"
	studyParts           = "parts"
	studyTotal           = "total"
)

// StudyOf analyses the values of a study by StudyByRange or, for any other
// method, StudyByVariance. The tolerance is text, in the values' unit where it
// states none; "" is none. The error names the value that cannot be part of a
// study.
func StudyOf(rows []record.StudyRow, method, tolerance string) (StudyReport, error) {
	values, err := valuesOf(rows)
	if err != nil {
		return StudyReport{}, err
	}
	allowed, err := values.tolerance(tolerance)
	if err != nil {
		return StudyReport{}, err
	}
	study, err := doubt.NewStudy(values.observations)
	if err != nil {
		return StudyReport{}, err
	}
	in := studyScale{float64(values.scale().Size()), allowed}
	r := StudyReport{Borewright: 1, Method: method, Unit: values.unit.String(), Values: len(rows)}
	if allowed > 0 {
		r.Tolerance = in.number(float64(allowed) / in.one)
	}
	if e := study.Repeatability(); e.Known() {
		r.Pooled = &StudyPooled{*in.number(e.S / in.one), e.DF}
	}
	r.analyse(study, in)
	r.Notes = append(r.Notes, few(study.Missing)...)
	if text := study.LeftOut(); text != "" {
		r.Notes = append(r.Notes, text)
	}
	r.Notes = append(r.Notes, few(study.Beyond())...)
	return r, nil
}

// few cuts a list of sentences that nobody would read to its end.
func few(sentences []string) []string {
	const most = 12
	if len(sentences) <= most {
		return sentences
	}
	return append(sentences[:most:most], fmt.Sprintf("and %d more such", len(sentences)-most))
}

// analyse adds what the study comes to.
func (r *StudyReport) analyse(study doubt.Study, in studyScale) {
	if r.Method == StudyByRange {
		found := study.ByRange()
		r.StudyResult, r.Notes = in.result(found, ""), found.Notes
		return
	}
	r.Method = StudyByVariance
	found := study.ByVariance(doubt.Tested)
	r.Notes = found.Notes
	kept, pooled := study.ByVariance(doubt.Kept), study.ByVariance(doubt.Pooled)
	switch {
	case !pooled.Pooled: // there is no interaction to treat
		r.StudyResult = in.result(found, "")
	case found.Pooled:
		other := in.result(kept, "kept")
		r.StudyResult, r.Other = in.result(found, "pooled"), &other
	default:
		other := in.result(pooled, "pooled")
		r.StudyResult, r.Other = in.result(found, "kept"), &other
	}
}

// studyScale turns picometres into the numbers of a report.
type studyScale struct {
	one       float64 // one of the unit, in picometres
	tolerance length.Length
}

// studyDigits are the significant digits of a number in a report, so few that
// every machine writes the same.
const studyDigits = 10

// number rounds a number to studyDigits.
func (studyScale) number(f float64) *float64 {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(f, 'e', studyDigits-1, 64), 64) // it was written just now
	return &rounded
}

func (in studyScale) maybe(f float64, ok bool) *float64 {
	if !ok || math.IsNaN(f) || math.IsInf(f, 0) {
		return nil
	}
	return in.number(f)
}

// result puts a result into the form of a report.
func (in studyScale) result(r doubt.Result, interaction string) StudyResult {
	out := StudyResult{Operators: r.Operators, Parts: r.Parts, Trials: r.Trials, Interaction: interaction}
	for _, c := range []struct {
		name string
		doubt.Component
	}{
		{studyRepeatability, r.Repeatability},
		{studyReproducibility, r.Reproducibility},
		{studyOperators, r.ByOperator},
		{studyInteraction, r.Interaction},
		{studyGauge, r.Gauge},
		{studyParts, r.ByPart},
		{studyTotal, r.Total},
	} {
		if c.Known {
			out.Components = append(out.Components, in.part(c.name, r, c.Component))
		}
	}
	if n, ok := r.Distinct(); ok {
		out.Distinct = &n
	}
	for _, row := range r.Rows {
		if row.DF == 0 {
			continue
		}
		out.Table = append(out.Table, StudyLine{
			Name: row.Name, SS: *in.number(row.SS / (in.one * in.one)), DF: row.DF,
			MS: in.maybe(row.Mean()/(in.one*in.one), row.DF > 0 && row.Name != studyTotal),
			F:  in.maybe(row.F, row.Tested), P: in.maybe(row.P, row.Tested),
		})
	}
	return out
}

func (in studyScale) part(name string, r doubt.Result, c doubt.Component) StudyPart {
	return StudyPart{
		Name: name, Deviation: *in.number(c.Sigma / in.one), Clamped: c.Clamped,
		OfTotal: in.maybe(r.Share(c)), Contribution: in.maybe(r.Contribution(c)), OfTolerance: in.maybe(r.OfTolerance(c, in.tolerance)),
	}
}

// Component returns a component by its name; ok is false where it could not be
// computed.
func (r StudyResult) Component(name string) (c StudyPart, ok bool) {
	return find(r.Components, func(c *StudyPart) bool { return c.Name == name })
}
