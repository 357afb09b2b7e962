package tui

import (
	"errors"
	"testing"

	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestPresetsLookSo(t *testing.T) {
	b := newSetupBench(t)
	b.press("n")
	b.golden(`
 borewright: new session

  What is on the bench?  Press the digit of the nearest; all can be changed.

  > 1  Inline six, inch: bores and mains
       six bores, seven main bearings and journals
    2  Inline three, millimetre: bores, pistons and mains
       three bores and their pistons, four main bearings and journals
    3  Inline four, millimetre: bores, pistons and mains
       four bores and their pistons, five main bearings and journals
    4  Vee eight, inch, shared rod journals: bores, mains and rods
       eight bores, left bank first, five mains, four rod journals
    5  Vee six, millimetre, split rod journals: bores and mains
       six bores, left bank first, four main bearings and journals
    6  Flat four, millimetre: bores and pistons
       four bores and their pistons, left bank first
    7  One bore, by hand
       one bore, read in full with an inside micrometer, without limits





 1 choose by digit  Enter choose  Up up  Down down  ? help  Esc back`)
}

func TestTheFormLooksSo(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1")
	b.golden(`
 borewright: new session
- Sizes, diametral, in inches --------------------------------------------------
  bores, nominal           3.7500
  bores, master           >_           !  no master's size for bores yet
  main bearings, nominal   2.6275
  main bearings, master    -              may wait until they are measured
  main journals, nominal   2.6250
                           [ begin measuring ]
- On the bench -----------------------------------------------------------------
  title                    Inline six, 11 Mar 2026
  customer                 -
  engine                   Inline six
  initials                 ek
  unit                     in
- The engine -------------------------------------------------------------------
  form                     inline
  cylinders                6
  numbered                 in sequence
- lines
 the master's size: the bore gauge for bores counts from it. Key what is
 engraved or set, not what is hoped for
 no master's size for bores yet

 Enter next field  F3 what is missing  ? help  Esc back`)
	b.press("3.75")
	b.see(">3.75_          -> 3.75 in (95.250 mm)")
	b.press("00", "<enter>")
	b.see("ready: the first reading is bore 1, top, across")
	b.at("bore.gauge.unit")
	b.golden(`
 borewright: new session
- Bores ------------------------------------------------------------------------
  levels                   3: top, middle, bottom
  depths, in inches        -        -        -
  directions               2: across, along
  limits, inches      new, low   new, high  wear, low  wear, high come from
  size                3.7500     3.7510     -          3.7538     new: common ~
  out-of-round        -          0.0005     -          0.0025     new: NAVEDTR~
  taper               -          0.0005     -          0.0020     new: common ~
  overall spread      -          -          -          -
  clearance           0.0019     0.0038     -          -          common pract~
  judged by                new where there is one, else wear
  size is                  every reading
  taper is                 end to end
  clearance is             smallest - largest
  read with                comparator, from a zero
  called                   bore gauge for bores
  marked in               >in  < >
- lines
 the unit on its dial or thimble; a bare reading is in it

 ready: the first reading is bore 1, top, across

 Enter next field  F2 begin measuring  Right change  Left change back  ? help`)
	b.at("bore.out-of-round.new.high")
	b.golden(`
 borewright: new session
- Bores ------------------------------------------------------------------------
  levels                   3: top, middle, bottom
  depths, in inches        -        -        -
  directions               2: across, along
  limits, inches      new, low   new, high  wear, low  wear, high come from
  size                3.7500     3.7510     -          3.7538     new: common ~
  out-of-round        -         >0.0005_    -          0.0025     new: NAVEDTR~
  taper               -          0.0005     -          0.0020     new: common ~
  overall spread      -          -          -          -
  clearance           0.0019     0.0038     -          -          common pract~
  judged by                new where there is one, else wear
  size is                  every reading
  taper is                 end to end
  clearance is             smallest - largest
  read with                comparator, from a zero
  called                   bore gauge for bores
  marked in                in
- lines
 out-of-round of bores, most, new; from: new: NAVEDTRA 14264A p. 3-4; wear: a
 used liner, TM 9-2815-202-34 p. 4-147; the maker's data govern
 ready: the first reading is bore 1, top, across

 Enter next field  F2 begin measuring  ? help  Esc back`)
}

// A newcomer is at the first reading within 25 keys, the size of the master
// included.
func TestTheFirstReadingIsFewKeysAway(t *testing.T) {
	for name, c := range map[string]struct {
		keys []string
		most int
	}{
		"with F2":          {[]string{"n", "1", "3.7500", "<f2>"}, 9},
		"with Enter":       {[]string{"n", "1", "3.7500", "<enter>", "<enter>", "<enter>", "<enter>", "<enter>"}, 13},
		"with every size":  {[]string{"n", "1", "3.7500", "<enter>", "<enter>", "2.6280", "<enter>", "<enter>", "<enter>"}, 19},
		"three, Ctrl+S":    {[]string{"n", "2", "79.000", "<ctrl+s>"}, 9},
		"vee eight":        {[]string{"n", "4", "4.0000", "<enter>", "<enter>", "<enter>", "<enter>", "<enter>", "<enter>", "<enter>", "<enter>"}, 16},
		"one bore by hand": {[]string{"n", "7", "<enter>", "<enter>"}, 4},
	} {
		t.Run(name, func(t *testing.T) {
			b := newSetupBench(t)
			b.press(c.keys...)
			m := top[*measure](b.station)
			if b.pressed > c.most || b.pressed > 25 {
				t.Errorf("it took %d keys", b.pressed)
			}
			if m.place != (plan.Place{Of: plan.Feature{Family: plan.Bore, At: 1}, Level: "a", Dir: "across"}) {
				t.Errorf("the first place is %v", m.place)
			}
			if n := len(b.r.stack); n != 2 {
				t.Errorf("%d screens are left below the measure screen", n-1)
			}
		})
	}
}

func TestTheSessionIsKept(t *testing.T) {
	b := newSetupBench(t)
	b.book.hold = true
	b.press("n", "1", "3.7500", "<f2>")
	d := top[*measure](b.station).desk
	if d.Kept != 0 || d.Pending() != len(b.book.sessions[d.UID()]) || d.Pending() == 0 {
		t.Errorf("%d events are kept and %d pending before the book says so", d.Kept, d.Pending())
	}
	b.press("3", "<enter>")
	if e := b.last(d.UID()).Body; e.Is() != record.IsReading {
		t.Errorf("the newest event is %v", e)
	}
	b.book.hold = false
	b.book.settle(d.UID())
	b.mail()
	if d.Pending() != 0 {
		t.Errorf("%d events are pending", d.Pending())
	}
	first := b.book.sessions[d.UID()][0]
	if first.By != "ek" || first.Body.(record.Details).Title != "Inline six, 11 Mar 2026" {
		t.Errorf("the session begins with %+v", first.Event)
	}
}

func TestABookThatRefusesLosesNothing(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500")
	b.st.Book = refusing{b.book}
	b.press("<f2>")
	b.see("the shelf is locked")
	if b.form().draft.Of(plan.Bore).Setting.Size.String() != "3.7500 in" || len(b.st.desks) != 0 {
		t.Error("the form lost its value, or a session opened all the same")
	}
}

type refusing struct{ Book }

func (refusing) Keep(string, ...record.Event) ([]record.Sealed, error) {
	return nil, errors.New("the shelf is locked")
}

func TestPresetsAreChosen(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "9")
	b.see("there are presets 1 to 7, not 9")
	b.press("<down>", "+", "<up>", "<enter>")
	if got := b.form().draft.Engine; got != "Inline three" {
		t.Errorf("the second preset is %q", got)
	}
	b.press("<esc>")
	if got := top[*presets](b.station).list.at; got != 1 {
		t.Errorf("back at preset %d", got+1)
	}
}
