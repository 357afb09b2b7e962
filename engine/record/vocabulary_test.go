package record

import (
	"bytes"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

// An event says the first vocabulary that has all it holds.
func TestVocabularyOfAnEvent(t *testing.T) {
	t.Parallel()
	proved := gauge.Instrument{
		ID: "g", Name: "g", Kind: gauge.Indicator, Unit: length.In, Sense: gauge.ClockwiseLarger,
		Proved: length.Written{Length: length.Inch / 1000, Unit: length.In, Places: 4},
	}
	said := proved
	said.Proved = length.Written{}
	for _, c := range []struct {
		body Body
		v    int
		old  string // refused with the number of the vocabulary before
	}{
		{Rules{StaleHours: 4}, 1, ""},
		{Rules{DriftSpread: true}, 2, "came with vocabulary 2, not 1"},
		{Rules{StaleWarm: "2"}, 2, "came with vocabulary 2, not 1"},
		{Instrument{said}, 1, ""},
		{Instrument{proved}, 2, "came with vocabulary 2, not 1"},
	} {
		s, err := Seal(Event{At: at, By: "rk", Body: c.body}, Head{N: 8, Hash: anyHash})
		if err != nil || s.V != c.v {
			t.Fatalf("%+v is sealed in vocabulary %d, %v, want %d", c.body, s.V, err, c.v)
		}
		if got, err := DecodeStrict(s.Bytes); err != nil || got.V != c.v {
			t.Errorf("%s reads as %+v, %v", s.Bytes, got, err)
		}
		_, err = DecodeStrict(bytes.Replace(s.Bytes, []byte(`"v":2`), []byte(`"v":1`), 1))
		if c.old != "" && (err == nil || !strings.Contains(err.Error(), c.old)) {
			t.Errorf("in vocabulary 1 %s gives %v, want %q", s.Bytes, err, c.old)
		}
	}
}
