package engine

import (
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// sentence says a finding in words, such as "bore 4, middle: out-of-round
// 0.0009 of 0.0005 in allowed".
func (s *Session) sentence(f *Finding, places int) string {
	about := ""
	if t, _ := f.Of.Family.Traits(); !strings.Contains(t.Noun, string(f.On)) {
		about = " " + what(f)
	}
	if !f.Value.Measured() {
		return s.where(f) + ":" + about + " not measured"
	}
	asRead := ""
	if f.AsRead.Measured() {
		asRead = "; " + f.AsRead.Format(s.Unit(), places) + " as read"
	}
	return s.where(f) + ":" + about + " " + f.Shown(s.Unit(), places) + s.against(f) + asRead
}

func (s *Session) where(f *Finding) string {
	name := s.Name(f.Of)
	level, dir := s.levelWord(f.Of.Family, f.Level), f.Dir
	if dir == plan.Once {
		dir = ""
	}
	switch {
	case level == "" && dir == "":
		return name
	case dir == "":
		return name + ", " + level
	case level == "":
		return name + ", " + DirName(dir)
	default:
		return name + ", " + level + " " + DirName(dir)
	}
}

func what(f *Finding) string {
	switch {
	case f.On == limit.Taper:
		return "taper (" + string(f.By) + ")"
	case f.On == limit.Clearance && f.Bound:
		return "clearance (a bound)"
	case f.By == limit.Average:
		return "average " + string(f.On)
	default:
		return string(f.On)
	}
}

// Shown returns the judged value in the unit, with more decimals than places
// where fewer would put it on the other side of a limit.
func (f Finding) Shown(u length.Unit, places int) string {
	text := f.Value.FormatBeside(u, places, f.Judgement.Bounds()...)
	if f.On == limit.Taper && f.Limits.Signed() && f.Value.Sign() > 0 {
		return "+" + text
	}
	return text
}

// against says the limits that a value was judged by.
func (s *Session) against(f *Finding) string {
	u := s.Unit()
	r := f.Limits.Range(f.Judgement.By)
	switch {
	case r.IsZero():
		return " " + u.String()
	case limit.KindOf(f.On) == limit.KindForm && r.Low.IsZero():
		return " of " + LimitText(r.High, u) + " allowed"
	case f.Judgement.Verdict == limit.Outside && f.Judgement.LowSide:
		return ", " + tooWord(f.On, true) + ": at least " + LimitText(r.Low, u)
	case f.Judgement.Verdict == limit.Outside:
		return ", " + tooWord(f.On, false) + ": at most " + LimitText(r.High, u)
	case r.Low.IsZero():
		return ", at most " + LimitText(r.High, u)
	case r.High.IsZero():
		return ", at least " + LimitText(r.Low, u)
	default:
		return ", " + bothText(r, u)
	}
}

// tooWord says on which side a figure is outside.
func tooWord(on limit.Characteristic, low bool) string {
	words := [2]string{"too large", "too small"}
	if limit.KindOf(on) == limit.KindGap {
		words = [2]string{"too loose", "too tight"}
	}
	if low {
		return words[1]
	}
	return words[0]
}
