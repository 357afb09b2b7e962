package doubt

import (
	"math"

	"borewright/engine/length"
)

// ByRange analyses the study by average and range: the repeatability from the
// mean range, the operators and the parts from the range of their averages.
//
// Source: AIAG MSA manual, average and range method; its factors K1, K2 and K3
// are MeanRangeFactor and DeviationFactor, not cut to the four decimals of the
// printed form.
func (s Study) ByRange() Result {
	r := Result{Operators: len(s.wholeOperators), Parts: len(s.wholeParts), Trials: s.Trials}
	if r.Operators == 0 {
		r.onlyRepeatability(s)
		return r
	}
	r.noteSize()
	groups := s.groups(s.wholeOperators, s.wholeParts)
	if k, ok := MeanRangeFactor(s.Trials); ok {
		r.Repeatability = component(math.Pow(k*meanRange(groups), 2))
	} else {
		r.note(oneTrial)
	}
	m := meansOf(groups, r.Operators, r.Parts)
	if k, ok := DeviationFactor(r.Operators); ok && r.Repeatability.Known {
		n := float64(r.Parts * r.Trials)
		r.ByOperator = component(math.Pow(k*span(m.operators), 2) - r.Repeatability.Variance()/n)
	}
	if k, ok := DeviationFactor(r.Parts); ok {
		r.ByPart = component(math.Pow(k*span(m.parts), 2))
	}
	r.finish()
	return r
}

// meanRange returns the mean of the ranges of groups.
func meanRange(groups [][]length.Length) float64 {
	sum := 0.0
	for _, g := range groups {
		sum += span(shifted(g, g[0]))
	}
	return sum / float64(len(groups))
}

// onlyRepeatability is the result of a study of which no part is whole.
func (r *Result) onlyRepeatability(s Study) {
	if e := s.Repeatability(); e.Known() {
		r.Repeatability = component(e.S * e.S)
	}
	r.finish()
}

// finish adds up, and says so where there is nothing to add.
func (r *Result) finish() {
	r.sum()
	if !r.Repeatability.Known && !r.ByPart.Known && !r.ByOperator.Known {
		r.Notes = []string{nothingYet}
	}
}

// means are the averages of a study without missing values, in picometres from
// its first value.
type means struct {
	all, operators, parts []float64 // all is of each operator and part
	grand                 float64
}

// meansOf averages the values of each operator and part, operator by operator.
func meansOf(groups [][]length.Length, operators, parts int) means {
	m := means{operators: make([]float64, operators), parts: make([]float64, parts)}
	for i, g := range groups {
		sum := 0.0
		for _, x := range shifted(g, groups[0][0]) {
			sum += x
		}
		mean := sum / float64(len(g))
		m.all = append(m.all, mean)
		m.operators[i/parts] += mean / float64(parts)
		m.parts[i%parts] += mean / float64(operators)
		m.grand += mean / float64(operators*parts)
	}
	return m
}
