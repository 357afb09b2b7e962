package draw

import (
	"fmt"
	"math"
	"regexp"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
)

func TestNoColourStylesNothing(t *testing.T) {
	none := NewPalette(true, termenv.Ascii)
	var zero Palette
	for tone := range tones {
		for name, p := range map[string]*Palette{"no colour": &none, "zero": &zero, "nil": nil} {
			if got := p.Paint(tone, "3.7503"); got != "3.7503" {
				t.Errorf("%s, tone %d: %q", name, tone, got)
			}
		}
		if got := none.Style(tone).Render("3.7503"); got != "3.7503" {
			t.Errorf("the style of tone %d gives %q", tone, got)
		}
	}
}

func TestSixteenColoursAreEnough(t *testing.T) {
	basic := regexp.MustCompile(`^\x1b\[(0|1|3[0-7]|9[0-7]|1;3[0-7]|1;9[0-7])?m$`)
	escape := regexp.MustCompile(`\x1b\[[0-9;]*m`)
	for _, dark := range []bool{true, false} {
		p := NewPalette(dark, termenv.ANSI)
		for tone := range tones {
			for _, code := range escape.FindAllString(p.Paint(tone, "x"), -1) {
				if !basic.MatchString(code) {
					t.Errorf("dark %v, tone %d needs more than 16 colours: %q", dark, tone, code)
				}
			}
		}
	}
}

func TestTonesAreTold(t *testing.T) {
	for _, profile := range []termenv.Profile{termenv.ANSI, termenv.ANSI256, termenv.TrueColor} {
		for _, dark := range []bool{true, false} {
			p := NewPalette(dark, profile)
			seen := map[string]Tone{}
			for _, tone := range []Tone{Plain, Good, Warn, Bad, Marked} {
				got := p.Paint(tone, "x")
				if other, ok := seen[got]; ok {
					t.Errorf("profile %v, dark %v: tones %d and %d look alike: %q", profile, dark, tone, other, got)
				}
				seen[got] = tone
				if ansi.Strip(got) != "x" {
					t.Errorf("profile %v, dark %v: tone %d changes the text: %q", profile, dark, tone, got)
				}
			}
		}
	}
}

func TestPaintIsTheStyle(t *testing.T) {
	for _, profile := range []termenv.Profile{termenv.Ascii, termenv.ANSI, termenv.ANSI256, termenv.TrueColor} {
		p := NewPalette(true, profile)
		for tone := range tones {
			if got, want := p.Paint(tone, "bore 3"), p.Style(tone).Render("bore 3"); got != want {
				t.Errorf("profile %v, tone %d: %q, want %q", profile, tone, got, want)
			}
		}
	}
}

// luminance is the relative luminance of a colour as WCAG 2.1 defines it
// (W3C Recommendation, 5 June 2018, "relative luminance").
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	var c [3]uint8
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &c[0], &c[1], &c[2]); err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v := float64(c[i]) / 255
		if v <= 0.03928 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

func TestContrast(t *testing.T) {
	for name, set := range map[string]shades{"dark": onDark, "light": onLight} {
		for i, c := range []shade{set.dim, set.good, set.warn, set.bad, set.key, set.marked} {
			l := luminance(t, c.TrueColor)
			contrast := (l + 0.05) / 0.05
			if name == "light" {
				contrast = 1.05 / (l + 0.05)
			}
			if contrast < 4.5 {
				t.Errorf("%s, colour %d (%s): contrast %.2f, want 4.5", name, i, c.TrueColor, contrast)
			}
		}
	}
}
