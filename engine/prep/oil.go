package prep

import "strings"

// OilPath is the decision on the oil to the lifters, as far as it is made.
type OilPath struct {
	Lifters, Meant, Fitted string
	// Closed are the galleries that are closed off.
	Closed []string
}

// OilPath returns the decision that the ticks hold.
func (s State) OilPath() OilPath {
	choice := func(id string) string { return s.marks[mark{id, ""}].Choice }
	p := OilPath{Lifters: choice(OilLifters), Meant: choice(OilMeant), Fitted: choice(OilFitted)}
	if step, _, ok := s.list.Find(OilGalleries); ok {
		for _, place := range step.Places {
			if s.marks[mark{OilGalleries, place}].Choice == GalleryClosed {
				p.Closed = append(p.Closed, place)
			}
		}
	}
	return p
}

// meantFitted is what has to be fitted for what is meant.
var meantFitted = map[string]string{FullOil: FittedNone, MeantBlock: FittedBlock, MeantLifters: FittedLifters}

// Wrong says what is wrong with the decision, or "": restricted twice, not at
// all where it is meant to be, or elsewhere than meant.
func (p OilPath) Wrong() string {
	switch want := meantFitted[p.Meant]; {
	case p.Fitted == FittedBoth:
		return "oil to the lifters restricted twice: in the block and in the lifters"
	case p.Fitted == "" || want == "" || p.Fitted == want:
		return ""
	case p.Fitted == FittedNone:
		return "oil to the lifters meant to be " + p.Meant + ", and no restrictor fitted"
	case p.Meant == FullOil:
		return "oil to the lifters meant to be full, and a restrictor fitted " + p.Fitted
	default:
		return "oil to the lifters meant to be " + p.Meant + ", and the restrictor fitted " + p.Fitted
	}
}

// Reason says what the choices so far lead to, in a sentence.
func (p OilPath) Reason() string {
	switch {
	case p.Lifters == Solid && p.Meant == FullOil:
		return "Solid lifters take only some 10 to 20 % of this oil; the rest floods the heads (common practice, no source)."
	case p.Lifters == Solid && p.Meant != "":
		return "Solid lifters live with some 10 to 20 % of the oil (common practice, no source)."
	case p.Lifters == Hydraulic && p.Meant != "" && p.Meant != FullOil:
		return "Hydraulic lifters fill from this oil: ask their maker before it is restricted."
	case p.Lifters == Hydraulic && p.Meant != "":
		return "Hydraulic lifters fill from this oil."
	default:
		return ""
	}
}

// Text tells the decision in words, or "" when nothing of it is made.
func (p OilPath) Text() string {
	var out []string
	if p.Lifters != "" {
		out = append(out, p.Lifters+" lifters")
	}
	if p.Meant != "" {
		out = append(out, "meant: "+p.Meant)
	}
	if p.Fitted != "" {
		out = append(out, "fitted: "+p.Fitted)
	}
	if len(p.Closed) > 0 {
		out = append(out, "closed off: "+strings.Join(p.Closed, ", "))
	}
	if len(out) == 0 {
		return ""
	}
	return "oil path: " + strings.Join(out, "; ")
}
