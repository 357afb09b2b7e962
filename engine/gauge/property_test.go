package gauge_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// contexts draws a context of any kind, and texts what a keypad or a cable may send.
func contexts(t *rapid.T) gauge.Context {
	c := gauge.Context{
		Instrument: gauge.Instrument{
			Kind:       rapid.SampledFrom([]string{gauge.Comparator, gauge.Direct, gauge.Indicator}).Draw(t, "kind"),
			Unit:       rapid.SampledFrom([]length.Unit{length.In, length.MM}).Draw(t, "unit"),
			Sends:      rapid.SampledFrom([]string{"", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations}).Draw(t, "sends"),
			Graduation: rapid.SampledFrom(graduations).Draw(t, "graduation"),
		},
		HasZero:  rapid.Bool().Draw(t, "has zero"),
		Signed:   rapid.Bool().Draw(t, "signed"),
		FullSeen: rapid.Bool().Draw(t, "full seen"),
		Cable:    rapid.Bool().Draw(t, "cable"),
		Shape:    rapid.SampledFrom([]plan.Shape{plan.NoShape, plan.Hole, plan.Shaft}).Draw(t, "shape"),
	}
	size := length.Length(rapid.Int64Range(1, 200).Draw(t, "size")) * length.Millimetre
	c.Zero, c.Nominal = size, length.Written{Length: size, Unit: length.MM}
	low, high := size, size+length.Millimetre/50
	if rapid.Bool().Draw(t, "limits") {
		c.Low, c.High = &low, &high
	}
	for range rapid.IntRange(0, 3).Draw(t, "neighbours") {
		c.Neighbours = append(c.Neighbours, length.Of(size+length.Length(rapid.Int64Range(-200, 200).Draw(t, "off"))*length.Micrometre))
	}
	return c
}

var graduations = []length.Written{
	{},
	{Length: length.Inch / 10_000, Unit: length.In, Places: 4},
	{Length: length.Millimetre / 1000, Unit: length.MM, Places: 3},
	{Length: length.Millimetre / 100, Unit: length.MM, Places: 2},
}

func texts() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringMatching(`[-+]?[0-9]{0,5}[.,]?[0-9]{0,5}[-+]?`),
		rapid.StringMatching(`[-+0-9.,]{0,12}`),
		rapid.StringMatching(`[-+]?[0-9]{1,3}\.[0-9]{1,4} ?(in|mm)`),
		rapid.String(),
	)
}

// What holds for every text on every instrument.
func checkResult(t interface {
	Errorf(string, ...any)
}, keyed string, c gauge.Context,
) {
	r := gauge.Read(keyed, c)
	m := r.Meaning
	if (r.Reason == "") != (r.Kind == gauge.Taken) {
		t.Errorf("Read(%q) is %v with the reason %q", keyed, r.Kind, r.Reason)
	}
	if (r.Slip != gauge.NoSlip) != (r.Kind == gauge.Held) {
		t.Errorf("Read(%q) is %v with the slip %q", keyed, r.Kind, r.Slip)
	}
	if r.Kind == gauge.Taken && m.IsZero() || r.Kind == gauge.Refused && !m.IsZero() {
		t.Errorf("Read(%q) is %v and means %+v", keyed, r.Kind, m)
	}
	if !m.Size.IsZero() && !m.Dev.IsZero() {
		t.Errorf("Read(%q) is both a size and a deviation: %+v", keyed, m)
	}
	for _, w := range []length.Written{m.Size, m.Dev} {
		if _, err := w.MarshalText(); err != nil {
			t.Errorf("Read(%q) means %+v, which cannot be kept: %v", keyed, w, err)
		}
	}
	if !m.Size.IsZero() && m.At != m.Size.Length || c.HasZero && !m.Dev.IsZero() && m.At != c.Zero+m.Dev.Length {
		t.Errorf("Read(%q) comes to %d from %+v", keyed, m.At, m)
	}
	checkEcho(t, keyed, c, r)
}

// What Echo announces is what Read takes: nothing is announced of what is
// refused, and of the rest the size it means and the way it goes.
func checkEcho(t interface {
	Errorf(string, ...any)
}, keyed string, c gauge.Context, r gauge.Result,
) {
	echo := gauge.Echo(keyed, c)
	if (echo == "") != (r.Kind == gauge.Refused) {
		t.Errorf("Read(%q) is %v and Echo says %q", keyed, r.Kind, echo)
	}
	if r.Meaning.IsZero() {
		return
	}
	_, after, _ := strings.Cut(echo, " → ")
	text, way, _ := strings.Cut(after, ", ")
	said, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Errorf("Echo(%q) = %q names no length: %v", keyed, echo, err)
		return
	}
	// Seven decimals are shown at most.
	if d := said.Length - r.Meaning.At; d > 2540 || d < -2540 {
		t.Errorf("Echo(%q) = %q, but Read means %d", keyed, echo, r.Meaning.At)
	}
	dev := r.Meaning.Dev.Length
	if (way == "LARGER") != (dev > 0) || (way == "SMALLER") != (dev < 0) {
		t.Errorf("Echo(%q) = %q for a deviation of %d", keyed, echo, dev)
	}
}

func TestReadAndEchoAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkResult(t, texts().Draw(t, "keyed"), contexts(t))
	})
}

// A sign means size: the same graduations with the other sign lie as far on the
// other side of zero, and the sign may be keyed first or last.
func TestSignMeansSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := gauge.Context{Instrument: gauge.Instrument{Kind: gauge.Comparator, Unit: length.In, Graduation: graduations[1]}}
		digits := rapid.StringMatching(`[0-9]{1,3}(\.[05])?`).Draw(t, "digits")
		plus, minus := gauge.Read("+"+digits, c), gauge.Read("-"+digits, c)
		if plus.Meaning.Dev.Length != -minus.Meaning.Dev.Length || plus.Meaning.Dev.Length < 0 {
			t.Fatalf("+%s is %+v and -%s is %+v", digits, plus, digits, minus)
		}
		if plus != gauge.Read(digits, c) || minus != gauge.Read(digits+"-", c) {
			t.Fatalf("%s: a sign left out is a plus, and one keyed last is one keyed first", digits)
		}
	})
}

// The last digits of a size near the nominal mean that size.
func TestLastDigitsMeanTheSizeTheyEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := gauge.Context{
			Instrument: gauge.Instrument{Kind: gauge.Direct, Unit: length.MM, Graduation: graduations[2]},
			Nominal:    length.Written{Length: 67 * length.Millimetre, Unit: length.MM}, FullSeen: true,
		}
		off := length.Length(rapid.Int64Range(-200, 200).Draw(t, "off"))
		size := length.Written{Length: c.Nominal.Length + off*length.Micrometre, Unit: length.MM, Places: 3}
		keyed := size.Number()[3:]
		if r := gauge.Read(keyed, c); r.Kind != gauge.Taken || r.Meaning.Size != size {
			t.Fatalf("Read(%q) = %+v, want %s", keyed, r, size)
		}
	})
}

func FuzzRead(f *testing.F) {
	for _, keyed := range []string{"", ".", "-", "3", "-1.5", "2+", "3.7503", "503", "000", "67,018", "95.258 mm", "1e9", "\u2212\u2212", "\x00", "999999999999999", "+003.7503 in"} {
		for _, kind := range []byte{0, 3, 7, 60, 255} {
			f.Add(keyed, kind)
		}
	}
	f.Fuzz(func(t *testing.T, keyed string, kind byte) {
		checkResult(t, keyed, fuzzed(kind))
	})
}

// fuzzed makes a context of the bits of one byte.
func fuzzed(kind byte) gauge.Context {
	low := 67 * length.Millimetre
	c := gauge.Context{
		Instrument: gauge.Instrument{
			Kind:       []string{gauge.Comparator, gauge.Direct, gauge.Indicator, gauge.Direct}[kind&3],
			Unit:       length.MM,
			Sends:      []string{"", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations}[kind>>2&3],
			Graduation: graduations[kind>>4&3],
		},
		Zero: low, HasZero: kind&64 != 0, Nominal: length.Written{Length: low, Unit: length.MM},
		Cable: kind&128 != 0, FullSeen: true, Shape: plan.Hole, Low: &low,
		Ladder: []length.Length{low + length.Millimetre/4, low + length.Millimetre},
	}
	if kind&1 != 0 {
		c.Neighbours = []length.Exact{length.Mean(low, low+1, low+length.Micrometre)}
	}
	return c
}
