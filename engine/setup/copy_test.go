package setup_test

import (
	"fmt"
	"reflect"
	"strings"
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

// source is a session with everything that a copy has to carry over, or leave.
func source(t *testing.T) *engine.Session {
	t.Helper()
	s, _ := started(t)
	spare := s.Instruments()[0]
	spare.ID, spare.Name = "spare", "the other bore gauge"
	enginetest.Apply(t, s,
		record.Limit{Limits: limit.Limits{On: limit.Size, Of: "bore/2", New: limit.Range{High: enginetest.Written(t, "92.5 mm")}}},
		record.Rules{Unit: length.In, Judge: limit.Wear, StaleHours: 12},
		record.Given{Name: "stroke", Value: "70.4 mm"},
		record.Given{Name: "stroke", Value: "70.5 mm"},
		record.Given{Name: "chamber volume", Of: "bore/2", Value: "41.2 cm3"},
		record.Table{Name: record.Ladder, Of: "bore", Rows: []map[string]string{{"step": "0.25 mm"}}},
		record.Instrument{Instrument: spare},
		record.Note{Text: "liner 2 is new"},
		record.State{State: record.Archived},
	)
	return s
}

// begunCopy begins a session from a copy, with the masters that it asks for.
func begunCopy(t *testing.T, d setup.Draft) *engine.Session {
	t.Helper()
	bodies, err := enginetest.Mastered(d).Events("next")
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay(enginetest.Seal(t, nil, "ek", bodies))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestACopyIsSetUpAsItsSource(t *testing.T) {
	from := source(t)
	s := begunCopy(t, setup.CopyOf(from))
	if !reflect.DeepEqual(s.Layout(), from.Layout()) || !reflect.DeepEqual(s.Plan(), from.Plan()) {
		t.Error("layout and plan are not the source's")
	}
	if got, want := limitSet(s), limitSet(from); !reflect.DeepEqual(got, want) {
		t.Errorf("limits are %v, want %v", got, want)
	}
	if got, want := gaugeSet(s), gaugeSet(from); !reflect.DeepEqual(got, want) {
		t.Errorf("gauges are %v, want %v", got, want)
	}
	if r := s.Rules(); r.Judge != limit.Wear || r.StaleHours != 12 || r.Unit != length.NoUnit || s.Unit() != length.In {
		t.Errorf("rules are %+v, the unit %s", r, s.Unit())
	}
	var rest []string
	for _, e := range s.Events() {
		switch b := e.Body.(type) {
		case record.Given:
			rest = append(rest, b.Name+" "+b.Value)
		case record.Table:
			rest = append(rest, b.Name)
		case record.Note, record.State, record.Reading:
			rest = append(rest, string(b.Is()))
		}
	}
	if got := strings.Join(rest, ", "); got != "stroke 70.5 mm, ladder" {
		t.Errorf("besides it has %s", got)
	}
}

func limitSet(s *engine.Session) map[limit.Limits]bool {
	out := map[limit.Limits]bool{}
	for _, l := range s.Limits() {
		out[l] = true
	}
	return out
}

func gaugeSet(s *engine.Session) map[gauge.Instrument]bool {
	out := map[gauge.Instrument]bool{}
	for _, i := range s.Instruments() {
		out[i] = true
	}
	return out
}

func TestACopyNamesItsSourceAndNoOwner(t *testing.T) {
	from := source(t)
	d := setup.CopyOf(from)
	x := begunCopy(t, d).Details()
	want := fmt.Sprintf("%d %s", from.Head().N, from.Head().Hash)
	if x.UID != "next" || x.Copied != want || x.Earlier != "" || x.Customer != "" || x.Engine != from.Details().Engine {
		t.Errorf("the next engine's details are %+v, want copied %q", x, want)
	}
	d.SameEngine = true
	if x := begunCopy(t, d).Details(); x.Earlier != "abc" || x.Copied != want {
		t.Errorf("the same engine's details are %+v", x)
	}
	if x := enginetest.Begun(t, enginetest.Mastered(setup.Presets()[0].Draft())).Details(); x.Copied != "" || x.Earlier != "" {
		t.Errorf("what was copied from nothing has %+v", x)
	}
}

func TestEveryGaugeOfACopyIsZeroedAnew(t *testing.T) {
	from := source(t)
	x := from.Settings()[0]
	x.On, x.Doubt = gauge.OnBlocks, enginetest.Written(t, "0.001 mm")
	enginetest.Apply(t, from, record.Setting{Setting: x})
	d := setup.CopyOf(from)
	for _, f := range d.Measured() {
		if !f.Setting.Size.IsZero() || !f.Setting.Doubt.IsZero() || f.Set.At != (gauge.Temperatures{}) {
			t.Errorf("%s: %+v, %+v", f.Family, f.Setting, f.Set)
		}
	}
	if ps := d.Check(); len(ps) != 1 || ps[0].Field != "bore.master" {
		t.Errorf("a copy lacks %v, want the first master alone", ps)
	}
	if on := d.Of(plan.Bore).Setting.On; on != gauge.OnBlocks {
		t.Errorf("the bore gauge is zeroed on a %s", on)
	}
	x.On, x.Feature = gauge.OnFeature, "bore/1"
	enginetest.Apply(t, from, record.Setting{Setting: x})
	d = setup.CopyOf(from)
	if f := d.Of(plan.Bore); f.Setting.On != gauge.OnRing || f.Setting.Feature != "" {
		t.Errorf("a gauge set on a feature of the first engine is set on %+v", f.Setting)
	}
}

func TestALimitOfAFeatureThatIsGoneIsLeftOut(t *testing.T) {
	from := source(t)
	enginetest.Apply(t, from, record.Limit{Limits: limit.Limits{On: limit.Size, Of: "bore/4", New: limit.Range{High: enginetest.Written(t, "92.6 mm")}}})
	d := setup.CopyOf(from)
	d.SetCylinders(2)
	for l := range limitSet(begunCopy(t, d)) {
		if l.Of == "bore/4" {
			t.Errorf("an engine of two bores has limits of the fourth: %+v", l)
		}
	}
}

// Copying leaves the source as it is, and a copy of a copy is set up alike.
func TestACopyOfACopy(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		p := setup.Presets()[rapid.IntRange(0, len(setup.Presets())-1).Draw(r, "preset")]
		from := enginetest.Begun(t, enginetest.Mastered(p.Draft()))
		before := len(from.Events())
		once := begunCopy(t, setup.CopyOf(from))
		twice := begunCopy(t, setup.CopyOf(once))
		if len(from.Events()) != before {
			t.Fatal("the source changed")
		}
		a, b := once.Events(), twice.Events()
		if len(a) != len(b) {
			t.Fatalf("%d events, and %d of a copy of it", len(a), len(b))
		}
		for i := range a[1:] {
			if !reflect.DeepEqual(a[i+1].Body, b[i+1].Body) {
				t.Fatalf("event %d: %+v and %+v", i+2, a[i+1].Body, b[i+1].Body)
			}
		}
	})
}
