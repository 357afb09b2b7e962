package limit

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Subject is what else a judgement needs to know of the figure.
type Subject struct {
	// Kind is how the margin is measured; AnyKind is the characteristic's own.
	Kind Kind
	// Shape says which way wear moves a size; without it no size has a margin
	// by one limit alone.
	Shape plan.Shape
	// Judge is New or Wear where the session says which limits judge.
	Judge string
	// Doubt is the expanded uncertainty of the figure, and Guard says that the
	// session keeps this far from its limits. Without Guard acceptance is
	// simple and the doubt is only shown: see Judgement.Doubtful.
	Doubt length.Length
	Guard bool
}

// Judgement is one figure held against its limits. The zero value is of
// nothing measured and nothing to judge it by.
type Judgement struct {
	Verdict Verdict
	// By is New or Wear, "" without limits.
	By string
	// Value is what was judged: the figure, or its magnitude for a taper whose
	// limits have no low side.
	Value length.Exact
	// Low and High are the limits that judged, Target the target. What there
	// is none of is not measured.
	Low, High, Target length.Exact
	// Margin is the share of the margin that is used: 0 at the target, 1 on a
	// limit, above 1 exactly when the value is outside the limits. It means
	// something only where Ranked is set.
	Margin float64
	Ranked bool
	// Nearest is the limit the margin is measured to, and LowSide says that it
	// is the low one.
	Nearest length.Exact
	LowSide bool
	// Interference says that a clearance, gap or play is zero or less.
	Interference bool
	// Doubtful says that a limit that judges is no further away than the doubt.
	Doubtful bool
	// Suspect is for the caller to set on what rests on a doubtful setting. It
	// ranks such a judgement before what is not measured when it is inside.
	Suspect bool
}

// Judge holds a figure against the limits, those per length made plain first.
// Comparison is exact and a figure exactly on a limit is inside: "must not
// exceed". Judging by wear, a figure that is inside the new limits too is
// InsideNew.
func (l Limits) Judge(y length.Exact, s Subject) Judgement {
	l = l.Effective()
	if s.Kind == AnyKind {
		s.Kind = KindOf(l.On)
	}
	if l.On == Taper && !l.Signed() {
		y = y.Abs()
	}
	s.Doubt = max(s.Doubt, 0)
	j := Judgement{By: l.JudgedBy(s.Judge), Value: y}
	r := l.Range(j.By)
	j.Low, j.High, j.Target = r.Low.Exact(), r.High.Exact(), l.Target.Exact()
	if !y.Measured() {
		return j
	}
	j.Verdict = l.verdict(y, j.By, s)
	j.Interference = s.Kind == KindGap && y.Sign() <= 0
	j.Doubtful = !r.clearlyInside(y, s.Doubt) && !r.clearlyOutside(y, s.Doubt)
	j.measure(s.Kind, l.reference(s))
	return j
}

// JudgeEach judges every figure that is measured and returns the worst
// judgement and which figure it is of; the first of equals. Where none is
// measured at is -1.
func (l Limits) JudgeEach(ys []length.Exact, s Subject) (worst Judgement, at int) {
	worst, at = l.Judge(length.Exact{}, s), -1
	for i, y := range ys {
		if !y.Measured() {
			continue
		}
		if j := l.Judge(y, s); at < 0 || Compare(j, worst) < 0 {
			worst, at = j, i
		}
	}
	return worst, at
}

// verdict judges a measured figure by the limits called by.
func (l Limits) verdict(y length.Exact, by string, s Subject) Verdict {
	r, guard := l.Range(by), length.Length(0)
	if s.Guard {
		guard = s.Doubt
	}
	switch {
	case by == "":
		return NoLimits
	case r.clearlyOutside(y, guard):
		return Outside
	case !r.clearlyInside(y, guard):
		return TooClose
	case !l.New.IsZero() && l.New.clearlyInside(y, guard):
		return InsideNew
	}
	return InsideWear
}

// reference returns where the margin of a size with one limit starts: the new
// limit on the side that wear moves it to, else the target; not measured when
// there is neither, or the shape is not known.
func (l Limits) reference(s Subject) length.Exact {
	var start length.Written
	switch s.Shape {
	case plan.Hole:
		start = l.New.High
	case plan.Shaft:
		start = l.New.Low
	default:
		return length.Exact{}
	}
	if start.IsZero() {
		start = l.Target
	}
	return start.Exact()
}

// Bounds returns the limits that judged, for showing the value on its own side
// of them: see length.Exact.FormatBeside.
func (j Judgement) Bounds() []length.Bound {
	var out []length.Bound
	if j.Low.Measured() {
		out = append(out, length.Bound{At: j.Low.Round()})
	}
	if j.High.Measured() {
		out = append(out, length.Bound{At: j.High.Round(), High: true})
	}
	return out
}
