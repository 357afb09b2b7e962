package record

import (
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// prepStream is a session with a short prep list: plugs out, wash, plugs in.
func prepStream(t *testing.T, then ...Body) []Sealed {
	t.Helper()
	l := plan.Default(plan.Inline, 4, false)
	l.Labels = map[string][]string{"cylinders": {"A", "B", "C", "D"}}
	list := prep.List{
		{ID: "out", Name: "plugs out", Text: strings.Repeat("long ", 99), Kind: prep.Counted, Tally: "plugs", Way: prep.Out},
		{ID: "wash", Name: "wash", Kind: prep.Once, On: prep.Block, Metal: true, NotBefore: []string{"out"}},
		{ID: "in", Name: "plugs in", Kind: prep.Counted, Tally: "plugs", Way: prep.In, NotBefore: []string{"wash"}},
	}
	bodies := []Body{
		Details{UID: "u1", Unit: length.MM},
		Layout{l},
		Work{Did: "bored", To: []plan.Feature{featureOf("bore/1")}, Metal: true},
		Steps{List: list},
		Done{prep.Tick{Step: "out", Way: prep.Out, Count: 11}},
		Done{prep.Tick{Step: "wash"}},
		Done{prep.Tick{Step: "in", Way: prep.In, Count: 10}},
	}
	return stream(t, append(bodies, then...)...)
}

func TestAHeadingSaysWhatIsNotReady(t *testing.T) {
	bore := []plan.Feature{featureOf("bore/2")}
	for name, x := range map[string]struct {
		then []Body
		want string
	}{
		"ten of eleven":   {nil, "not ready: 1 of 11 plugs not back; 1 of 3 steps open"},
		"all back":        {[]Body{Done{prep.Tick{Step: "in", Way: prep.In, Count: 11}}}, ""},
		"count withdrawn": {[]Body{Withdrawn{Event: 7}}, "not ready: 11 of 11 plugs not back; 1 of 3 steps open"},
		"brought back":    {[]Body{Withdrawn{Event: 7}, Withdrawn{Event: 8}}, "not ready: 1 of 11 plugs not back; 1 of 3 steps open"},
		"honed": {
			[]Body{Work{Did: "honed", To: bore, Changes: bore, Metal: true}},
			"not ready: 11 plugs to count in again; wash withdrawn by work on bore B, and 1 more; 2 of 3 steps open",
		},
		"honed, not so":  {[]Body{Work{Did: "honed", To: bore, Metal: true}, Withdrawn{Event: 8}}, "not ready: 1 of 11 plugs not back; 1 of 3 steps open"},
		"wiped":          {[]Body{Work{Did: "wiped", To: bore}}, "not ready: 1 of 11 plugs not back; 1 of 3 steps open"},
		"list taken off": {[]Body{Steps{}}, ""},
	} {
		if got := fold(t, prepStream(t, x.then...)).NotReady(); got != x.want {
			t.Errorf("%s: %q, want %q", name, got, x.want)
		}
	}
}

func TestAHeadingKeepsNoLongTextsOfThePrep(t *testing.T) {
	h := fold(t, prepStream(t))
	if len(h.Prep) != 4 || h.Prep[0].Fact.List[0].Text != "" {
		t.Errorf("the heading keeps %d facts, the first of them with %q", len(h.Prep), h.Prep[0].Fact.List[0].Text)
	}
	if h := fold(t, stream(t, Details{UID: "u1", Unit: length.MM})); h.Prep != nil || h.NotReady() != "" {
		t.Errorf("without a list the heading has %+v", h.Prep)
	}
}
