package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// topic returns a table of a session by its title.
func topic(t *testing.T, s *engine.Session, title string) engine.TableTopic {
	t.Helper()
	for _, x := range s.TableTopics() {
		if x.Title == title {
			return x
		}
	}
	t.Fatalf("there is no table %q", title)
	return engine.TableTopic{}
}

// What is shown of every table is what it is made of again.
func TestTablesAreReadBackAsTheyStand(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	for _, x := range s.TableTopics() {
		before := s.TableText(x)
		b, err := s.TableBody(x, append(s.TableRows(x), map[string]string{"name": " "}))
		if err != nil {
			t.Fatalf("%s: %v", x.Title, err)
		}
		if after := recorded(t, s, b); after.TableText(x) != before {
			t.Errorf("%s is %q, and kept as it is %q", x.Title, before, after.TableText(x))
		}
	}
	want(t, s.TableText(topic(t, s, "shells on hand, main bearings")), "0.001 extra × 2; standard × 4")
}

func recorded(t *testing.T, s *engine.Session, bodies ...record.Body) *engine.Session {
	t.Helper()
	out, err := engine.Replay(enginetest.Seal(t, s.Events(), "ek", bodies))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Locks are keyed by the labels that the bench has, and kept by position: label
// 2 of a vee eight whose left bank is 1, 3, 5, 7 stands fifth.
func TestLocksAreKeyedByLabel(t *testing.T) {
	t.Parallel()
	l := plan.Default(plan.Vee, 8, true)
	l.Labels = map[string][]string{"cylinders": {"1", "3", "5", "7", "2", "4", "6", "8"}}
	s := replay(t, bareSession(t, l, nil, group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across")))
	x := topic(t, s, "where pistons may be")
	b, err := s.TableBody(x, []map[string]string{{"part": "2", "only": "2, 4"}, {"part": "3", "only": "3"}, {"part": "5"}})
	if err != nil {
		t.Fatal(err)
	}
	got := fmt.Sprint(b.(record.Table).Rows)
	if got != "[map[only:5 6 part:5] map[at:2 part:2] map[part:3]]" {
		t.Errorf("kept as %s", got)
	}
	if text := recorded(t, s, b).TableText(x); text != "2 only at 2 4; 3 only at 3; 5 stays" {
		t.Errorf("shown as %q", text)
	}
}

func TestTablesSayWhatIsWrongWithARow(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	for _, c := range []struct {
		title string
		row   map[string]string
		says  string
	}{
		{"shells on hand, main bearings", map[string]string{"name": "odd", "count": "2"}, "row 1 of the shells on hand for the mains has no undersize"},
		{"shells on hand, main bearings", map[string]string{"undersize": "0.0010 in", "count": "2.5"}, "says not how many there are"},
		{"oversizes of bores", map[string]string{"name": "first"}, "row 1 of the ladder of bores has no step"},
		{"where pistons may be", map[string]string{"part": "9"}, "there is no piston 9"},
		{"where pistons may be", map[string]string{"only": "1"}, "a row says of which one piston it is"},
		{"where pistons may be", map[string]string{"part": "1", "only": "12"}, "there is no piston 12"},
	} {
		_, err := s.TableBody(topic(t, s, c.title), []map[string]string{c.row})
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v, want %q", c.row, err, c.says)
		}
	}
}

// A figure is given, given anew and given no more; what is given no more leaves
// nothing of what was given before.
func TestAFigureIsGivenAndTakenBack(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	target := func(s *engine.Session) string { return s.GivenValue(engine.GivenHoneTarget, "bore") }
	for _, value := range []string{"3.7513 in", "3.7514 in", "", "3.7511 in"} {
		s = recorded(t, s, s.GivenBodies(engine.GivenHoneTarget, "bore", value)...)
		if target(s) != value {
			t.Errorf("the target is %q, want %q", target(s), value)
		}
		if again := s.GivenBodies(engine.GivenHoneTarget, "bore", value); again != nil {
			t.Errorf("given as it is, it records %v", again)
		}
	}
}

// What is given of all counts where nothing is given of the family itself.
func TestWhatIsGivenOfAllIsSaid(t *testing.T) {
	t.Parallel()
	s := one(t, 2, nil, []plan.Group{group(plan.Bore, 1, "across")}, nil, given(engine.GivenHoneTarget, "", "3.7512 in"), given(engine.GivenDish, "", "5"), given(engine.GivenDish, "bore/2", "6"))
	for _, c := range [][3]string{
		{engine.GivenHoneTarget, "bore", "3.7512 in"},
		{engine.GivenHoneTarget, "", ""},
		{engine.GivenFinish, "bore", ""},
		{engine.GivenDish, "bore/1", "5"},
		{engine.GivenDish, "bore/2", ""},
	} {
		if got := s.GivenAround(c[0], c[1]); got != c[2] {
			t.Errorf("%s of %q is %q, want %q", c[0], c[1], got, c[2])
		}
	}
}

// Every field of every topic is a figure that the fits look for, and asked for
// once.
func TestTopicsAskForEachFigureOnce(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	seen := map[string]bool{}
	for _, x := range s.GivenTopics() {
		for _, f := range x.Fields {
			key := f.Name + " of " + f.Of
			if seen[key] && f.Name != engine.GivenExpansion {
				t.Errorf("%s is asked for twice", key)
			}
			seen[key] = true
			value := map[engine.GivenKind]string{engine.GivenLength: "0.0100 in", engine.GivenNumber: "1", engine.GivenFigure: "50 lb ft"}[f.Kind]
			if after := recorded(t, s, s.GivenBodies(f.Name, f.Of, value)...); after.GivenValue(f.Name, f.Of) != value {
				t.Errorf("%s is not given", key)
			}
			if f.Label == "" || f.Why == "" {
				t.Errorf("%s says not what it is", key)
			}
		}
	}
	if len(seen) < 30 {
		t.Errorf("%d figures are asked for", len(seen))
	}
}
