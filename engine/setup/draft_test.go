package setup_test

import (
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
)

func TestPresetsOnlyLackTheMaster(t *testing.T) {
	for _, p := range setup.Presets() {
		d := p.Draft()
		needs := len(d.Measured()) > 0 && d.Measured()[0].NeedsMaster()
		got := d.Check()
		switch {
		case needs && (len(got) != 1 || got[0].Field != string(d.Measured()[0].Family)+".master"):
			t.Errorf("%s: Check = %v, want the first master's size alone", p.ID, got)
		case !needs && len(got) != 0:
			t.Errorf("%s: Check = %v, want nothing", p.ID, got)
		}
		if got := enginetest.Mastered(d).Check(); len(got) != 0 {
			t.Errorf("%s with its masters: Check = %v", p.ID, got)
		}
	}
}

func TestPresetsCanBeReadAtOnce(t *testing.T) {
	for _, p := range setup.Presets() {
		d := enginetest.Mastered(p.Draft())
		s := enginetest.Begun(t, d)
		place := s.Resume()
		if place.IsZero() || place.Of.At != 1 || place.Of.Family != d.Measured()[0].Family {
			t.Errorf("%s: the first place is %v", p.ID, place)
		}
		for _, f := range d.Measured() {
			at := s.Enter(plan.Feature{Family: f.Family, At: 1})
			c, err := s.Reads(at)
			if err != nil {
				t.Errorf("%s: %v", p.ID, err)
				continue
			}
			text := "0"
			if f.Gauge.Kind == gauge.Direct {
				text = f.Nominal.Number()
			}
			if r := gauge.Read(text, c); r.Kind != gauge.Taken || r.Meaning.At != f.Nominal.Length {
				t.Errorf("%s, %s: %q is %v (%s)", p.ID, f.Family, text, r.Kind, r.Reason)
			}
		}
	}
}

func TestPresetsAreTold(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range setup.Presets() {
		if p.ID == "" || p.Name == "" || p.About == "" || seen[p.ID] || seen[p.Name] {
			t.Errorf("preset %q (%q, %q) is not told apart", p.ID, p.Name, p.About)
		}
		seen[p.ID], seen[p.Name] = true, true
	}
	a, b := setup.Presets()[0].Draft(), setup.Presets()[0].Draft()
	a.SetLevels(plan.Bore, 5)
	a.Of(plan.Bore).Directions = nil
	if b.Of(plan.Bore).Levels[1].Name != "middle" || len(b.Of(plan.Bore).Directions) != 2 {
		t.Error("two drafts of a preset share their levels")
	}
}

func TestEventsComeInOrder(t *testing.T) {
	d := enginetest.Mastered(setup.Presets()[5].Draft()) // bores and pistons
	bodies, err := d.Events("abc")
	if err != nil {
		t.Fatal(err)
	}
	want := "details, layout, plan, limit, limit, limit, limit, instrument, instrument, setting, setting, set, set"
	if got := enginetest.Kinds(bodies); got != want {
		t.Errorf("events are %s, want %s", got, want)
	}
	if d := bodies[0].(record.Details); d.UID != "abc" || d.Title != "Flat four" || d.Unit != length.MM {
		t.Errorf("details are %+v", d)
	}
}

func TestEventsSayWhatIsWrong(t *testing.T) {
	d := setup.Presets()[0].Draft()
	_, err := d.Events("abc")
	var p setup.Problem
	if !errors.As(err, &p) || p.Field != "bore.master" {
		t.Errorf("Events = %v, want the missing master", err)
	}
}

// A gauge for the mains may be zeroed later: it is copied, but has no setting.
func TestALaterMasterMayWait(t *testing.T) {
	d := setup.Presets()[0].Draft()
	d.Of(plan.Bore).SetMaster(gauge.OnMicrometer, enginetest.Written(t, "3.7500 in"))
	s := enginetest.Begun(t, d)
	if _, err := s.Hand(plan.Bore); err != nil {
		t.Error(err)
	}
	if _, err := s.Hand(plan.MainBearing); err == nil {
		t.Error("the mains are read from a zero that nobody knows")
	}
	d.Of(plan.MainBearing).SetMaster(gauge.OnRing, enginetest.Written(t, "2.6280 in"))
	if got := enginetest.Kinds(enginetest.Changed(t, s, d)); got != "setting, set" {
		t.Errorf("changes are %s", got)
	}
	if h, err := s.Hand(plan.MainBearing); err != nil || h.Setting.Size.String() != "2.6280 in" {
		t.Errorf("Hand = %v, %v", h.Setting, err)
	}
}

func TestADraftComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDraft(t)
		s := enginetest.Begun(t, d)
		if got := setup.Of(s); !reflect.DeepEqual(got, d) {
			t.Fatalf("DraftOf gives\n%+v, want\n%+v", got, d)
		}
		if bodies, err := d.Changes(s); err != nil || len(bodies) != 0 {
			t.Fatalf("an unchanged draft changes %s, %v", enginetest.Kinds(bodies), err)
		}
	})
}

// A draft read back from its stored bytes is the same.
func TestADraftComesBackFromItsBytes(t *testing.T) {
	for _, p := range setup.Presets() {
		d := enginetest.Mastered(p.Draft())
		bodies, err := d.Events("abc")
		if err != nil {
			t.Fatal(err)
		}
		var lines [][]byte
		for _, e := range enginetest.Seal(t, nil, "", bodies) {
			lines = append(lines, e.Bytes)
		}
		events, err := record.Verify(lines)
		if err != nil {
			t.Fatal(err)
		}
		s, err := engine.Replay(events)
		if err != nil {
			t.Fatal(err)
		}
		if got := setup.Of(s); !reflect.DeepEqual(got, d) {
			t.Errorf("%s: DraftOf gives\n%+v, want\n%+v", p.ID, got, d)
		}
	}
}

// drawDraft draws a preset that was edited.
func drawDraft(t *rapid.T) setup.Draft {
	d := rapid.SampledFrom(setup.Presets()).Draw(t, "preset").Draft()
	d.Initials = rapid.SampledFrom([]string{"", "ek"}).Draw(t, "initials")
	d.Title = rapid.StringMatching(`[A-Za-z ]{1,20}`).Draw(t, "title")
	d.SetForm(rapid.SampledFrom([]string{plan.Inline, plan.Vee, plan.Flat}).Draw(t, "form"))
	d.SetCylinders(rapid.SampledFrom(setup.CylinderCounts(d.Layout.Form)).Draw(t, "cylinders"))
	if d.Layout.Form == plan.Vee {
		d.SetShared(rapid.Bool().Draw(t, "shared"))
	}
	d.SetLead(rapid.SampledFrom([]string{plan.LeftBank, plan.RightBank}).Draw(t, "lead"))
	d.SetNumbering(rapid.SampledFrom(plan.Schemes()).Draw(t, "numbering"))
	d.SetMains(rapid.IntRange(1, 17).Draw(t, "mains"))
	d.SetUnit(rapid.SampledFrom([]length.Unit{length.In, length.MM}).Draw(t, "unit"))
	for i := range d.Families {
		f := &d.Families[i]
		if !f.Measured {
			continue
		}
		d.SetLevels(f.Family, rapid.IntRange(1, 6).Draw(t, "levels"))
		f.SetDirections(rapid.IntRange(1, 4).Draw(t, "directions"))
		f.SetGauge(rapid.SampledFrom([]string{gauge.Comparator, gauge.Direct}).Draw(t, "kind"), d.Unit)
		f.SetNominal(length.Written{Length: length.Length(rapid.Int64Range(60_000, 90_000).Draw(t, "nominal")) * length.Micrometre, Unit: length.MM, Places: 3})
		f.SetJudge(rapid.SampledFrom([]string{"", limit.New, limit.Wear}).Draw(t, "judge"))
	}
	return enginetest.Mastered(d)
}
