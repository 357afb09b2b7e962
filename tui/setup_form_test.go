package tui

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

func TestWhatIsMissingIsSaid(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "<f2>")
	b.see("begin measuring: no master's size for bores yet")
	b.at("begin")
	b.press("<enter>")
	b.focused("bore.master")
	b.press("3.75.", "<enter>")
	b.see("a number has one decimal point")
	b.focused("bore.master")
	b.see(">3.75._")
	b.press("<tab>")
	b.see("3.75.       !")
	b.press("<f2>")
	if _, on := b.r.top().(*setupForm); !on {
		t.Fatal("measuring began with a master of 3.75.")
	}
	b.press("<f3>")
	b.focused("bore.master")
	b.press("/", "3.7500", "<enter>")
	b.see("ready:")
	b.unseen("!")
}

// A doubtful value is held once, and kept at the second Enter.
func TestADoubtIsHeldOnce(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.5700", "<enter>")
	b.focused("bore.master")
	b.see("the master 3.5700 in for bores is 0.1800 in from their nominal 3.7500 in")
	b.press("<enter>")
	b.focused("main-bearing.nominal")
	b.see("look: the master 3.5700 in")
	b.press("<f2>")
	top[*measure](b.station)
}

func TestLeavingAsksWhenSomethingWouldBeLost(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7", "<esc>")
	b.focused("bore.master")
	b.see(">_           !")
	b.press("3.7500", "<enter>", "<esc>")
	b.see("Esc once more leaves the setup")
	b.press("<tab>", "<esc>")
	b.form()
	b.press("<esc>")
	top[*presets](b.station)
}

func TestASessionIsChanged(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>", "s")
	s := b.form()
	before := b.last(s.desk.UID()).N
	b.at("title")
	b.press("<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "Hill, again", "<f2>")
	m := top[*measure](b.station)
	e := b.last(m.desk.UID())
	if e.N != before+1 || e.Body.(record.Details).Title != "Hill, again" {
		t.Errorf("event %d is %+v", e.N, e.Body)
	}
	b.press("s", "<f2>")
	b.see("nothing was changed")
	if n := b.last(m.desk.UID()).N; n != before+1 {
		t.Errorf("event %d was recorded for nothing", n)
	}
}

func TestReadingsKeepTheirPlaceInASessionThatIsChanged(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>", "s")
	b.at("layout.cylinders")
	b.press("1", "<f2>")
	b.see("has been read or left out, so the layout has to keep it")
	if got := b.form().draft.Layout.Cylinders; got != 1 {
		t.Errorf("what was filled in became %d", got)
	}
	b.press("<esc>", "<esc>")
	top[*measure](b.station)
}

func TestInitialsStandBesideWhatFollows(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "7")
	b.at("initials")
	b.press("<erase>", "<erase>", "mb", "<f2>")
	m := top[*measure](b.station)
	if b.st.By != "mb" || b.last(m.desk.UID()).By != "mb" {
		t.Errorf("events are by %q", b.last(m.desk.UID()).By)
	}
}

// What is said of a field fits the two lines there are for it.
func TestEveryReasonFits(t *testing.T) {
	for i, p := range setup.Presets() {
		b := newSetupBench(t)
		b.press("n", string(rune('1'+i)))
		for _, r := range b.form().form.rows {
			for _, x := range r.fields {
				lines := draw.Wrap(x.why, 78)
				if x.why == "" || len(lines) > 2 {
					t.Errorf("%s: %s says %q", p.ID, x.id, x.why)
				}
			}
		}
	}
}

// Every field of every form takes its own text in again and changes nothing.
func TestFieldsTakeTheirOwnText(t *testing.T) {
	for i := range setup.Presets() {
		b := newSetupBench(t)
		b.press("n", string(rune('1'+i)))
		s := b.form()
		for _, r := range s.form.rows {
			for _, x := range r.fields {
				if x.set == nil || x.get() == "" {
					continue
				}
				text := x.get()
				if err := x.set(text); err != nil || x.get() != text {
					t.Errorf("%s: %q became %q, %v", x.id, text, x.get(), err)
				}
			}
		}
	}
}

func TestLimitsAreKeyed(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500", "<enter>")
	b.at("bore.overall spread.wear.high")
	b.press("0,15mm", "<enter>")
	b.at("bore.taper.new.high")
	b.press("0.0004", "<right>", "<left>")
	b.at("bore.taper.source")
	b.press("<ctrl+w>", "<ctrl+w>", "<ctrl+w>", "shop manual", "<enter>")
	b.at("bore.judge")
	b.press("-")
	b.at("bore.definition.taper")
	b.press(" ")
	b.at("bore.size.wear.high")
	b.press("/", "<enter>")
	f := b.form().draft.Of(plan.Bore)
	spread, _ := f.Limit(limit.OverallSpread, "")
	taper, _ := f.Limit(limit.Taper, limit.Spread)
	size, _ := f.Limit(limit.Size, "")
	switch {
	case spread.Wear.High.String() != "0.15 mm" || spread.Source != "keyed at setup":
		t.Errorf("the spread's limits are %+v", spread)
	case taper.New.High.String() != "0.0004 in" || taper.Source != "shop manual" || taper.JudgeBy != limit.Wear:
		t.Errorf("the taper's limits are %+v", taper)
	case !size.Wear.High.IsZero() || size.JudgeBy != "":
		t.Errorf("the size's limits are %+v", size)
	}
	b.press("<f2>")
	if got := len(top[*measure](b.station).desk.Session.Limits()); got == 0 {
		t.Error("no limits were recorded")
	}
}

func TestNominalsTakeTheirLimitsAlong(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500")
	b.at("bore.nominal")
	b.press("4.0000", "<enter>")
	b.at("bore.size.new.low")
	b.see(">4.0000_")
	b.at("bore.nominal")
	b.press("/", "<enter>")
	b.see("no nominal size for bores yet")
	b.focused("bore.nominal")
}

func TestFamiliesAndLayoutsAreChosen(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500", "<enter>")
	b.at("piston.measured")
	b.press("+")
	b.at("piston.grid.levels")
	b.see("levels                  >1: skirt")
	b.press("<f2>")
	b.see("no nominal size for pistons yet")
	b.press("<f3>")
	b.focused("piston.nominal")
	b.press("3.7480", "<enter>")
	b.at("layout.form")
	b.press("<right>")
	b.at("layout.cylinders")
	b.press("12")
	b.at("layout.rods")
	b.press(" ")
	b.at("bore.grid.directions")
	b.press("4")
	b.at("bore.grid.levels")
	b.press("9")
	b.see("there is no choice 9 here")
	b.press("2")
	b.at("bore.grid.depth.2")
	b.press("100mm", "<enter>")
	d := b.form().draft
	if d.Layout.Form != plan.Vee || d.Layout.Cylinders != 12 || !d.Layout.Shared || d.Layout.Mains != 7 {
		t.Errorf("the layout is %+v", d.Layout)
	}
	f := d.Of(plan.Bore)
	if len(f.Directions) != 4 || len(f.Levels) != 2 || f.Levels[1].Depth.String() != "100 mm" {
		t.Errorf("bores are read at %+v", f.Group)
	}
	b.press("<f2>")
	if got := len(top[*measure](b.station).desk.Session.Places()); got != 12*8+12+7*2+7*4 {
		t.Errorf("the plan has %d places", got)
	}
}

func TestGaugesAreChosen(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.7500", "<enter>")
	b.at("bore.gauge.step")
	b.press("0.0001", "<enter>")
	b.at("bore.gauge.kind")
	b.press("+")
	if f := b.form().draft.Of(plan.Bore); f.Gauge.Kind != gauge.Direct {
		t.Errorf("the gauge is %+v", f.Gauge)
	}
	b.unseen("bores, master")
	b.press("+")
	b.at("bore.gauge.unit")
	b.press("+")
	b.at("bore.master.on")
	b.press("+")
	f := b.form().draft.Of(plan.Bore)
	if f.Gauge.Kind != gauge.Comparator || f.Gauge.Unit != length.MM || f.Gauge.Graduation.String() != "0.001 mm" || f.Setting.On != gauge.OnMicrometer {
		t.Errorf("the gauge is %+v, set on %+v", f.Gauge, f.Setting)
	}
	b.at("unit")
	b.press("-")
	if got := b.form().draft.Unit; got != length.MM {
		t.Errorf("the unit is %s", got)
	}
	if !strings.Contains(b.form().form.rows[0].heading, "millimetres") {
		t.Error("the sizes are not said to be in millimetres")
	}
}

// The gauge that a session has had comes back when its kind is chosen again.
func TestAGaugeComesBack(t *testing.T) {
	b := newSetupBench(t, "hillclimb")
	b.press("<enter>", "s")
	had := b.form().draft.Of(plan.Bore).Gauge
	b.at("bore.gauge.kind")
	b.press("+")
	if b.form().draft.Of(plan.Bore).Gauge.ID == had.ID {
		t.Error("another kind is the same gauge")
	}
	b.press("+")
	if got := b.form().draft.Of(plan.Bore).Gauge; got != had {
		t.Errorf("the gauge came back as %+v, not %+v", got, had)
	}
	b.at("unit")
	b.press("+")
	if got := b.form().draft.Of(plan.Bore).Gauge; got != had {
		t.Errorf("in inches the gauge became %+v", got)
	}
}

func TestALargeWindowShowsEveryRow(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "7")
	b.r.resize(120, 90)
	b.unseen(" lines 1 to ")
	b.see("On the bench")
	b.see("one turn")
}
