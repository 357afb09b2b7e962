package engine

import (
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
)

// sentence says a finding in words, such as "bore 4, middle: out-of-round
// 0.0009 of 0.0005 in allowed".
func (s *Session) sentence(f Finding, places int) string {
	var b strings.Builder
	b.WriteString(s.where(f))
	b.WriteString(": ")
	b.WriteString(what(f))
	if !f.Value.Measured() {
		b.WriteString(" not measured")
		return b.String()
	}
	b.WriteString(" " + f.Shown(s.Unit(), places) + s.against(f))
	return b.String()
}

func (s *Session) where(f Finding) string {
	name := s.Name(f.Of)
	if f.Level != "" {
		name += ", " + s.LevelName(f.Of.Family, f.Level)
	}
	switch {
	case f.Dir != "" && f.Level != "":
		name += " " + DirName(f.Dir)
	case f.Dir != "":
		name += ", " + DirName(f.Dir)
	}
	return name
}

func what(f Finding) string {
	switch f.On {
	case limit.Taper:
		return "taper (" + string(f.By) + ")"
	case limit.Clearance:
		if f.Bound {
			return "clearance (a bound)"
		}
	case limit.Size:
		if f.By == limit.Average {
			return "average size"
		}
	}
	return string(f.On)
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
func (s *Session) against(f Finding) string {
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
		return ", " + LimitText(r.Low, length.NoUnit) + " to " + LimitText(r.High, u)
	}
}

// tooWord says on which side a figure is outside.
func tooWord(on limit.Characteristic, low bool) string {
	words := [2]string{"too large", "too small"}
	if on == limit.Clearance {
		words = [2]string{"too loose", "too tight"}
	}
	if low {
		return words[1]
	}
	return words[0]
}

// LimitText returns a limit as it was written, with its unit, and what that is
// in the unit asked for when it was written in another. NoUnit leaves the unit
// away.
func LimitText(w length.Written, u length.Unit) string {
	switch u {
	case length.NoUnit:
		return w.Number()
	case w.Unit:
		return w.String()
	default:
		return length.Of(w.Length).Format(u, u.Decimals()+1) + " " + u.String() + " (" + w.String() + ")"
	}
}
