package limit

import (
	"fmt"
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// sheet is one row of limits while it is looked at: every field as printed, and
// as printed elsewhere.
type sheet struct {
	kind    Kind
	sized   bool // a size of something, which its limits lie close to
	nominal length.Written
	at      map[Field]Printed
	also    map[Field]Printed
}

// newSheet takes a row apart. What is printed elsewhere and cannot be read is
// doubted and then left out.
func newSheet(c Copied) (s sheet, unread []Doubt) {
	s = sheet{
		kind: KindOf(c.On), sized: KindOf(c.On) == KindSize && shapeOf(c.Of) != plan.NoShape,
		nominal: c.Nominal, at: map[Field]Printed{}, also: map[Field]Printed{},
	}
	for _, f := range Fields() {
		w := c.At(f)
		if w.IsZero() {
			continue
		}
		p, ok := asPrinted(w, c.Per)
		if !ok {
			continue
		}
		s.at[f] = p
		if c.Also[f] == "" {
			continue
		}
		q, err := ParsePrinted(c.Also[f])
		if err != nil {
			unread = append(unread, Doubt{Field: f, Reason: Unreadable, Written: c.Also[f], Why: "what is printed beside " + f.words() + " is no figure: " + err.Error()})
			continue
		}
		s.also[f] = q
	}
	return s, unread
}

// shapeOf returns the shape of a family, or of one feature of it.
func shapeOf(of string) plan.Shape { return familyOf(of).Shape() }

// familyOf returns the family of limits: the one named, or the feature's.
func familyOf(of string) plan.Family {
	if f, err := plan.ParseFeature(of); err == nil {
		return f.Family
	}
	return plan.Family(of)
}

// fields returns the fields with something in them, in their order.
func (s sheet) fields() []Field {
	var out []Field
	for f := range s.at {
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b Field) int { return a.order() - b.order() })
	return out
}

// breach is a rule that the fields do not keep together.
type breach struct {
	fields []Field
	reason Reason
	why    string
}

// in reports whether one of the fields is in the breach.
func (b breach) in(fields []Field) bool {
	return slices.ContainsFunc(b.fields, func(f Field) bool { return slices.Contains(fields, f) })
}

// breaches returns every rule that the sheet does not keep.
func (s sheet) breaches() []breach {
	out := s.disagreements()
	out = append(out, s.disorders()...)
	out = append(out, s.implausible()...)
	return append(out, s.steep()...)
}

func (s sheet) disagreements() []breach {
	var out []breach
	for _, f := range s.fields() {
		a, b := s.at[f], s.also[f]
		if b == (Printed{}) || a.Agrees(b) {
			continue
		}
		why := fmt.Sprintf("%s is %s, but %s is printed beside it", a, a.in(b), b)
		switch {
		case a.slopes(b) && a.agreesAsLength(b):
			why = fmt.Sprintf("%s and %s are not the same slope, a slope having no unit", a, b)
		case a.Unit == b.Unit:
			why = fmt.Sprintf("%s is also printed as %s", a, b)
		}
		out = append(out, breach{[]Field{f}, Disagree, why})
	}
	return out
}

func (s sheet) disorders() []breach {
	var out []breach
	for _, o := range orders {
		low, high, both := s.pair(o)
		if both && low.Length() > high.Length() {
			out = append(out, breach{[]Field{o.low, o.high}, OutOfOrder, fmt.Sprintf("%s %s is above %s %s", o.low.words(), low, o.high.words(), high)})
		}
	}
	return out
}

// pair returns what is in two fields; both says that there is something in each.
func (s sheet) pair(o ordered) (low, high Printed, both bool) {
	low, ok := s.at[o.low]
	high, ok2 := s.at[o.high]
	return low, high, ok && ok2
}

// How far apart what belongs together may lie: common practice, no source.
const (
	sizeShare  = 40 // a size lies within 1/40 of its nominal and of its other limits
	mostTimes  = 10 // a gap or form limit is at most so many times the one beside it
	formSlope  = 200
	otherSlope = 50 // a form limit is no steeper than 1/200, another no steeper than 1/50
)

func (s sheet) implausible() []breach {
	switch {
	case s.sized && !s.nominal.IsZero():
		return s.farFromNominal()
	case s.sized:
		return s.farApart()
	case s.kind == KindGap || s.kind == KindForm:
		return s.manyTimes()
	}
	return nil
}

func (s sheet) farFromNominal() []breach {
	var out []breach
	for _, f := range s.fields() {
		if p := s.at[f]; far(p.Length(), s.nominal.Length) {
			out = append(out, breach{[]Field{f}, Implausible, fmt.Sprintf("%s %s is far from the nominal size, %s%s", f.words(), p, s.nominal, s.beside(f))})
		}
	}
	return out
}

func (s sheet) farApart() []breach {
	var out []breach
	fields := s.fields()
	for i, f := range fields {
		for _, g := range fields[i+1:] {
			a, b := s.at[f], s.at[g]
			if far(a.Length(), b.Length()) {
				why := fmt.Sprintf("%s %s and %s %s are far apart for one size", f.words(), a, g.words(), b)
				out = append(out, breach{[]Field{f, g}, Implausible, why})
			}
		}
	}
	return out
}

// far reports whether two sizes are too far apart to be of one feature.
func far(a, b length.Length) bool {
	larger := max(a, b)
	return larger > 0 && larger-min(a, b) > larger/sizeShare
}

func (s sheet) manyTimes() []breach {
	var out []breach
	for _, o := range neighbours {
		low, high, both := s.pair(o)
		if both && low.Length() > 0 && high.Length()/mostTimes > low.Length() {
			why := fmt.Sprintf("%s %s is more than ten times %s %s", o.high.words(), high, o.low.words(), low)
			out = append(out, breach{[]Field{o.low, o.high}, Implausible, why})
		}
	}
	return out
}

// beside says what is printed elsewhere when it agrees: the slip is in both.
func (s sheet) beside(f Field) string {
	b := s.also[f]
	if b == (Printed{}) || !s.at[f].Agrees(b) {
		return ""
	}
	return fmt.Sprintf(", and so is %s beside it", b)
}

func (s sheet) steep() []breach {
	share := length.Length(otherSlope)
	if s.kind == KindForm {
		share = formSlope
	}
	var out []breach
	for _, f := range s.fields() {
		p := s.at[f]
		if !p.Per.IsZero() && p.Length() > p.Per.Length/share {
			out = append(out, breach{[]Field{f}, Steep, fmt.Sprintf("%s %s is steeper than 1 in %d, a slope having no unit", f.words(), p, share)})
		}
	}
	return out
}
