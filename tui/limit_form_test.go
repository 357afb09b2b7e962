package tui

import (
	"testing"

	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// formula is where the first rule of thumb comes from.
func (b *setupBench) formula(f plan.Family, on limit.Characteristic) string {
	return setup.Formulas(f, on)[0].Source
}

// limits returns the form on top.
func (b *setupBench) limits() *limitForm {
	b.t.Helper()
	return top[*limitForm](b.station)
}

// onField goes to a field of the limits on top.
func (b *setupBench) onField(id string) {
	b.t.Helper()
	if !b.limits().form.jump(id) {
		b.t.Fatalf("there is no field %s", id)
	}
}

// sized opens the size limits of bores of a nominal in a new session.
func sized(t *testing.T, nominal string) *setupBench {
	t.Helper()
	b := newSetupBench(t)
	b.press("n", "1")
	b.at("bore.nominal")
	b.press(nominal, "<enter>", nominal, "<f2>", "b", "<enter>")
	b.limits()
	return b
}

// A misprint is held once with its likely value, and kept at the second Enter.
// TM 9-2815-225-34&P prints 5.483 in (13.972 cm).
func TestAMisprintIsHeldOnceAndKept(t *testing.T) {
	b := sized(t, "5.4800")
	b.onField("new high")
	b.press("5.483", "<enter>")
	b.onField("new high beside")
	b.press("13.972 cm", "<enter>")
	b.see("looks like a slip: Enter again keeps it")
	b.see("likely 13.927 cm")
	b.golden(`
 borewright: limits on size of bores, Inline six, 11 Mar 2026
- Size of bores, diametral, nominal 5.4800 in ----------------------------------
  size is                  as the session says, else every reading
  printed in               in
                           as printed    and beside it, to compare
  new, at least            5.4800        -
  new, at most             5.483       ?>13.972 cm|         likely 13.927 cm
  worn, at least           -             -
  worn, at most            5.4855        -
  target                   -             -
  or a tolerance class     -
  judged by                as the session says: by new
  comes from               keyed at the bench
                           [ keep the limits ]
- Rules of thumb: the maker's data govern --------------------------------------
    [ new nominal to nominal + 0.0010 in; wear to nominal + 0.001 x nominal ]
- lines
 what the book prints for the same limit beside it or elsewhere, such as 13.972
 cm; a bare number is in millimetres. It is only compared
 ? 5.483 in is 13.927 cm, but 13.972 cm is printed beside it: likely 13.927 cm
 (swapped digits)

 looks like a slip: Enter again keeps it
 Enter next field  F2 keep the limits  F1 help  Esc back`)
	b.press("<enter>")
	if f := b.limits().form.focus; f != "wear low" {
		t.Errorf("the focus is on %s", f)
	}
	b.press("<f2>")
	l := b.limitOf("bore", limit.Size)
	if l.New.High.String() != "5.483 in" || l.Source != keyedHere {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
}

// What agrees to half the last printed digit is no doubt.
func TestTwoPrintingsThatAgree(t *testing.T) {
	b := sized(t, "5.4800")
	b.onField("new high")
	b.press("5.483", "<tab>", "139.27", "<enter>")
	if got := b.limits().also[limit.NewHigh]; got != "139.27 mm" {
		t.Errorf("beside it is %q", got)
	}
	b.unseen("slip")
	b.unseen("likely")
	b.onField("new high beside")
	b.press("<ctrl+w>", "<ctrl+w>", "1,2,3 mm", "<enter>")
	b.see(`"1,2,3 mm": a number has one decimal point`)
}

// Keying a whole range anew is not held at its first number.
func TestALimitIsNotDoubtedBesideWhatIsYetToCome(t *testing.T) {
	b := sized(t, "3.7500")
	b.press("3.7520", "<enter>")
	b.unseen("slip")
	b.press("3.7530", "<enter>")
	b.unseen("slip")
	if f := b.limits().form.focus; f != "wear low" {
		t.Errorf("the focus is on %s", f)
	}
}

// A point that is shifted shows beside what is yet to come, too.
func TestAShiftedPointIsHeldAtOnce(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>", "b")
	b.mark("main-bearing", limit.Clearance)
	b.press("<enter>", "0.05", "<enter>")
	b.see("looks like a slip: Enter again keeps it")
	b.see("likely 0.0005 in")
	b.press("<enter>", "<f2>")
	b.see("the low new limit 0.05 in is above the high one, 0.0030 in")
	b.limits()
}

// F2 does not pass over a doubt that nobody has seen.
func TestADoubtIsShownBeforeItIsKept(t *testing.T) {
	b := sized(t, "3.7500")
	b.onField("wear high")
	b.press("4.7500", "<f2>")
	b.see("looks like a slip")
	if f := b.limits().form.focus; f != "wear high" {
		t.Errorf("the focus is on %s", f)
	}
	b.press("<f2>")
	if l := b.limitOf("bore", limit.Size); l.Wear.High.String() != "4.7500 in" {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
}

func TestWhatCannotBeALimitIsNotKept(t *testing.T) {
	b := sized(t, "3.7500")
	b.press("3.7600", "<f2>")
	b.see("the low new limit 3.7600 in is above the high one, 3.7510 in")
	b.limits()
	b.press("<f2>")
	b.see("keep the limits: the low new limit")
	b.press("/", "<enter>")
	b.press("3.75.1", "<enter>")
	b.see("a number has one decimal point")
	b.press("<f2>")
	b.limits()
	b.press("<esc>")
	b.see("Esc once more leaves the limits as they were")
	b.press("<esc>")
	top[*limitsScreen](b.station)
	if l := b.limitOf("bore", limit.Size); l.New.Low.String() != "3.7500 in" {
		t.Errorf("the limits became %+v", l)
	}
}

// A number carries its own unit or has that of the book.
func TestUnitsAsPrinted(t *testing.T) {
	b := sized(t, "3.7500")
	b.onField("printed")
	b.press("+")
	b.onField("new low")
	b.press("95.25", "<enter>", "3.7510in", "<enter>")
	b.onField("target")
	b.press("95.26 mm", "<f2>")
	l := b.limitOf("bore", limit.Size)
	if l.New.Low.String() != "95.25 mm" || l.New.High.String() != "3.7510 in" || l.Target.String() != "95.26 mm" {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
}

func TestAClassFillsTheLimitsIn(t *testing.T) {
	b := sized(t, "60.000 mm")
	b.onField("class")
	b.press("60 h6", "<enter>")
	b.see("it is a class for shafts, and bores are holes")
	b.press("<ctrl+w>", "<ctrl+w>", "60 H6", "<enter>")
	l := b.limits().now
	if l.New.Low.String() != "60.000 mm" || l.New.High.String() != "60.019 mm" || l.Source != "ISO 286-1:2010, 60 mm H6" {
		t.Errorf("60 H6 is %+v", l)
	}
	b.onField("new high")
	b.press("60.018", "<enter>")
	if l := b.limits().now; l.Source != keyedHere || b.limits().class != "" {
		t.Errorf("keyed over, it still comes from %q", l.Source)
	}
}

// A limit printed per inch of travel holds for a travel.
func TestALimitPerTravel(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>", "b")
	b.mark("bore", limit.Taper)
	b.press("<enter>")
	b.onField("new high")
	b.press("/", "<enter>")
	b.onField("wear high")
	b.press("0.0005", "<enter>")
	b.onField("per")
	b.press("1in", "<enter>")
	b.see("the limit is per 1 in, but no travel is stated")
	b.press("3.5in", "<enter>")
	b.see("in effect wear high 0.00175 in")
	b.onField("source")
	b.press("<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "the book, p. 12", "<f2>")
	l := b.limitOf("bore", limit.Taper)
	if l.Wear.High.String() != "0.0005 in" || l.Per.String() != "1 in" || l.Travel.String() != "3.5 in" || l.Source != "the book, p. 12" || !l.New.IsZero() {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
	b.see("in/in wear")
	b.see("taper of bores is end to end; per 1 in over 3.5 in: wear high 0.00175 in;")
}

func TestAFormulaFillsTheLimitsIn(t *testing.T) {
	b := sized(t, "4.0000")
	b.press("3.9990", "<enter>")
	b.onField("formula " + b.formula(plan.Bore, limit.Size))
	b.see("fills the limits in. From: new: common practice, no source;")
	b.press("<enter>")
	l := b.limits().now
	if l.New.Low.String() != "4.0000 in" || l.Wear.High.String() != "4.0040 in" || l.Source != b.formula(plan.Bore, limit.Size) {
		t.Errorf("filled in %+v", l)
	}
	b.see("filled in; new: common practice, no source")
	b.onField("judge")
	b.press("-")
	b.onField("definition")
	b.press("-")
	b.press("<f2>")
	if l := b.limitOf("bore", limit.Size); l.By != limit.Average || l.JudgeBy != limit.Wear {
		t.Errorf("kept %+v (%s)", l, b.st.status.text)
	}
}

// What is said of a field of the limits fits the two lines there are for it,
// and every field takes its own text in again.
func TestEveryFieldOfLimitsHolds(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>")
	d := b.st.desks[0]
	for _, r := range limitRows(d.Session) {
		forms := []*limitForm{giveLimits(b.st, d, r, featuresOf(d.Session, r.family)[0])}
		if r.given() {
			forms = append(forms, newLimitForm(b.st, d, r.limits))
		}
		for _, on := range r.open {
			forms = append(forms, giveLimits(b.st, d, limitRow{family: r.family, open: []limit.Characteristic{on}}, plan.Feature{}))
		}
		for _, x := range forms {
			was := x.now
			for _, row := range x.form.rows {
				for _, f := range row.fields {
					if lines := draw.Wrap(f.why, 78); f.why == "" || len(lines) > 2 {
						t.Errorf("%s says %q", f.id, f.why)
					}
					if f.set == nil || f.get() == "" {
						continue
					}
					if err := f.set(f.get()); err != nil || x.now != was {
						t.Errorf("%s: %q changed %+v, %v", f.id, f.get(), x.now, err)
					}
				}
			}
		}
	}
}
