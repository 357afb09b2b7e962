package draw

import (
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"pgregory.net/rapid"
)

func TestBarDrawings(t *testing.T) {
	both := Bar{Low: of(3.75), High: of(3.751), HasValue: true, LowText: "3.7500", HighText: "3.7510 in"}
	var lines []string
	for _, v := range []float64{3.7480, 3.74999, 3.7500, 3.7503, 3.7510, 3.75101, 3.7550} {
		for _, ascii := range []bool{false, true} {
			b := both
			b.Value, b.ASCII = v, ascii
			lines = append(lines, b.Draw(40)...)
		}
	}
	target := both
	target.Target, target.Value = of(3.7504), 3.7508
	high := Bar{High: of(0.0005), Value: 0.0002, HasValue: true, HighText: "0.0005 in"}
	low := Bar{Low: of(0.014), Value: 0.013, HasValue: true, LowText: "0.0140 in"}
	empty := Bar{Low: of(3.75), High: of(3.751), LowText: "3.7500", HighText: "3.7510 in"}
	none := Bar{Value: 1, HasValue: true}
	for _, b := range []Bar{target, high, low, empty, none} {
		lines = append(lines, b.Draw(30)...)
	}
	golden(t, "bars", lines)
}

// limits makes a bar with one or two sensible limits.
func limits() *rapid.Generator[Bar] {
	return rapid.Custom(func(t *rapid.T) Bar {
		low := rapid.Float64Range(0.001, 100).Draw(t, "low")
		b := Bar{ASCII: true, HasValue: true}
		kind := rapid.IntRange(0, 2).Draw(t, "kind")
		if kind != 1 {
			b.Low, b.LowText = &low, "low"
		}
		if kind != 0 {
			b.High, b.HighText = of(low*rapid.Float64Range(1.00001, 2).Draw(t, "span")), "high"
		}
		if rapid.Bool().Draw(t, "aimed") {
			b.Target = of(rapid.Float64Range(-10, 150).Draw(t, "target"))
		}
		return b
	})
}

func TestBarShowsTheSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := limits().Draw(t, "bar")
		values := []float64{rapid.Float64Range(-300, 300).Draw(t, "value")}
		for _, limit := range []*float64{b.Low, b.High} {
			if limit != nil {
				values = append(values, *limit, math.Nextafter(*limit, 1e9), math.Nextafter(*limit, -1e9))
			}
		}
		b.Value = rapid.SampledFrom(values).Draw(t, "one")
		w := rapid.IntRange(8, 60).Draw(t, "w")
		lines := b.Draw(w)
		fits(t, lines, w, barLines)
		oneCellEverywhere(t, lines)
		sign := "|"
		switch {
		case b.Low != nil && b.Value < *b.Low:
			sign = "<"
		case b.High != nil && b.Value > *b.High:
			sign = ">"
		}
		at := strings.Index(lines[0], sign)
		if strings.Count(lines[0], sign) != 1 || strings.ContainsAny(strings.ReplaceAll(lines[0], sign, ""), "<>|") {
			t.Fatalf("%v should be drawn as one %q: %s", b.Value, sign, lines[0])
		}
		if low := strings.Index(lines[0], "["); b.Low != nil && (low < 0 || (at < low) != (sign == "<")) {
			t.Errorf("%v stands on the wrong side of the low limit: %s", b.Value, lines[0])
		}
		if high := strings.Index(lines[0], "]"); b.High != nil && (high < 0 || (at > high) != (sign == ">")) {
			t.Errorf("%v stands on the wrong side of the high limit: %s", b.Value, lines[0])
		}
	})
}

func TestBarFitsEverySize(t *testing.T) {
	odd := []float64{0, -1, 1, 3.75, math.NaN(), math.Inf(1), math.Inf(-1), 1e308, -1e308, 5e-324}
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.SampledFrom(odd)
		maybe := func(name string) *float64 {
			if rapid.Bool().Draw(t, name) {
				return of(number.Draw(t, name+" at"))
			}
			return nil
		}
		b := Bar{
			Low: maybe("low"), High: maybe("high"), Target: maybe("target"), Value: number.Draw(t, "value"), HasValue: true,
			LowText: styledText().Draw(t, "low text"), HighText: styledText().Draw(t, "high text"), ASCII: ascii(t),
		}
		w := rapid.IntRange(-1, 50).Draw(t, "w")
		fits(t, b.Draw(w), w, barLines)
	})
}

func TestBarTone(t *testing.T) {
	p := NewPalette(true, termenv.ANSI)
	b := Bar{Low: of(1), High: of(2), Value: 1.5, HasValue: true, Palette: &p}
	for value, want := range map[float64]string{1.5: p.Paint(Good, "┃"), 2.5: p.Paint(Bad, ">"), 0: p.Paint(Bad, "<")} {
		b.Value = value
		if got := b.Draw(30)[0]; !strings.Contains(got, strings.TrimSuffix(want, "\x1b[0m")) {
			t.Errorf("%v: %q is not in %q", value, want, got)
		}
	}
	b.Value, b.Tone = 1.99, Warn
	if got := b.Draw(30)[0]; !strings.Contains(got, strings.TrimSuffix(p.Paint(Warn, "┃"), "\x1b[0m")) {
		t.Errorf("the given tone is not in %q", got)
	}
	plain := b
	plain.Palette = nil
	if got, want := ansi.Strip(b.Draw(30)[0]), plain.Draw(30)[0]; got != want {
		t.Errorf("colour changes the drawing: %q, want %q", got, want)
	}
}
