package limit

import (
	"fmt"
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// InvalidError says what is wrong with limits, and which ones.
type InvalidError struct {
	On     Characteristic
	Of     string
	Reason string // what is wrong, in plain words, with the value
}

// Error names the limits and gives the reason.
func (e *InvalidError) Error() string {
	return fmt.Sprintf("limits of %s for %s: %s", plan.Quote(string(e.On)), plan.Quote(e.Of), e.Reason)
}

// Validate says what is wrong with the limits; the error is an *InvalidError.
// A low limit is not above its high one, a wear limit is no tighter than the
// new one of its side, a target lies between the limits, a size is one that the
// family can have (plan.Family.CheckSize), only a taper, a size and a clearance
// have a low side, and a limit per length states both lengths.
func (l Limits) Validate() error {
	checks := []func() string{l.checkNames, l.checkRanges, l.checkSizes, l.checkWear, l.checkTarget, l.checkPer, l.checkJudge}
	for _, check := range checks {
		if reason := check(); reason != "" {
			return &InvalidError{On: l.On, Of: l.Of, Reason: reason}
		}
	}
	return nil
}

func (l Limits) checkNames() string {
	if KindOf(l.On) == AnyKind {
		return "nothing of that name is judged"
	}
	family, err := plan.FamilyOf(l.Of)
	switch {
	case err != nil:
		return "it is neither a family, such as bore, nor a feature, such as bore/3"
	case l.On == Clearance && family.Shape() != plan.Hole:
		return "a clearance is named by its hole, not by its shaft"
	case l.On == Step && l.Of != string(plan.MainBearing) && l.Of != string(plan.Liner):
		return fmt.Sprintf("neighbours are compared of %s and of %s", plan.MainBearing.Plural(), plan.Liner.Plural())
	case l.By != "" && !slices.Contains(traits[l.On].by, l.By):
		return fmt.Sprintf("it has no definition %s", plan.Quote(string(l.By)))
	}
	return ""
}

func (l Limits) checkRanges() string {
	if l.New.IsZero() && l.Wear.IsZero() {
		return "there is neither a low nor a high limit"
	}
	for _, by := range []string{New, Wear} {
		if reason := l.checkRange(by, l.Range(by)); reason != "" {
			return reason
		}
	}
	return ""
}

func (l Limits) checkRange(by string, r Range) string {
	low, high := r.Low, r.High
	switch {
	case !low.IsZero() && !high.IsZero() && low.Length > high.Length:
		return fmt.Sprintf("the low %s limit %s is above the high one, %s", by, low, high)
	case KindOf(l.On) == KindForm && l.On != Taper && !low.IsZero():
		return fmt.Sprintf("the low %s limit %s has no meaning: less is better", by, low)
	case KindOf(l.On) == KindForm && low.IsZero() && high.Length < 0:
		return fmt.Sprintf("the high %s limit %s is below zero", by, high)
	}
	return ""
}

// checkSizes holds every limit of what is read, and its target, to what a
// reading of the family may be.
func (l Limits) checkSizes() string {
	family, _ := plan.FamilyOf(l.Of)
	if t, _ := family.Traits(); l.On != Size && string(l.On) != t.Figure {
		return ""
	}
	for _, size := range []struct {
		name string
		w    length.Written
	}{
		{"new limit", l.New.Low},
		{"new limit", l.New.High},
		{"wear limit", l.Wear.Low},
		{"wear limit", l.Wear.High},
		{"target", l.Target},
	} {
		if err := family.CheckSize(size.w); err != nil {
			return fmt.Sprintf("the %s %v", size.name, err)
		}
	}
	return ""
}

func (l Limits) checkWear() string {
	switch n, w := l.New, l.Wear; {
	case !n.High.IsZero() && !w.High.IsZero() && w.High.Length < n.High.Length:
		return fmt.Sprintf("the high wear limit %s is below the high new limit %s", w.High, n.High)
	case !n.Low.IsZero() && !w.Low.IsZero() && w.Low.Length > n.Low.Length:
		return fmt.Sprintf("the low wear limit %s is above the low new limit %s", w.Low, n.Low)
	}
	return ""
}

func (l Limits) checkTarget() string {
	if l.Target.IsZero() {
		return ""
	}
	for _, by := range []string{New, Wear} {
		if l.Range(by).outside(l.Target.Exact()) {
			return fmt.Sprintf("the target %s is outside the %s limits", l.Target, by)
		}
	}
	return ""
}

func (l Limits) checkPer() string {
	if l.Per.IsZero() && l.Travel.IsZero() {
		return ""
	}
	switch {
	case l.Per.IsZero():
		return fmt.Sprintf("there is a travel of %s, but no length that the limit is per", l.Travel)
	case l.Travel.IsZero():
		return fmt.Sprintf("the limit is per %s, but no travel is stated", l.Per)
	case l.Per.Length <= 0:
		return fmt.Sprintf("the limit is per %s, which is not above zero", l.Per)
	case l.Travel.Length <= 0:
		return fmt.Sprintf("the travel %s is not above zero", l.Travel)
	case l.On == Size:
		return fmt.Sprintf("a size has no limit per %s of travel", l.Per)
	}
	for _, w := range l.written() {
		if _, ok := mulDiv(w.Length, l.Travel.Length, l.Per.Length); !ok {
			return fmt.Sprintf("%s per %s over %s is longer than any length here", *w, l.Per, l.Travel)
		}
	}
	return ""
}

func (l Limits) checkJudge() string {
	switch {
	case l.JudgeBy == "":
		return ""
	case l.JudgeBy != New && l.JudgeBy != Wear:
		return fmt.Sprintf("it is judged by new or by wear, not by %s", plan.Quote(l.JudgeBy))
	case l.Range(l.JudgeBy).IsZero():
		return fmt.Sprintf("it is judged by %s, but has no %s limit", l.JudgeBy, l.JudgeBy)
	}
	return ""
}
