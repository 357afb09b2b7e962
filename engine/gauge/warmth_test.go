package gauge_test

import (
	"slices"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

func TestWarnings(t *testing.T) {
	step := length.Of(length.Inch / 20_000)
	for name, c := range map[string]struct {
		spoil func(*gauge.Warm)
		want  []string
	}{
		"a cold gauge": {
			func(w *gauge.Warm) { w.Part.At, w.OnMaster.At = "", "" },
			[]string{"gauge 4 °C colder than when set: reads about 0.0002 in large on this bore"},
		},
		"a warm gauge": {
			func(w *gauge.Warm) { w.Part.At, w.Gauge.At = "", "24.00" },
			[]string{"gauge 2.5 °C warmer than when set: reads about 0.0001 in small on this bore"},
		},
		// The gauge's own change is told apart from that of part and master.
		"a cold part": {
			func(w *gauge.Warm) { w.Gauge.At = w.GaugeSet },
			[]string{"part at 14 °C, master at 21.5 °C: reads about 0.0003 in small on this bore"},
		},
		"both": {
			func(*gauge.Warm) {},
			[]string{
				"gauge 4 °C colder than when set: reads about 0.0002 in large on this bore",
				"part at 14 °C, master at 21.5 °C: reads about 0.0003 in small on this bore",
			},
		},
		"a direct gauge in a warm part": {
			func(w *gauge.Warm) { w.Master, w.Part.Alpha, w.Part.At, w.Gauge.At = 0, "23", "35", "24" },
			[]string{"part at 35 °C, gauge at 24 °C: reads about 0.001 in large on this bore"},
		},
		"a warm shop, all of one metal": {
			func(w *gauge.Warm) {
				w.Part.Alpha, w.Part.At, w.OnMaster.At, w.Gauge.At, w.GaugeSet = "11.5", "31", "31", "31", "31"
			},
			nil,
		},
		"nothing known": {func(w *gauge.Warm) { *w = gauge.Warm{Read: w.Read, Master: w.Master} }, nil},
	} {
		w := warm()
		c.spoil(&w)
		if got, err := w.Warnings("bore", length.In, step); !slices.Equal(got, c.want) || err != nil {
			t.Errorf("%s: %q, %v, want %q", name, got, err, c.want)
		}
	}
}

// A bore of 100 mm and a gauge of 10e-6 per °C: 1 µm for each degree. Half a
// step of 2 µm is reached at 1 °C.
func TestWarningsWhenItMatters(t *testing.T) {
	w := gauge.Warm{
		Read: 100 * length.Millimetre, Master: 100 * length.Millimetre,
		Gauge: gauge.Body{Of: "gauge", Alpha: "10", At: "19"}, GaugeSet: "20",
	}
	for at, want := range map[string]int{"19": 1, "19.001": 0, "21": 1, "20.999": 0, "20": 0} {
		w.Gauge.At = at
		if got, err := w.Warnings("bore", length.MM, length.Of(2*length.Micrometre)); len(got) != want || err != nil {
			t.Errorf("at %s: %q, %v", at, got, err)
		}
	}
	w.Gauge.At = "19.999"
	got, err := w.Warnings("bore", length.MM, length.Exact{})
	if want := "gauge 0.001 °C colder than when set: reads about 0.000001 mm large on this bore"; err != nil || len(got) != 1 || got[0] != want {
		t.Errorf("without a step: %q, %v", got, err)
	}
}
