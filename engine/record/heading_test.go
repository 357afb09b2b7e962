package record

import (
	"encoding/json"
	"reflect"
	"testing"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// fold makes the heading of a stream, and checks that it survives being kept.
func fold(t *testing.T, events []Sealed) Heading {
	t.Helper()
	var h Heading
	for _, e := range events {
		before, err := json.Marshal(h)
		if err != nil {
			t.Fatal(err)
		}
		next := h.Apply(e)
		if after, _ := json.Marshal(h); string(after) != string(before) {
			t.Errorf("event %d changed the heading it was applied to", e.N)
		}
		h = next
	}
	kept, err := json.Marshal(h)
	if err != nil {
		t.Fatal(err)
	}
	var again Heading
	if err := json.Unmarshal(kept, &again); err != nil || !reflect.DeepEqual(again, h) {
		t.Errorf("the heading\n%+v\nis read again as\n%+v, %v", h, again, err)
	}
	return h
}

func TestHeading(t *testing.T) {
	v4 := plan.Default(plan.Vee, 4, true)
	v4.Labels = map[string][]string{"cylinders": {"L1", "L2", "R1", "R2"}}
	relabelled := v4
	relabelled.Labels = map[string][]string{"cylinders": {"1", "3", "2", "4"}}
	first := Reading{Of: featureOf("bore/2"), Level: "a", Dir: "across", Keyed: "67.1", Via: ViaKeypad, Size: written("67.1 mm"), As: First}
	second := first
	second.Dir, second.Keyed = "along", "67.2"
	events := stream(t,
		Details{UID: "u1", Title: "Launch", Customer: "Pier 4", Engine: "six", Unit: length.MM},
		Layout{v4}, first, second, Layout{relabelled}, Note{Text: "x"})
	h := fold(t, events)
	want := Heading{
		UID: "u1", Title: "Launch", Customer: "Pier 4", Engine: "six", Unit: length.MM,
		Started: at, Last: at.Add(5 * time.Minute), Head: events[5].Head,
		LastPlace: second.Place(), LastLabel: "L2", LastKeyed: "67.2", LastAt: at.Add(3 * time.Minute),
		LastMark: Mark{N: 4}, Readings: 2, Labels: relabelled.Labels,
	}
	if !reflect.DeepEqual(h, want) {
		t.Errorf("the heading is\n%+v\nnot\n%+v", h, want)
	}

	elsewhere := plan.Place{Of: featureOf("bore/3"), Level: "b", Dir: "along"}
	events = append(events, stream(t, Note{Text: "x"}, Note{Text: "x"}, Note{Text: "x"}, Note{Text: "x"}, Note{Text: "x"}, Note{Text: "x"},
		Moved{Readings: []int64{3, 4}, Places: []plan.Place{first.Place(), elsewhere}}, Withdrawn{Event: 4})[6:]...)
	h = fold(t, events)
	if h.LastPlace != elsewhere || h.LastLabel != "2" || h.LastKeyed != "67.2" || h.Readings != 2 {
		t.Errorf("after the move the last reading is %q at %+v, called %q", h.LastKeyed, h.LastPlace, h.LastLabel)
	}
	if h.LastMark != (Mark{N: 4, By: 8, Off: true}) {
		t.Errorf("the withdrawn reading is marked %+v", h.LastMark)
	}
}

func TestHeadingState(t *testing.T) {
	for _, c := range []struct {
		name   string
		bodies []Body
		want   string
	}{
		{"open", nil, ""},
		{"closed", []Body{State{Closed}}, Closed},
		{"reopened", []Body{State{Closed}, State{Reopened}}, ""},
		{"archived", []Body{State{Archived}}, Archived},
		{"archived when closed", []Body{State{Closed}, State{Archived}}, Archived},
		{"restored when closed", []Body{State{Closed}, State{Archived}, State{Restored}}, Closed},
		{"restored when open", []Body{State{Archived}, State{Restored}}, ""},
		{"closing withdrawn", []Body{State{Closed}, Withdrawn{Event: 2}}, ""},
		{"closing brought back", []Body{State{Closed}, Withdrawn{Event: 2}, Withdrawn{Event: 3}}, Closed},
		{"withdrawn once more", []Body{State{Closed}, Withdrawn{Event: 2}, Withdrawn{Event: 3}, Withdrawn{Event: 4}}, ""},
		{"withdrawn afresh", []Body{State{Closed}, Withdrawn{Event: 2}, Withdrawn{Event: 3}, Withdrawn{Event: 2}}, ""},
		{"reopening withdrawn", []Body{State{Closed}, State{Reopened}, Withdrawn{Event: 3}}, Closed},
		{"another withdrawn", []Body{State{Closed}, Note{Text: "x"}, Withdrawn{Event: 3}}, Closed},
	} {
		if got := fold(t, stream(t, append([]Body{Details{UID: "u1", Unit: length.MM}}, c.bodies...)...)).State; got != c.want {
			t.Errorf("%s: the state is %q, not %q", c.name, got, c.want)
		}
	}
}

func TestHeadingUnmarshalRefuses(t *testing.T) {
	var h Heading
	if err := json.Unmarshal([]byte(`{"started":"yesterday"}`), &h); err == nil {
		t.Errorf("a time that is none gives %+v", h)
	}
}
