package prep_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

func TestEveryStepSaysWhatToDoAndWhoSaysSo(t *testing.T) {
	ids := map[string]bool{}
	for _, e := range engines {
		for _, s := range prep.Catalogue(e) {
			ids[s.ID] = true
			if s.Name == "" || s.Text == "" || s.Source == "" {
				t.Errorf("%s has name %q, text %q, source %q", s.ID, s.Name, s.Text, s.Source)
			}
			if len(s.Name) > 26 || len(s.Text) > 120 {
				t.Errorf("%s is too long: %q %q", s.ID, s.Name, s.Text)
			}
			for _, c := range s.Cautions {
				if s.Caution(c) == c {
					t.Errorf("%s names a caution that says nothing: %q", s.ID, c)
				}
			}
			if s.Low != "" && !strings.HasSuffix(s.Low, " "+s.Unit) {
				t.Errorf("%s has limit %q in %q", s.ID, s.Low, s.Unit)
			}
		}
	}
	for _, p := range prep.Presets() {
		if p.Name == "" || p.About == "" || len(p.List(six)) == 0 {
			t.Errorf("preset %s says nothing: %+v", p.ID, p)
		}
	}
	for _, p := range prep.Pairs() {
		if !ids[p.First] || !ids[p.Then] || p.Source == "" {
			t.Errorf("pair %+v names no step", p)
		}
	}
}

// Where the work can hurt, the step says so.
func TestCautionsStandWhereWorkCanHurt(t *testing.T) {
	all := prep.Catalogue(six)
	for id, want := range map[string]string{
		prep.Wash: prep.Pressure, prep.Degrease: prep.Solvents, prep.Dry: prep.Air, prep.DeburrBores: prep.Grinding,
		prep.CamIn: prep.Hammered, prep.CoreIn: prep.Hammered, prep.CapsOut: prep.Lifting, prep.CrankFree: prep.Turning,
		prep.CrankWash: prep.Pressure, prep.CrankHoles: prep.Grinding,
	} {
		s, _, _ := all.Find(id)
		if !slices.Contains(s.Cautions, want) {
			t.Errorf("%s cautions of %v, not of %s", id, s.Cautions, want)
		}
	}
	if (prep.Step{}).Caution("hot oil") != "hot oil" {
		t.Error("a caution of the list's own is lost")
	}
}

// A step on a crank speaks of the crank that is lifted, one on a block of the
// block.
func TestLiftingNamesWhatIsLifted(t *testing.T) {
	for _, s := range prep.Catalogue(six) {
		if !slices.Contains(s.Cautions, prep.Lifting) {
			continue
		}
		if text := s.Caution(prep.Lifting); !strings.Contains(text, string(s.On)) {
			t.Errorf("%s, on the %s, cautions: %s", s.ID, s.On, text)
		}
	}
}

func TestPlacesFollowTheEngine(t *testing.T) {
	l := preset(t, "new-block").List(engines[1])
	s, _, _ := l.Find(prep.DeburrBores)
	if len(s.Places) != 16 || s.Places[0] != "bore/1 top" || s.Places[15] != "bore/8 bottom" {
		t.Errorf("eight bores are deburred at %v", s.Places)
	}
	s, _, _ = l.Find(prep.OilGalleries)
	if want := []string{"main gallery", "left lifter gallery", "right lifter gallery"}; !slices.Equal(s.Places, want) {
		t.Errorf("a vee has galleries %v", s.Places)
	}
	s, _, _ = l.Find(prep.CamSeat)
	if s.Unit != "mm" || s.Low != "0.02 mm" || !s.Signed() {
		t.Errorf("the seat is in %q, at least %q", s.Unit, s.Low)
	}
	if _, _, ok := preset(t, "new-block").List(engines[2]).Find(prep.CamIn); ok {
		t.Error("an engine without cam bearings drives some in")
	}
	s, _, _ = preset(t, "used-block").List(engines[3]).Find(prep.CapsOut)
	if s.Count != 2 {
		t.Errorf("a flat two has %d caps", s.Count)
	}
}

func TestSpots(t *testing.T) {
	l := plan.Default(plan.Vee, 4, true)
	l.Labels = map[string][]string{"cylinders": {"L1", "L2", "R1", "R2"}}
	for text, name := range map[string]string{
		"bore/3 top": "bore R1 top", "cam-bearing/2": "cam bearing 2", "rod notches": "rod notches", "bore/x top": "bore/x top", "": "",
	} {
		p := prep.SpotOf(text)
		if p.Name(l) != name || p.String() != text {
			t.Errorf("%q is %q and writes %q", text, p.Name(l), p.String())
		}
	}
}

func TestWhatIsNoList(t *testing.T) {
	ok := prep.Step{ID: "a", Name: "a", Kind: prep.Once}
	with := func(change func(*prep.Step)) prep.List {
		s := ok
		change(&s)
		return prep.List{s}
	}
	for want, l := range map[string]prep.List{
		`step "a": it stands twice in the list`:                    {ok, ok},
		`step "a": it would have to come before itself`:            with(func(s *prep.Step) { s.NotBefore = []string{"a"} }),
		`step "a": not before "b", which is no step of the list`:   with(func(s *prep.Step) { s.NotBefore = []string{"b"} }),
		`step "a": no kind of step is called "tick"`:               with(func(s *prep.Step) { s.Kind = "tick" }),
		`step "a": a step per place names its places`:              with(func(s *prep.Step) { s.Kind = prep.PerPlace }),
		`step "a": a choice names its choices`:                     with(func(s *prep.Step) { s.Kind = prep.Choice }),
		`step "a": what is counted goes out or in, not "up"`:       with(func(s *prep.Step) { s.Kind, s.Way = prep.Counted, "up" }),
		`step "a": a way and what is counted that way go together`: with(func(s *prep.Step) { s.Kind, s.Way = prep.Counted, prep.Out }),
		`step "a": -1 is no count`:                                 with(func(s *prep.Step) { s.Kind, s.Count = prep.Counted, -1 }),
		`step "a": limit "5 mm": 5 mm is in mm, not in in`:         with(func(s *prep.Step) { s.Kind, s.Unit, s.Low = prep.Value, "in", "5 mm" }),
		`step "a": "head" is no part`:                              with(func(s *prep.Step) { s.On = "head" }),
		`step "a": the place "x" stands twice`:                     with(func(s *prep.Step) { s.Places = []string{"x", "x"} }),
		`prep list: a step has an id`:                              with(func(s *prep.Step) { s.ID = "" }),
		`step "a": it has 201 places, at most 200 are taken`:       with(func(s *prep.Step) { s.Places = make([]string, 201) }),
		`prep list: it has 201 steps, at most 200 are taken`:       make(prep.List, 201),
	} {
		err := l.Validate()
		if x := (*prep.InvalidError)(nil); !errors.As(err, &x) || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
	ring := prep.List{{ID: "a", Kind: prep.Once, NotBefore: []string{"b"}}, {ID: "b", Kind: prep.Once, NotBefore: []string{"a"}}}
	if ring.Validate() == nil {
		t.Error("two steps before one another are a list")
	}
}

func TestTakingAStepOutKeepsTheOrderThroughIt(t *testing.T) {
	l := preset(t, "new-block").List(six)
	for _, id := range []string{prep.Dry, prep.Brush, prep.CamIn, prep.CoreIn} {
		var err error
		if l, err = l.Without(id); err != nil {
			t.Fatal(err)
		}
	}
	if err := l.Validate(); err != nil {
		t.Error(err)
	}
	for _, p := range [][2]string{{prep.Wash, prep.Oil}, {prep.PlugsOut, prep.Wash}, {prep.Oil, prep.CamFeed}, {prep.CamFeed, prep.PlugsIn}} {
		if !l.Resting(p[0])[p[1]] {
			t.Errorf("%s no longer waits for %s", p[1], p[0])
		}
	}
	if _, err := l.Without("nothing"); err == nil {
		t.Error("a step that is not there was taken out")
	}
	own := prep.Step{ID: l.FreshID(), Name: "bores scraped", Kind: prep.Once, NotBefore: []string{prep.Wash}}
	l, err := l.Set(own)
	if err != nil || l[len(l)-1].ID != own.ID || l.FreshID() == own.ID {
		t.Errorf("a step of one's own: %v", err)
	}
	again := l.With(six, prep.Dry)
	if s, at, _ := again.Find(prep.Dry); at == 0 || !slices.Contains(s.NotBefore, prep.Wash) {
		t.Errorf("dry comes back at %d, behind %v", at, s.NotBefore)
	}
	if s, _, _ := again.Find(own.ID); !slices.Equal(s.NotBefore, own.NotBefore) {
		t.Errorf("one's own step now waits for %v", s.NotBefore)
	}
}

func TestListsAreStoredAsTheyStand(t *testing.T) {
	for name, l := range lists() {
		data, err := json.Marshal(l.List)
		if err != nil {
			t.Fatal(err)
		}
		var again prep.List
		if err := json.Unmarshal(data, &again); err != nil || !reflect.DeepEqual(again, l.List) {
			t.Errorf("%s is read again as something else: %v", name, err)
		}
		if len(data) > 64<<10 {
			t.Errorf("%s takes %d bytes", name, len(data))
		}
	}
}

func TestBriefKeepsWhatTheStateNeeds(t *testing.T) {
	list := preset(t, "used-block").List(six)
	long, brief := newBench(t, six, list), newBench(t, six, list)
	brief.add(prep.Fact{Set: true, List: list.Brief()})
	for _, b := range []*bench{long, brief} {
		for _, id := range []string{prep.CapsOut, prep.PlugsOut, prep.CoreOut, prep.CamsOut, prep.Degrease, prep.OilLifters} {
			x := prep.Tick{Step: id}
			s := b.step(id)
			if s.Kind == prep.Counted {
				x.Way, x.Count = s.Way, 7
			}
			if s.Kind == prep.Choice {
				x.Choice = prep.Solid
			}
			b.add(prep.Fact{Tick: &x})
		}
	}
	if !brief.now.Done(prep.OilLifters) || long.notReady() != brief.notReady() || !strings.Contains(brief.notReady(), "7 of 7 gallery plugs not back") {
		t.Errorf("the brief list says %q, the whole one %q", brief.notReady(), long.notReady())
	}
}

func TestUnitsOfTheSession(t *testing.T) {
	for unit, want := range map[length.Unit]string{length.In: "ft lb", length.UIn: "ft lb", length.MM: "N m", length.UM: "N m"} {
		s, _, _ := prep.Catalogue(prep.For{Layout: six.Layout, Unit: unit}).Find(prep.CapTorque)
		if s.Unit != want {
			t.Errorf("torque is in %s for %v", s.Unit, unit)
		}
	}
}
