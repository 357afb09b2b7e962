package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/muesli/termenv"
	"pgregory.net/rapid"
)

// span is what was read at a level of a bore of 3.75, in ten-thousandths.
func span(least, most float64) Span {
	return Span{Least: least / 37500, Most: most / 37500, Measured: true}
}

// sixBores is a row as a bench would have it: straight, oval in the middle,
// wide at the bottom, read at the top alone, not read.
func sixBores(kind Kind) Profiles {
	return Profiles{Kind: kind, Depths: []float64{0, 0.5, 1}, Of: []Profile{
		{Levels: []Span{span(2, 3), span(3, 4), span(2, 3)}},
		{Levels: []Span{span(1, 5), span(0, 9), span(2, 4)}, At: 1, Sign: "X", Tone: Bad},
		{Levels: []Span{span(3, 3), span(3, 4), span(8, 10)}},
		{Levels: []Span{span(2, 3), {}, {}}},
		{},
	}}
}

func TestProfileDrawings(t *testing.T) {
	for kind, name := range map[Kind]string{Bore: "profiles-holes", Journal: "profiles-shafts"} {
		var lines []string
		for _, size := range [][2]int{{10, 3}, {22, 7}, {5, 3}, {7, 2}} {
			for _, ascii := range []bool{false, true} {
				p := sixBores(kind)
				p.ASCII = ascii
				lines = append(lines, fmt.Sprintf("%d x %d, %s", size[0], size[1], FactorText(p.Factor(size[0]), NewSigns(ascii))))
				lines = append(lines, Beside(1, p.Draw(size[0], size[1])...)...)
			}
		}
		golden(t, name, lines)
	}
}

func anyProfiles() *rapid.Generator[Profiles] {
	number := rapid.OneOf(rapid.Float64Range(-0.01, 0.01), rapid.Float64Range(-2, 2),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300}))
	return rapid.Custom(func(t *rapid.T) Profiles {
		p := Profiles{Kind: Kind(rapid.IntRange(0, 3).Draw(t, "kind")), ASCII: ascii(t)}
		p.Depths = rapid.SliceOfN(number, 0, 7).Draw(t, "depths")
		for range rapid.IntRange(0, 4).Draw(t, "profiles") {
			x := Profile{At: rapid.IntRange(-1, 8).Draw(t, "at"), Sign: rapid.SampledFrom([]string{"", "X"}).Draw(t, "sign")}
			for range rapid.IntRange(0, 8).Draw(t, "levels") {
				x.Levels = append(x.Levels, Span{number.Draw(t, "least"), number.Draw(t, "most"), rapid.Bool().Draw(t, "measured")})
			}
			p.Of = append(p.Of, x)
		}
		return p
	})
}

func TestProfilesFitEverySize(t *testing.T) {
	palette := NewPalette(true, termenv.TrueColor)
	rapid.Check(t, func(t *rapid.T) {
		p := anyProfiles().Draw(t, "profiles")
		w, h := rapid.IntRange(-1, 40).Draw(t, "w"), rapid.IntRange(-1, 20).Draw(t, "h")
		plain := p.Draw(w, h)
		p.Palette = &palette
		coloured := p.Draw(w, h)
		if len(plain) != len(p.Of) {
			t.Fatalf("%d drawings of %d", len(plain), len(p.Of))
		}
		for i := range plain {
			fits(t, plain[i], w, h)
			fits(t, coloured[i], w, h)
			if p.ASCII {
				oneCellEverywhere(t, plain[i])
			}
		}
		if f := p.Factor(w); math.IsNaN(f) || f < 0 || f > 5000 {
			t.Errorf("the factor is %v", f)
		}
	})
}

// cellsOf counts the cells of a row that show a sign.
func cellsOf(line, sign string) int { return strings.Count(line, sign) }

// However a set of profiles looks, one drawn alone looks as it does in company
// when the company is no larger: the factor is common.
func TestTheFactorIsCommon(t *testing.T) {
	p := sixBores(Bore)
	together := p.Draw(22, 7)
	for i := range p.Of {
		q := p
		q.Of = []Profile{p.Of[i], {Levels: []Span{span(0, 10)}}}
		if alone := q.Draw(22, 7); !slices.Equal(alone[0], together[i]) {
			t.Errorf("profile %d alone:\n%s\ntogether:\n%s", i, strings.Join(alone[0], "\n"), strings.Join(together[i], "\n"))
		}
	}
}

func TestALargerHoleLeavesLessMetalAndALargerShaftMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Float64Range(-20, 20).Draw(t, "small")
		large := small + rapid.Float64Range(0, 20).Draw(t, "more")
		w := rapid.IntRange(ProfileLeast, 40).Draw(t, "w")
		for _, kind := range []Kind{Bore, Journal} {
			p := Profiles{Kind: kind, Depths: []float64{0, 1}, ASCII: true, Of: []Profile{{Levels: []Span{span(small, small), span(large, large)}}}}
			lines := p.Draw(w, 2)[0]
			a, b := cellsOf(lines[0], "#"), cellsOf(lines[1], "#")
			if kind == Bore && a < b || kind == Journal && a > b {
				t.Errorf("kind %d: %d cells of metal at %v, %d at %v:\n%s", kind, a, small, b, large, strings.Join(lines, "\n"))
			}
		}
	})
}

// What is hatched is what the factor says: the difference between the largest
// and the smallest diameter, in cells of the diameter drawn at the reference.
func TestTheFactorIsWhatIsDrawn(t *testing.T) {
	for _, d := range [][2]float64{{0, 10}, {-10, 0}, {-4, 9}, {5, 20}, {-300, 300}} {
		p := Profiles{Kind: Bore, Depths: []float64{0.5}, ASCII: true, Of: []Profile{{Levels: []Span{span(d[0], d[1])}}}}
		const w = 400
		at := p.scale(w)
		reference := w - at.wall(0) // half cells at either end: cells at both
		want := p.Factor(w) * (d[1] - d[0]) / 37500 * reference
		if got := float64(cellsOf(p.Draw(w, 1)[0][0], "/")); math.Abs(got-want) > 2 {
			t.Errorf("%v: %v cells are hatched, the factor %v says %.1f", d, got, p.Factor(w), want)
		}
	}
}

func TestUnreadLevelsShowTheReferenceAlone(t *testing.T) {
	p := sixBores(Bore)
	p.ASCII = true
	for i, line := range p.Draw(10, 3)[3] {
		if dotted := cellsOf(line, ":") == 2 && cellsOf(line, "#") == 0; dotted != (i > 0) {
			t.Errorf("row %d of a bore read at the top alone: %q", i, line)
		}
	}
	if p.Of = p.Of[4:]; p.Measured() {
		t.Error("what was not read is measured")
	}
	if p = sixBores(Bore); !p.Measured() {
		t.Error("what was read is not measured")
	}
}

func TestTheMarkStandsAtItsLevel(t *testing.T) {
	p := sixBores(Bore)
	for y, line := range p.Draw(22, 7)[1] {
		if marked := strings.Contains(line, "X"); marked != (y == 3) {
			t.Errorf("row %d: %q", y, line)
		}
	}
}

func TestNiceBelow(t *testing.T) {
	for f, want := range map[float64]float64{0.567: 0.56, 1: 1, 1.7: 1.5, 9.99: 8, 2999: 2000, 3000: 3000, 1e9: 5000} {
		if got := niceBelow(f); got != want {
			t.Errorf("niceBelow(%v) = %v, want %v", f, got, want)
		}
	}
}
