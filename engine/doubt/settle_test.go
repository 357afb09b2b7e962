package doubt_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// tenths returns a gauge's reading to 0.0001 in without any master's doubt.
func tenths(key string, s Estimate) Reading {
	return Reading{Key: key, Gauge: key[:4], Step: length.Of(length.Inch / 10_000), Repeat: s}
}

func clearance(s Estimate) Figure {
	return Of(tenths("bore/1", s)).Less(Of(tenths("piston/1", s)))
}

func settled(tb testing.TB, f Figure, distance string) Settlement {
	tb.Helper()
	s, err := f.Settle(readings(tb, length.In, distance)[0], Coverage{})
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// A clearance 0.00005 in inside its limit with 0.0001 in gauges: no number of
// readings settles that.
func TestTooCloseForTheGauge(t *testing.T) {
	for name, s := range map[string]Estimate{"no repeats": {}, "s 0.0001 in": {S: tenth, DF: 30}} {
		got := settled(t, clearance(s), "0.00005")
		if !got.Finer || !got.Never || got.More != 0 || got.Settled() {
			t.Errorf("%s: %+v", name, got)
		}
		want := "no number of readings will settle it, use a finer gauge: 0.00008 in stays, most of it the gauge's step (bore)"
		if text := got.Sentence(length.In); text != want {
			t.Errorf("%s: %q, want %q", name, text, want)
		}
	}
}

// A clearance 0.00012 in inside its limit with a pooled s of 0.0001 in: so many
// more readings settle it, and one fewer does not.
func TestSoManyReadingsSettleIt(t *testing.T) {
	s := Estimate{S: tenth, DF: 30}
	got := settled(t, clearance(s), "0.00012")
	if got.Finer || got.More != 5 || got.Places != 2 {
		t.Errorf("%+v, want 5 more at each of 2 places", got)
	}
	if text, want := got.Sentence(length.In), "5 more readings at each of the 2 places would settle it, if they read the same"; text != want {
		t.Errorf("%q, want %q", text, want)
	}
}

func TestSettlementsSay(t *testing.T) {
	s := Estimate{S: tenth, DF: 30}
	one := Of(tenths("bore/1", s))
	for distance, want := range map[string]string{
		"0.00021":   "",
		"0.0002":    "1 more reading at this place would settle it, if they read the same",
		"-0.00015":  "1 more reading at this place would settle it, if they read the same",
		"0.00012":   "2 more readings at this place would settle it, if they read the same",
		"0":         "no number of readings will settle it, use a finer gauge: 0.00006 in stays, most of it the gauge's step (bore)",
		"0.0000565": "no number of readings will settle it, use a finer gauge: 0.00006 in stays, most of it the gauge's step (bore)",
	} {
		got := settled(t, one, distance)
		if text := got.Sentence(length.In); text != want {
			t.Errorf("%s in: %q, want %q", distance, text, want)
		}
		if got.Settled() != (want == "") {
			t.Errorf("%s in: settled %v", distance, got.Settled())
		}
	}
	shaky := Of(Reading{Key: "a", Repeat: Estimate{S: tenth, DF: 30}})
	if text := settled(t, shaky, "0.00001").Sentence(length.In); !strings.HasPrefix(text, "it would take more than 99 more readings") {
		t.Errorf("%q", text)
	}
	if got := settled(t, shaky, "0"); !got.Finer || got.Never || got.Most != "" {
		t.Errorf("on the limit, with a gauge without a step: %+v", got)
	}
	if got := settled(t, Figure{}, "0"); !got.Settled() {
		t.Errorf("of no readings: %+v", got)
	}
}

// What settles a figure is enough, and one fewer is not; where it takes a finer
// gauge, very many readings are not enough either.
func TestSettleIsTheFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Estimate{S: rapid.Float64Range(0, 5*tenth).Draw(t, "s"), DF: rapid.IntRange(1, 40).Draw(t, "df")}
		step := length.Length(rapid.Int64Range(0, int64(2*tenth)).Draw(t, "step"))
		distance := length.Length(rapid.Int64Range(0, int64(10*tenth)).Draw(t, "distance"))
		of := func(more int) Figure {
			a := Reading{Key: "a", Gauge: "g", Step: length.Of(step), Repeat: s, Count: 1 + more}
			b := a
			b.Key, b.Common = "b", []Contribution{Master("m", 1000)}
			return Of(a).Less(Of(b))
		}
		got, err := of(0).Settle(distance, Coverage{})
		if err != nil {
			t.Fatal(err)
		}
		clear := func(more int) bool { return budget(t, of(more)).Guard(Coverage{}) <= distance }
		if got.Finer && (clear(0) || clear(50) || clear(99)) || got.Never && clear(1_000_000) {
			t.Errorf("%+v, but readings do", got)
		}
		if !got.Finer && (!clear(got.More) || got.More > 0 && clear(got.More-1)) {
			t.Errorf("%+v is not the fewest", got)
		}
	})
}
