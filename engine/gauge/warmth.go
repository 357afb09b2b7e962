package gauge

import (
	"fmt"
	"strings"

	"borewright/engine/length"
)

// Warnings says in sentences where temperatures make a size read wrong by enough
// to matter: by half a reading step or more, so that a reading would come out as
// another step. on names what is measured, such as "bore". Where no step is
// known everything matters.
//
//	gauge 4 °C colder than when set: reads about 0.0002 in large on this bore
//
// What is said is of the reading as keyed; At20 corrects for it. The error is a
// *Fault.
func (w Warm) Warnings(on string, u length.Unit, step length.Exact) ([]string, error) {
	var out []string
	for _, e := range []func() (string, length.Length, error){w.gaugeEffect, w.partEffect} {
		text, large, err := e()
		if err != nil {
			return nil, err
		}
		if large != 0 && matters(large, step) {
			out = append(out, fmt.Sprintf("%s: reads about %s %s on this %s", text, about(large, u), sizeWord(large), on))
		}
	}
	return out, nil
}

// matters reports whether an effect is half a reading step or more.
func matters(effect length.Length, step length.Exact) bool {
	return !step.Measured() || length.Of(effect).Abs().Cmp(step.Half()) >= 0
}

// gaugeEffect returns by how much a reading is too large because the gauge
// itself is warmer or colder than when it was set.
func (w Warm) gaugeEffect() (string, length.Length, error) {
	if !w.compares() || !w.Gauge.Known() || w.GaugeSet == "" {
		return "", 0, w.Validate()
	}
	alone := w
	alone.Part, alone.OnMaster = Body{}, Body{}
	c, err := alone.At20()
	if err != nil {
		return "", 0, err
	}
	return "gauge " + Apart(w.Gauge.At, w.GaugeSet) + " than when set", -c.Correction, nil
}

// partEffect returns by how much a reading is too large because the part, and
// what it was compared with, are not at 20 °C.
func (w Warm) partEffect() (string, length.Length, error) {
	other, alone := w.OnMaster, w
	if !w.compares() {
		other = w.Gauge
	}
	if !w.Part.Known() || !other.Known() {
		return "", 0, w.Validate()
	}
	if w.compares() {
		alone.Gauge = Body{}
	}
	c, err := alone.At20()
	if err != nil {
		return "", 0, err
	}
	return fmt.Sprintf("%s at %s °C, %s at %s °C", w.Part.Of, plain(w.Part.At), other.Of, plain(other.At)), -c.Correction, nil
}

// Rise returns by how many °C one temperature in °C is above another. Both are
// valid decimal texts.
func Rise(at, from string) float64 { return value(at) - value(from) }

// Apart says how much warmer or colder one temperature in °C is than another,
// such as "4 °C colder". Both are valid decimal texts.
func Apart(at, from string) string {
	a, b := parsed(at), parsed(from)
	places := max(a.Places, b.Places)
	rise := scaled(a, places).Int64() - scaled(b, places).Int64()
	word := "warmer"
	if rise < 0 {
		rise, word = -rise, "colder"
	}
	return plain(length.Decimal{Coef: rise, Places: places}.String()) + " °C " + word
}

// plain writes a number without zeros at its end.
func plain(text string) string {
	text = parsed(text).String()
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// about writes a length to one significant digit with its unit.
func about(l length.Length, u length.Unit) string {
	places := 0
	for e := length.Of(abs(l)); places < mostAbout && e.CmpLength(u.Size()) < 0; e = e.Times(10) {
		places++
	}
	return length.Of(abs(l)).Format(u, places) + " " + u.String()
}

// mostAbout is how many decimals are written at most.
const mostAbout = 9

func sizeWord(large length.Length) string {
	if large < 0 {
		return "small"
	}
	return "large"
}
