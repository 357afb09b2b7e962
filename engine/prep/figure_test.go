package prep_test

import (
	"strings"
	"testing"

	"borewright/engine/plan"
	"borewright/engine/prep"
)

// torque is a list of one step: a torque at two mains, from 65 to 70 ft lb.
func torque(t *testing.T) *bench {
	t.Helper()
	return newBench(t, six, prep.List{{
		ID: "t", Name: "torque", Kind: prep.Value, Unit: "ft lb", Low: "65 ft lb", High: "70.0 ft lb",
		Places: []string{"main-housing/1", "main-housing/2"},
	}})
}

func TestAFigureIsJudgedByItsLimits(t *testing.T) {
	for text, want := range map[string]string{
		"65": "", "70": "", "70.00": "", "67,5": "", "68 ft lb": "",
		"64.9":  "64.9 ft lb is below 65 ft lb",
		"70.01": "70.01 ft lb is above 70.0 ft lb",
		"-66":   "-66 ft lb is below 65 ft lb",
	} {
		b := torque(t)
		if held := b.tick("t", "main-housing/2", text); held != want {
			t.Errorf("%s is held for %q, want %q", text, held, want)
		}
		found := ""
		for _, f := range b.now.Findings(b.l) {
			if f.Kind == prep.Outside {
				found = f.Text
			}
		}
		if want != "" {
			want = "torque at main housing 2: " + want
		}
		if found != want {
			t.Errorf("%s forced is found %q, want %q", text, found, want)
		}
	}
	if got := torque(t).step("t").Limits(); got != "65 ft lb to 70.0 ft lb" {
		t.Errorf("limits are %q", got)
	}
}

func TestWhatIsNoTick(t *testing.T) {
	list := preset(t, "new-block").List(six)
	step := func(id string) prep.Step {
		s, _, _ := list.Find(id)
		return s
	}
	for _, x := range []struct{ id, text, want string }{
		{prep.PlugsOut, "1.5", `"1.5" is no count: a whole number from 0 to 999`},
		{prep.PlugsOut, "-1", `"-1" is no count: a whole number from 0 to 999`},
		{prep.PlugsOut, "1000", `"1000" is no count: a whole number from 0 to 999`},
		{prep.OilLifters, "3", "choose 1 to 2, not 3"},
		{prep.CamSeat, "0.5 mm", "0.5 mm is in mm, not in in"},
		{prep.Wash, "1", "wash is ticked, no number is keyed"},
	} {
		if _, err := step(x.id).Read("", x.text); err == nil || err.Error() != x.want {
			t.Errorf("%s keyed %s: %v, want %s", x.id, x.text, err, x.want)
		}
	}
	if _, err := step(prep.CamSeat).Read("", "x"); err == nil {
		t.Error("x is a depth")
	}
	for want, tick := range map[string]prep.Tick{
		`step "x": the prep list has no such step`:                 {Step: "x"},
		`step "deburr-bores": it has no place "bore/9 top"`:        {Step: prep.DeburrBores, Place: "bore/9 top"},
		`step "wash": nothing is counted there`:                    {Step: prep.Wash, Count: 1},
		`step "plugs-out": 1000 is no count from 0 to 999`:         {Step: prep.PlugsOut, Way: prep.Out, Count: 1000},
		`step "plugs-out": what is counted there goes out, not in`: {Step: prep.PlugsOut, Way: prep.In},
		`step "plugs-out": what is counted there goes out, not accounted`: {
			Step: prep.PlugsOut, Way: prep.Accounted,
		},
		`step "oil-lifters": "none" is none of its choices`: {Step: prep.OilLifters, Choice: "none"},
	} {
		if err := list.Check(tick); err == nil || err.Error() != want {
			t.Errorf("%+v: %v, want %s", tick, err, want)
		}
	}
	if err := list.Check(prep.Tick{Step: prep.CamSeat, Place: "cam-bearing/1", Value: "deep"}); err == nil {
		t.Error("deep is a depth")
	}
}

func TestCamBearingsBelongToTheirBores(t *testing.T) {
	l := six
	l.Layout.Labels = map[string][]string{"cam bearings": {"A", "2", "3", "4", "5", "6", "7"}}
	b := newBench(t, l, preset(t, "new-block").List(l))
	b.l = l.Layout
	b.upTo(prep.Oil)
	for _, x := range []struct{ place, text, want string }{
		{"cam-bearing/2", "2", ""},
		{"cam-bearing/2", "02", ""},
		{"cam-bearing/3", "2", "number 2 at cam bearing 3"},
	} {
		if held := b.now.Hold(b.read(prep.CamIn, x.place, x.text), b.l); held != x.want {
			t.Errorf("bearing %s at %s is held for %q, want %q", x.text, x.place, held, x.want)
		}
	}
	b.tick(prep.CamIn, "cam-bearing/3", "2")
	if got := b.notReady(); !strings.Contains(got, "cam bearings in at cam bearing 3: number 2 at cam bearing 3") {
		t.Errorf("a bearing in the wrong bore: %q", got)
	}
}

func TestFrontCamBearingSitsBehindTheFace(t *testing.T) {
	b := of(t, "new-block")
	b.upTo(prep.CamIn)
	for text, want := range map[string]string{
		"0.030": "", "0.001": "", "0": "0 in is below 0.001 in", "-0.002": "-0.002 in is below 0.001 in",
	} {
		if held := b.now.Hold(b.read(prep.CamSeat, "cam-bearing/1", text), b.l); held != want {
			t.Errorf("%s behind the face is held for %q, want %q", text, held, want)
		}
	}
}

func TestTheOilPathIsDecidedOnce(t *testing.T) {
	for _, x := range []struct{ meant, fitted, want string }{
		{prep.FullOil, prep.FittedNone, ""},
		{prep.MeantBlock, prep.FittedBlock, ""},
		{prep.MeantLifters, prep.FittedLifters, ""},
		{prep.MeantBlock, "", ""},
		{"", prep.FittedNone, ""},
		{prep.MeantBlock, prep.FittedBoth, "oil to the lifters restricted twice: in the block and in the lifters"},
		{"", prep.FittedBoth, "oil to the lifters restricted twice: in the block and in the lifters"},
		{prep.MeantLifters, prep.FittedNone, "oil to the lifters meant to be restricted in the lifters, and no restrictor fitted"},
		{prep.FullOil, prep.FittedBlock, "oil to the lifters meant to be full, and a restrictor fitted in the block"},
		{prep.MeantBlock, prep.FittedLifters, "oil to the lifters meant to be restricted in the block, and the restrictor fitted in the lifters"},
	} {
		if got := (prep.OilPath{Meant: x.meant, Fitted: x.fitted}).Wrong(); got != x.want {
			t.Errorf("meant %q, fitted %q: %q, want %q", x.meant, x.fitted, got, x.want)
		}
	}
	reasons := map[string]bool{}
	for _, lifters := range []string{prep.Solid, prep.Hydraulic} {
		for _, meant := range []string{prep.FullOil, prep.MeantBlock} {
			reasons[prep.OilPath{Lifters: lifters, Meant: meant}.Reason()] = true
		}
	}
	if len(reasons) != 4 || reasons[""] || (prep.OilPath{}).Reason() != "" {
		t.Errorf("the reasons are %v", reasons)
	}
}

func TestTheOilPathIsTold(t *testing.T) {
	b := of(t, "new-block")
	if got := b.now.OilPath().Text(); got != "" {
		t.Errorf("nothing decided is %q", got)
	}
	b.tick(prep.OilLifters, "", "1")
	b.tick(prep.OilMeant, "", "2")
	b.tick(prep.OilFitted, "", "4")
	b.tick(prep.OilGalleries, "lifter gallery", "2")
	b.tick(prep.OilGalleries, "main gallery", "1")
	want := "oil path: solid lifters; meant: restricted in the block; fitted: in the block and in the lifters; closed off: lifter gallery"
	if got := b.now.OilPath().Text(); got != want {
		t.Errorf("it is told as %q", got)
	}
	found := false
	for _, f := range b.now.Findings(plan.Layout{}) {
		found = found || f.Kind == prep.OilPathOf && f.Blocks() && f.Step == prep.OilFitted
	}
	if !found {
		t.Error("restricted twice is no finding")
	}
}
