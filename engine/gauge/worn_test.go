package gauge_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// The readings of one bearing and its journal are taken in every order: readings
// ours, under two rules of TM 10-3930-660-34 p. 3-101 and TM 5-3895-370-14&P
// p. 5-272.
func TestABearingAndItsJournalAreTakenInEveryOrder(t *testing.T) {
	bearing, journal := inch(t), inch(t)
	bearing.Nominal, journal.Nominal = written(t, "2.7195 in"), written(t, "2.7160 in")
	journal.Shape = plan.Shaft
	for _, tt := range []struct {
		name     string
		c        gauge.Context
		readings []string
	}{
		{"bearing", bearing, []string{"2.7195", "2.7197", "2.7199"}},
		{"journal", journal, []string{"2.7162", "2.7164", "2.7160", "2.7166"}},
	} {
		permute(tt.readings, func(order []string) {
			c := tt.c
			for _, size := range order {
				for _, keyed := range []string{size, strings.TrimPrefix(size, "2.7")} {
					if r := gauge.Read(keyed, c); r.Kind != gauge.Taken || r.Meaning.At != written(t, size+" in").Length {
						t.Fatalf("%s, order %v: %s is %v: %s", tt.name, order, keyed, r.Kind, r.Reason)
					}
				}
				c.Neighbours = append(c.Neighbours, written(t, size+" in").Exact())
			}
		})
	}
}

// A bore worn by no more than a printed wear limit of 0.15 mm on the overall
// spread (TM 9-6115-670-14&P p. 6-76) is held for one reason only: that with two
// digits swapped a reading would stand right beside another one.
func TestAWornBoreIsHeldForSwappedDigitsAlone(t *testing.T) {
	held, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		low := length.Length(rapid.Int64Range(50_000, 120_000).Draw(t, "nominal")) * length.Micrometre
		c := gauge.Context{
			Instrument: gauge.Instrument{Kind: gauge.Direct, Unit: length.MM, Graduation: graduations[2]},
			Nominal:    length.Written{Length: low, Unit: length.MM, Places: 3},
			Shape:      plan.Hole, Low: &low,
		}
		for range 6 {
			worn := length.Length(rapid.Int64Range(0, 150).Draw(t, "worn")) * length.Micrometre
			size := length.Written{Length: low + worn, Unit: length.MM, Places: 3}
			r := gauge.Read(size.Number(), c)
			all++
			if r.Kind == gauge.Held {
				held++
			}
			if r.Kind != gauge.Taken && r.Slip != gauge.Swapped {
				t.Fatalf("%s in a bore of %s is %v for %q: %s", size, c.Nominal, r.Kind, r.Slip, r.Reason)
			}
			c.Neighbours = append(c.Neighbours, size.Exact())
		}
	})
	if held*20 > all {
		t.Errorf("%d of %d readings of worn bores are held", held, all)
	}
}

// A bore worn past what its limits allow is still measured: each reading that is
// far off can be kept, and then is a neighbour of the next.
func TestAKeptReadingIsANeighbour(t *testing.T) {
	c := inch(t)
	r := gauge.Read("3.7720", c)
	if r.Kind != gauge.Held || !r.CanKeep() {
		t.Fatalf("%+v", r)
	}
	c.Neighbours = []length.Exact{length.Of(r.Meaning.At)}
	for _, keyed := range []string{"3.7715", "3.7690", "3.7741"} {
		if r := gauge.Read(keyed, c); r.Kind != gauge.Taken {
			t.Errorf("%s is %v: %s", keyed, r.Kind, r.Reason)
		}
	}
}

func TestFaultsAreSentences(t *testing.T) {
	i := inch(t).Instrument
	i.Due = "31.12.2026"
	want := `instrument "m1": due "31.12.2026" is not a day such as 2026-11-25`
	if err := i.Validate(); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	s := gauge.Setting{ID: "s1", Instrument: "m1", On: gauge.OnRing}
	want = `setting "s1": size of the master is missing`
	if err := s.Validate(); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func TestWhatIsHeldReadsAsASentence(t *testing.T) {
	c, ladder := inch(t), metric(t)
	c.Neighbours = sizes(t, "in", "3.7503")
	c.Low = at(t, "3.7500 in")
	c.Instrument.Low, c.Instrument.High = written(t, "3.7 in"), written(t, "3.756 in")
	ladder.Ladder = []length.Length{*at(t, "68.000 mm")}
	sent := inch(t)
	sent.Cable, sent.Instrument.Sends = true, gauge.SendsSize
	for _, tt := range []struct {
		keyed, want string
		c           gauge.Context
	}{
		{"3.7530", "3.7530 in lies 0.0027 in from the nearest reading beside it: two digits swapped?", c},
		{"37.503", "37.5030 in lies 33.7527 in from the nearest reading beside it: a shifted point?", c},
		{"95.258", "95.2580 in lies 91.5077 in from the nearest reading beside it: millimetres keyed as inches?", c},
		{"3.7499", "3.7499 in is below the new minimum 3.7500 in, and wear only makes it larger", c},
		{"3.7561", "3.7561 in is above 3.756 in, the largest the instrument reads", c},
		{"3.75032", "3.75032 is finer than this instrument is read: its step is 0.00005 in", c},
		{"95.25 mm", "the cable sent millimetres, but this instrument is set up in inches", sent},
		{"018", "018 ends a size near the nominal 67.000 mm and another on the size ladder; key it in full", ladder},
		{"000", "000 ends two sizes as near to the nominal 3.7500 in; key it in full", inch(t)},
	} {
		if r := gauge.Read(tt.keyed, tt.c); r.Reason != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.keyed, r.Reason, tt.want)
		}
	}
}
