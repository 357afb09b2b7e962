package tui

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestEveryLabelHasANumberOfItsOwn(t *testing.T) {
	for labels, want := range map[string]string{
		"1 2 3":       "1 2 3",
		"A4 A3 B4 B3": "1 2 3 4",
		"2 4 1 3":     "2 4 1 3",
		"2 3 X":       "2 3 1",
		"X 1 Y":       "2 1 3",
		"front 3 4":   "1 3 4",
	} {
		if got := strings.Join(keypadNumbers(strings.Fields(labels)), " "); got != want {
			t.Errorf("%s are keyed as %s, want %s", labels, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		label := rapid.OneOf(rapid.StringMatching(`[1-9]`), rapid.StringMatching(`[A-C][1-9]?`))
		labels := rapid.SliceOfNDistinct(label, 1, 9, rapid.ID[string]).Draw(t, "labels")
		l := plan.Default(plan.Inline, min(8, len(labels)), false)
		l.Labels = map[string][]string{"cylinders": labels[:l.Cylinders]}
		for i, n := range keypadNumbers(labels[:l.Cylinders]) {
			for _, called := range []string{n, labels[i]} {
				if f, ok := labelled(l, plan.Bore, called); !ok || f.At != i+1 {
					t.Fatalf("%q of %v leads to %v", called, labels, f)
				}
			}
		}
	})
}

// lettered labels the bores of the launch with letters and goes back to it.
func lettered(t *testing.T) (*setupBench, *measure) {
	t.Helper()
	b := newSetupBench(t, "launch")
	b.press("<enter>")
	m := top[*measure](b.station)
	l := m.desk.Session.Layout()
	l.Labels = map[string][]string{"cylinders": {"A1", "A2", "A3", "B1", "B2", "w"}}
	if err := m.desk.Record(record.Layout{Layout: l}); err != nil {
		t.Fatal(err)
	}
	return b, m
}

func TestGoToByLabel(t *testing.T) {
	b, m := lettered(t)
	bores := 1 + slices.IndexFunc(m.desk.Session.Plan().Families, func(g plan.Group) bool { return g.Family == plan.Bore })
	for _, c := range []struct{ keyed, want string }{
		{"A2", "bore A2"},
		{"b1", "bore B1"},
		{"W", "bore w"},
		{"1", "bore A1"},
		{"6", "bore w"},
		{"1.3", "main journal 3"},
		{"2", "main journal 2"},
		{strconv.Itoa(bores) + ",w", "bore w"},
	} {
		b.press("/", "8", c.keyed, "<enter>")
		if got := m.desk.Session.Name(m.place.Of); got != c.want {
			t.Errorf("%s leads to %s, want %s (%s)", c.keyed, got, c.want, b.st.status.text)
		}
	}
	for keyed, want := range map[string]string{"C9": "there is no bore C9", "7": "there is no bore 7", "9.1": "the plan has families 1 to"} {
		b.press("/", "8", keyed, "<enter>")
		b.see(want)
	}
	top[*measure](b.station)
}

func TestTheListOfLabelsIsShown(t *testing.T) {
	b, _ := lettered(t)
	b.press("/", "8")
	b.see("go to which bore? 1 is A1, 2 is A2, 3 is A3, 4 is")
	b.see("B1, 5 is B2, 6 is w. With a point, first the family:")
	b.press("/")
	b.press("w")
	top[*worst](b.station)
}
