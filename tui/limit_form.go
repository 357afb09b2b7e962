package tui

import (
	"errors"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// limitForm edits the limits on one characteristic of a family or a feature.
type limitForm struct {
	filling
	desk *Desk
	// was are the limits as they stand, zero for new ones; opened those that the
	// form was opened with, now those it holds.
	was, opened, now limit.Limits
	// open are the characteristics to choose from, features those; none where
	// they are fixed.
	open     []limit.Characteristic
	features []plan.Feature
	// printed is the unit of a bare number, class the tolerance class keyed last.
	printed length.Unit
	class   string
	// also is what is printed beside the limits. It is compared, and kept nowhere.
	also map[limit.Field]string
	// held are doubtful values that were shown once; passed the fields that the
	// hand has been through.
	held   map[limit.Field]string
	passed map[limit.Field]bool
}

// newLimitForm opens the form on limits that stand.
func newLimitForm(st *Station, d *Desk, was limit.Limits) *limitForm {
	x := &limitForm{filling: filling{st: st}, desk: d, was: was, now: was}
	x.begin()
	x.form.jump(string(x.fields()[0]))
	return x
}

// giveLimits opens the form on new limits: on what a row says, for its family,
// or for one feature, beginning with what the row has.
func giveLimits(st *Station, d *Desk, r limitRow, alone plan.Feature) *limitForm {
	x := &limitForm{filling: filling{st: st}, desk: d, now: r.limits, open: r.open}
	if !r.given() {
		x.now = limit.Limits{On: r.open[0], Of: string(r.family), Source: keyedHere}
	}
	if !alone.IsZero() {
		x.now.Of, x.features = alone.String(), featuresOf(d.Session, r.family)
	}
	x.begin()
	if alone.IsZero() && len(r.open) < 2 {
		x.form.jump(string(x.fields()[0]))
	}
	return x
}

// begin makes the fields of the limits as the form is opened with them.
func (x *limitForm) begin() {
	x.opened, x.printed = x.now, limitUnit(x.now, x.desk.Session.Unit())
	x.also = map[limit.Field]string{}
	x.held, x.passed = map[limit.Field]string{}, map[limit.Field]bool{}
	x.form = newForm(x.rows)
}

// keyedHere is where limits come from that are keyed without a source.
const keyedHere = "keyed at the bench"

// Title names what is limited.
func (x *limitForm) Title() string {
	return "limits on " + limitTitle(x.desk.Session, x.now) + ", " + x.desk.Title()
}

// Actions are its keys.
func (x *limitForm) Actions() []Action {
	return append([]Action{
		on("enter", x.entering(), x.enter).because("a doubtful value is held once; Enter again keeps it"),
		on("f2|ctrl+s", "keep the limits", x.finish).unless(x.off()).because("from any field; verdicts change at once"),
	}, x.moving(x.room(), x.leave)...)
}

// Explain says more on the help page.
func (x *limitForm) Explain() []string {
	return []string{
		"  Key what the book prints, with all its zeros, in its own unit: 95.25 mm. What",
		"  stands beside it in the book, such as 13.972 cm, is compared and kept nowhere.",
		"  ? beside a value: it looks like a misprint or a slip. The likely value is for",
		"  reading only: nothing is ever put in the place of what was keyed.",
		"  A wear limit is for parts that go back in; a target is what is aimed at.",
		"  These figures advise; the part maker's data and a qualified person govern.",
	}
}

// off says why the limits cannot be kept yet. While something is keyed that has
// not been taken in they may.
func (x *limitForm) off() string { return x.standing(x.wrong) }

// wrong says why the limits cannot be kept as they stand.
func (x *limitForm) wrong() string {
	if why := x.untaken(); why != "" {
		return why
	}
	_, err := x.desk.Session.ChangeLimit(x.was, x.now)
	var invalid *limit.InvalidError
	switch {
	case errors.As(err, &invalid):
		return invalid.Reason
	case err != nil:
		return err.Error()
	}
	return ""
}

// enter takes the field in and goes on, or presses the button. What cannot be
// taken stays; what is doubtful is held once.
func (x *limitForm) enter() tea.Cmd {
	f, beside := fieldOf(x.form.focus)
	if cmd, taken := x.takeIn(); !taken {
		return cmd
	}
	if f != "" {
		x.passed[f] = true
		if d := x.doubtsSoFar(f); len(d) > 0 && x.hold(f) {
			x.refuse("looks like a slip: Enter again keeps it")
			return nil
		}
	}
	x.form.move(1)
	if _, next := fieldOf(x.form.focus); next && !beside {
		x.form.move(1)
	}
	return nil
}

// hold reports whether a doubtful field is held: once for what stands there.
func (x *limitForm) hold(f limit.Field) bool {
	stands := x.now.At(f).String() + "|" + x.also[f]
	if x.held[f] == stands {
		return false
	}
	x.held[f] = stands
	return true
}

// finish keeps the limits. A doubt that has not been seen is shown first.
func (x *limitForm) finish() tea.Cmd {
	x.form.armed = false
	x.form.commit()
	if why := x.wrong(); why != "" {
		x.refuse(why)
		return nil
	}
	for _, d := range x.doubts(x.now) {
		if x.hold(d.Field) {
			x.form.jump(string(d.Field))
			x.refuse("looks like a slip: keep the limits once more keeps it")
			return nil
		}
	}
	if err := x.keep(); err != nil {
		x.fail(err)
	}
	return nil
}

// keep records what was changed and leaves.
func (x *limitForm) keep() error {
	bodies, err := x.desk.Session.ChangeLimit(x.was, x.now)
	if err != nil {
		return err
	}
	text := "nothing was changed"
	if len(bodies) > 0 {
		if err := x.desk.Record(bodies...); err != nil {
			return err
		}
		text = "the limits on " + limitTitle(x.desk.Session, x.now) + " are kept, and judge from here on"
	}
	x.st.Say(draw.Plain, text)
	x.st.Pop(nil)
	return nil
}

// leave takes back what is keyed, else leaves the form: at the second press
// when something would be lost.
func (x *limitForm) leave() tea.Cmd {
	return x.filling.leave(x.now == x.opened, "leaves the limits as they were; what was changed here is dropped")
}

// family is the family that the limits are for, or are for a feature of.
func (x *limitForm) family() plan.Family { return familyOf(x.now) }

// fields are those that a limit on this characteristic can have: what is best
// at zero has no low side.
func (x *limitForm) fields() []limit.Field {
	noLow := limit.KindOf(x.now.On) == limit.KindForm && x.now.On != limit.Taper
	return slices.DeleteFunc(limit.Fields(), func(f limit.Field) bool {
		return noLow && (f == limit.NewLow || f == limit.WearLow) && x.now.At(f).IsZero()
	})
}

// doubts returns what is doubtful in the form's limits, beside all others of
// the session.
func (x *limitForm) doubts(now limit.Limits) []limit.Doubt {
	var all []limit.Limits
	for _, l := range x.desk.Session.Limits() {
		if l != x.was {
			all = append(all, l)
		}
	}
	return doubtsOf(limit.Doubts(copied(x.desk.Session, append(all, now), x.also)), len(all))
}

// doubtsSoFar returns the doubts of one field that do not rest on fields behind
// it that the hand has not come to yet; gross slips show beside those too.
func (x *limitForm) doubtsSoFar(f limit.Field) []limit.Doubt {
	now := x.now
	behind := false
	for _, g := range limit.Fields() {
		if behind && !x.passed[g] {
			*lengthAt(&now, g) = length.Written{}
		}
		behind = behind || g == f
	}
	gross := slices.DeleteFunc(x.doubts(x.now), func(d limit.Doubt) bool { return !isGross(d) })
	return slices.DeleteFunc(append(x.doubts(now), gross...), func(d limit.Doubt) bool { return d.Field != f })
}

// isGross reports whether a doubt is of a slip that is far off.
func isGross(d limit.Doubt) bool {
	return len(d.Likely) > 0 && slices.Contains([]limit.Slip{limit.ShiftedPoint, limit.WrongUnit, limit.LostZero, limit.TurnedSlope}, d.Likely[0].Slip)
}

// lengthAt returns the length in a field, to be changed.
func lengthAt(l *limit.Limits, f limit.Field) *length.Written {
	switch f {
	case limit.NewLow:
		return setup.NewLow.Of(l)
	case limit.NewHigh:
		return setup.NewHigh.Of(l)
	case limit.WearLow:
		return setup.WearLow.Of(l)
	case limit.WearHigh:
		return setup.WearHigh.Of(l)
	default:
		return &l.Target
	}
}
