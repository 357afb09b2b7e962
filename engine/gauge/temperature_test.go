package gauge_test

import (
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

// NPL (UK), FAQ on correcting lengths to 20 °C (2010): steel, 500.035 mm at
// 23.7 °C with 11.7e-6 per °C is 500.013 mm at 20 °C.
func TestBodyAt20(t *testing.T) {
	steel := gauge.Body{Of: "part", Alpha: "11.7", At: "23.7"}
	got, err := steel.At20(mustParse(t, "500.035 mm"))
	if text := length.Of(got).Format(length.MM, 3); text != "500.013" || err != nil {
		t.Errorf("%s, %v", text, err)
	}
	for name, b := range map[string]gauge.Body{
		"at 20 °C":       {Alpha: "11.7", At: "20.00"},
		"no expansion":   {At: "23.7"},
		"no temperature": {Alpha: "11.7"},
		"nothing known":  {},
		"it stays":       {Alpha: "0", At: "23.7"},
	} {
		if got, err := b.At20(12345); got != 12345 || err != nil {
			t.Errorf("%s: %d, %v", name, got, err)
		}
	}
}

func mustParse(t *testing.T, text string) length.Length {
	t.Helper()
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return w.Length
}

// Half a picometre goes to the even one: with 1 + α(T - 20) = 0.96 a length of
// 12 pm was 12.5 and one of 36 pm 37.5.
func TestBodyAt20RoundsHalfToEven(t *testing.T) {
	b := gauge.Body{Of: "part", Alpha: "1000", At: "-20"}
	for l, want := range map[length.Length]length.Length{12: 12, 36: 38, -12: -12, -36: -38, 11: 11, 13: 14, 0: 0} {
		if got, err := b.At20(l); got != want || err != nil {
			t.Errorf("%d: %d, want %d, %v", l, got, want, err)
		}
	}
}

// warm is a bore of cast iron read with a gauge of steel set on a ring of steel.
func warm() gauge.Warm {
	return gauge.Warm{
		Read: 4*length.Inch + 12*length.Inch/10_000, Master: 4 * length.Inch,
		OnMaster: gauge.Body{Of: "master", Alpha: "11.5", AlphaDoubt: "1", At: "21.5", AtDoubt: "0.5"},
		Part:     gauge.Body{Of: "part", Alpha: "11.4", AlphaDoubt: "1", At: "14", AtDoubt: "0.5"},
		Gauge:    gauge.Body{Of: "gauge", Alpha: "12", AlphaDoubt: "1", At: "17.5", AtDoubt: "0.5"},
		GaugeSet: "21.5", GaugeSetDoubt: "0.5", SetMoment: "set 1",
	}
}

func ratio(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

// grown is 1 + α(T - from) by rational arithmetic, α in 1e-6.
func grown(alpha, at, from string) *big.Rat {
	r := new(big.Rat).Sub(ratio(at), ratio(from))
	r.Mul(r, ratio(alpha)).Mul(r, big.NewRat(1, 1_000_000))
	return r.Add(r, big.NewRat(1, 1))
}

func tenths(t *rapid.T, name string, low, high int) string {
	return strconv.FormatFloat(float64(rapid.IntRange(low, high).Draw(t, name))/10, 'f', -1, 64)
}

// The design's formulas, by rational arithmetic.
func TestAt20ByTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := warm()
		w.Master = length.Length(rapid.Int64Range(1, int64(length.Metre)).Draw(t, "master"))
		d := rapid.Int64Range(-int64(length.Millimetre), int64(length.Millimetre)).Draw(t, "deviation")
		w.Read = w.Master + length.Length(d)
		for _, b := range []*gauge.Body{&w.OnMaster, &w.Part, &w.Gauge} {
			b.Alpha, b.At = tenths(t, "alpha", 0, 300), tenths(t, "at", -200, 600)
		}
		w.GaugeSet = tenths(t, "set", -200, 600)
		direct := rapid.Bool().Draw(t, "direct")
		want := new(big.Rat).SetInt64(int64(w.Master))
		if direct {
			w.Master = 0
			want.SetInt64(int64(w.Read))
			want.Mul(want, grown(w.Gauge.Alpha, w.Gauge.At, "20"))
		} else {
			want.Mul(want, grown(w.OnMaster.Alpha, w.OnMaster.At, "20"))
			want.Mul(want, grown(w.Gauge.Alpha, w.Gauge.At, w.GaugeSet))
			want.Add(want, new(big.Rat).SetInt64(d))
		}
		want.Quo(want, grown(w.Part.Alpha, w.Part.At, "20"))
		got, err := w.At20()
		if err != nil || len(got.Missing) > 0 {
			t.Fatalf("%v, %v", got.Missing, err)
		}
		if got.Correction != got.Size-w.Read {
			t.Errorf("%d corrected by %d is %d", w.Read, got.Correction, got.Size)
		}
		off := want.Sub(want, new(big.Rat).SetInt64(int64(got.Size)))
		if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Errorf("off by %s pm", off.FloatString(3))
		}
	})
}

// At 20 °C, and with a gauge as warm as it was when set, the reading stays the
// very same length; so it does where nothing is known.
func TestAt20OfNothingToCorrect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := warm()
		w.Read = length.Length(rapid.Int64Range(1, int64(100*length.Metre)).Draw(t, "read"))
		w.Master = length.Length(rapid.Int64Range(0, int64(100*length.Metre)).Draw(t, "master"))
		w.OnMaster.At, w.Part.At, w.Gauge.At, w.GaugeSet = "20", "20.0", "20.00", "20"
		for _, w := range []gauge.Warm{w, {Read: w.Read, Master: w.Master}} {
			if got, err := w.At20(); err != nil || got.Size != w.Read || got.Correction != 0 {
				t.Errorf("%d became %+v, %v", w.Read, got, err)
			}
		}
	})
}

// What is known of one side alone is not corrected for.
func TestAt20OfWhatIsMissing(t *testing.T) {
	for name, c := range map[string]struct {
		spoil   func(*gauge.Warm)
		missing []string
	}{
		"all there":           {func(*gauge.Warm) {}, nil},
		"part's temperature":  {func(w *gauge.Warm) { w.Part.At = "" }, []string{"both part and master"}},
		"part's expansion":    {func(w *gauge.Warm) { w.Part.Alpha = "" }, []string{"both part and master"}},
		"master":              {func(w *gauge.Warm) { w.OnMaster.At = "" }, []string{"both part and master"}},
		"gauge when set":      {func(w *gauge.Warm) { w.GaugeSet = "" }, []string{"as warm as when it was set"}},
		"gauge's expansion":   {func(w *gauge.Warm) { w.Gauge.Alpha = "" }, []string{"as warm as when it was set"}},
		"everything":          {func(w *gauge.Warm) { *w = gauge.Warm{Master: w.Master, Read: w.Read} }, []string{"both part and master", "as warm as"}},
		"direct":              {func(w *gauge.Warm) { w.Master = 0 }, nil},
		"direct, gauge's own": {func(w *gauge.Warm) { w.Master, w.Gauge.At = 0, "" }, []string{"both part and gauge"}},
	} {
		w := warm()
		c.spoil(&w)
		got, err := w.At20()
		if err != nil || len(got.Missing) != len(c.missing) {
			t.Fatalf("%s: %q, %v", name, got.Missing, err)
		}
		for i, want := range c.missing {
			if !strings.Contains(got.Missing[i], want) {
				t.Errorf("%s: %q does not say %q", name, got.Missing[i], want)
			}
		}
		known := 2
		if w.Master == 0 {
			known = 1
		}
		if (got.Correction == 0) != (len(c.missing) == known) {
			t.Errorf("%s: corrected by %d", name, got.Correction)
		}
	}
}

func TestWarmRefusesImpossible(t *testing.T) {
	for field, spoil := range map[string]func(*gauge.Warm){
		"temperature of the part":                               func(w *gauge.Warm) { w.Part.At = "999" },
		"temperature of the master":                             func(w *gauge.Warm) { w.OnMaster.At = "warm" },
		"temperature of the gauge":                              func(w *gauge.Warm) { w.Gauge.At = "-273" },
		"expansion of the part":                                 func(w *gauge.Warm) { w.Part.Alpha = "-1" },
		"doubt of the expansion of the gauge":                   func(w *gauge.Warm) { w.Gauge.AlphaDoubt = "1e3" },
		"doubt of the temperature of the part":                  func(w *gauge.Warm) { w.Part.AtDoubt = "-0.5" },
		"temperature of the gauge when it was set":              func(w *gauge.Warm) { w.GaugeSet = "301" },
		"doubt of the temperature of the gauge when it was set": func(w *gauge.Warm) { w.GaugeSetDoubt = "x" },
	} {
		w := warm()
		spoil(&w)
		_, err := w.At20()
		finds(t, field, err, field)
		_, err = w.Influences()
		finds(t, field, err, field)
		_, err = w.Warnings("bore", length.In, length.Exact{})
		finds(t, field, err, field)
	}
	_, err := gauge.Body{Of: "part", At: "1000"}.At20(1)
	finds(t, "body", err, "temperature of the part")
}

// Each sensitivity is what the corrected size really moves by, told from far
// enough to either side that picometres do not matter.
func TestInfluencesMoveTheSize(t *testing.T) {
	const by = 0.5
	inputs := map[string]func(*gauge.Warm) *string{
		"the expansion of the part":                    func(w *gauge.Warm) *string { return &w.Part.Alpha },
		"the expansion of the master":                  func(w *gauge.Warm) *string { return &w.OnMaster.Alpha },
		"the expansion of the gauge":                   func(w *gauge.Warm) *string { return &w.Gauge.Alpha },
		"the temperature of the part":                  func(w *gauge.Warm) *string { return &w.Part.At },
		"the temperature of the master":                func(w *gauge.Warm) *string { return &w.OnMaster.At },
		"the temperature of the gauge":                 func(w *gauge.Warm) *string { return &w.Gauge.At },
		"the temperature of the gauge when it was set": func(w *gauge.Warm) *string { return &w.GaugeSet },
	}
	for _, master := range []length.Length{4 * length.Inch, 0} {
		w := warm()
		w.Master = master
		all, err := w.Influences()
		if want := map[bool]int{true: 7, false: 4}[master != 0]; len(all) != want || err != nil {
			t.Fatalf("%d influences, want %d, %v", len(all), want, err)
		}
		for _, i := range all {
			size := [2]length.Length{}
			for k, sign := range []float64{-1, 1} {
				moved := w
				input := inputs[i.Name](&moved)
				old, _ := strconv.ParseFloat(*input, 64)
				*input = strconv.FormatFloat(old+sign*by, 'f', -1, 64)
				c, err := moved.At20()
				if err != nil {
					t.Fatal(err)
				}
				size[k] = c.Size
			}
			if got := float64(size[1]-size[0]) / (2 * by); math.Abs(got-i.Sensitivity) > 1e-4*math.Abs(got)+1 {
				t.Errorf("%s: %v pm for one, not %v", i.Name, got, i.Sensitivity)
			}
		}
	}
}

// Bodies of one material, and temperatures of one moment, are one source.
func TestInfluencesNameTheirSources(t *testing.T) {
	w := warm()
	w.Part.Material, w.OnMaster.Material = "steel", "steel"
	w.Part.Moment, w.Gauge.Moment = "set 4", "set 4"
	all, err := w.Influences()
	if err != nil {
		t.Fatal(err)
	}
	count := map[string]int{}
	for _, i := range all {
		count[i.Source]++
	}
	for source, want := range map[string]int{
		"expansion of steel": 2, "expansion of gauge": 1,
		"temperature of set 4": 2, "temperature of master": 1, "temperature of set 1": 1,
	} {
		if count[source] != want {
			t.Errorf("%d of %q, want %d: %v", count[source], source, want, count)
		}
	}
	w.Part.AlphaDoubt, w.Part.AtDoubt = "", "0"
	if all, _ = w.Influences(); len(all) != 5 {
		t.Errorf("%d with a doubt, want 5", len(all))
	}
}
