package engine

import (
	"fmt"
	"math"
	"strconv"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// HoneCount counts the honing of a bore down to a target, from the sizes read
// after so many strokes; without a target it is the bore's hone target. The
// bore's expansion, where it is given, corrects for warmth.
func (s *Session) HoneCount(bore plan.Feature, target length.Exact, passes []fit.Pass) fit.Countdown {
	if !target.Measured() {
		target = s.honeTarget(bore)
	}
	alpha, _ := s.givenNumber(GivenExpansion, bore)
	return fit.Count(passes, target, s.usualStep(), alpha)
}

// usualStep is one of the last decimal that the session's unit is usually
// written with.
func (s *Session) usualStep() length.Length {
	return s.Unit().Size() / tenTo(s.Unit().Decimals())
}

// HoneTarget returns the size that a bore is honed to: as given, else the target
// of its size limits; not measured without either.
func (s *Session) HoneTarget(bore plan.Feature) length.Exact { return s.honeTarget(bore) }

// CountText says where a countdown stands, such as "0.0004 in left, about 16
// strokes (4.0 to each 0.0001 in); the bore is 6 °C warm and reads 0.0003 in
// large: wait before the last".
func (s *Session) CountText(c fit.Countdown) string {
	u := s.Unit()
	if !c.Left.Measured() {
		return "no target is given for this bore, or no size was keyed"
	}
	text := s.amount(s.rounded(c.Left)) + " left"
	switch {
	case c.Left.Sign() < 0:
		text = s.amount(s.rounded(c.Left.Neg())) + " past the target"
	case c.Left.Sign() == 0:
		text = "at the target"
	case c.ToGo > 0:
		text += ", about " + strconv.Itoa(c.ToGo) + " strokes"
	}
	if c.PerStep > 0 {
		step := length.Of(s.usualStep())
		text += fmt.Sprintf(" (%s to each %s)", strconv.FormatFloat(c.PerStep, 'f', 1, 64), s.amount(step))
	}
	if c.Warmer == 0 {
		return text
	}
	if c.ReadsLarge.Sign() == 0 {
		return text + "; the bore is warm, and no expansion of bores is given to correct for it: wait before the last"
	}
	warm, reads := "warm", "large"
	if c.Warmer < 0 {
		warm, reads = "cold", "small"
	}
	text += fmt.Sprintf("; the bore is %s °C %s and reads %s %s", strconv.FormatFloat(math.Abs(c.Warmer), 'f', -1, 64), warm,
		c.ReadsLarge.Abs().Format(u, u.Decimals()+1)+" "+u.String(), reads)
	if c.Wait && c.Left.Sign() > 0 {
		text += ": wait before the last"
	}
	return text
}

// TargetBody is what is recorded when bores are to be honed to a size.
func (s *Session) TargetBody(value string) record.Given {
	return record.Given{Name: GivenHoneTarget, Of: string(plan.Bore), Value: value, Source: "decided at the bench"}
}
