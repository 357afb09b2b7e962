package limit_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

// tenThousandths writes whole ten-thousandths of an inch.
func tenThousandths(n int64) length.Written {
	return length.Written{Length: length.Length(n) * length.Inch / 10_000, Unit: length.In, Places: 4}
}

// sizeRow draws limits of a bore that are right: new within wear, and a target.
func sizeRow(t *rapid.T) Limits {
	low := rapid.Int64Range(8_000, 90_000).Draw(t, "new low")
	high := low + rapid.Int64Range(1, low/400).Draw(t, "new")
	worn := high + rapid.Int64Range(0, low/400).Draw(t, "wear")
	l := Limits{On: Size, Of: "bore", New: Range{Low: tenThousandths(low), High: tenThousandths(high)}}
	l.Wear.High = tenThousandths(worn)
	l.Target = tenThousandths(rapid.Int64Range(low, high).Draw(t, "target"))
	return l
}

// gapRow draws limits of a clearance that are right.
func gapRow(t *rapid.T) Limits {
	low := rapid.Int64Range(5, 200).Draw(t, "new low")
	high := rapid.Int64Range(low+1, 10*low-1).Draw(t, "new high")
	worn := rapid.Int64Range(high+1, 10*high-1).Draw(t, "wear high")
	l := Limits{On: Clearance, Of: "bore", New: Range{Low: tenThousandths(low), High: tenThousandths(high)}}
	l.Wear.High = tenThousandths(worn)
	return l
}

// anyRow draws either.
func anyRow(t *rapid.T) Limits {
	if rapid.Bool().Draw(t, "a size") {
		return sizeRow(t)
	}
	return gapRow(t)
}

// converted writes each limit in millimetres or centimetres, as a book does.
func converted(l Limits, unit string, places int) map[Field]string {
	also := map[Field]string{}
	for _, f := range Fields() {
		e := l.At(f).Exact()
		if unit == "cm" {
			e.Count *= 10
		}
		if e.Measured() {
			also[f] = "(" + e.Format(length.MM, places) + " " + unit + ")"
		}
	}
	return also
}

// metric draws how a book converts.
func metric(t *rapid.T) (unit string, places int) {
	places = rapid.IntRange(2, 4).Draw(t, "places")
	if rapid.Bool().Draw(t, "cm") {
		return "cm", places + 1
	}
	return "mm", places
}

// place draws one of the fields that are written.
func place(t *rapid.T, l Limits) Field {
	var written []Field
	for _, f := range Fields() {
		if !l.At(f).IsZero() {
			written = append(written, f)
		}
	}
	return rapid.SampledFrom(written).Draw(t, "field")
}

// misprinted draws another figure by a shifted point or two swapped neighbours.
func misprinted(t *rapid.T, w length.Written) length.Written {
	text := []byte(w.Number())
	if k := rapid.IntRange(-3, 3).Draw(t, "shift, or 0 to swap"); k != 0 {
		w.Places += k
		for ; k > 0; k-- {
			w.Length /= 10
		}
		for ; k < 0; k++ {
			w.Length *= 10
		}
		w.Places = max(w.Places, 0)
		return w
	}
	i := rapid.IntRange(0, len(text)-2).Draw(t, "swap at")
	j := i + 1
	switch {
	case text[i] == '.':
		return w
	case text[j] == '.':
		j++
	}
	text[i], text[j] = text[j], text[i]
	out, err := length.Parse(string(text), w.Unit)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// with returns the row with another length in a field.
func with(l Limits, f Field, w length.Written) Limits {
	*map[Field]*length.Written{
		NewLow: &l.New.Low, NewHigh: &l.New.High, WearLow: &l.Wear.Low, WearHigh: &l.Wear.High, Target: &l.Target,
	}[f] = w
	return l
}

func TestACorrectRowIsNeverDoubted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		unit, places := metric(t)
		c := Copied{Limits: l, Also: converted(l, unit, places)}
		if l.On == Size && rapid.Bool().Draw(t, "with its nominal") {
			c.Nominal = l.New.Low
		}
		if doubts := Doubts([]Copied{c}); len(doubts) > 0 {
			t.Fatalf("%v %v %v: %q", l.New, l.Wear, c.Also, said(doubts))
		}
	})
}

// seen reports whether a misprint moves a figure by more than the last digit of
// the coarser of its two printings.
func seen(wrong, right length.Written) bool {
	digit := length.Millimetre / 100
	if wrong.Places < 4 {
		digit = 10 * length.Inch
		for range wrong.Places + 1 {
			digit /= 10
		}
	}
	moved := wrong.Length - right.Length
	return moved < -digit || digit < moved
}

// A misprint in inches beside its conversion is caught, with what was meant
// named and no other field doubted.
func TestAMisprintBesideItsConversionIsCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		unit, places := metric(t)
		f := place(t, l)
		wrong := misprinted(t, l.At(f))
		if !seen(wrong, l.At(f)) {
			return
		}
		doubts := with(l, f, wrong).Doubts(converted(l, unit, places))
		if !names(doubts, f, l.At(f).Length) {
			t.Fatalf("%s for %s in %s of %v %v: %q", wrong, l.At(f), f, l.New, l.Wear, said(doubts))
		}
		for _, d := range doubts {
			if d.Field != f {
				t.Fatalf("%s for %s in %s: %q", wrong, l.At(f), f, said(doubts))
			}
		}
	})
}

// Two misprints of one row are caught as one is.
func TestTwoMisprintsAreCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		also := converted(l, "mm", 3)
		both := l
		for _, f := range []Field{NewLow, NewHigh} {
			wrong := misprinted(t, l.At(f))
			if !seen(wrong, l.At(f)) {
				return
			}
			both = with(both, f, wrong)
		}
		doubts := both.Doubts(also)
		for _, f := range []Field{NewLow, NewHigh} {
			if !names(doubts, f, l.At(f).Length) {
				t.Fatalf("%v for %v, %s: %q", both.New, l.New, f, said(doubts))
			}
		}
	})
}

// A misprint of the conversion is caught as well.
func TestAMisprintedConversionIsCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		f := place(t, l)
		also := converted(l, "mm", 3)
		right, err := ParsePrinted(also[f])
		if err != nil {
			t.Fatal(err)
		}
		wrong := misprinted(t, w(t, also[f][1:len(also[f])-1]))
		if moved := wrong.Length - right.Length(); -length.Inch/1_000 <= moved && moved <= length.Inch/1_000 || wrong.Places < 3 {
			return
		}
		also[f] = wrong.String()
		if doubts := l.Doubts(also); !names(doubts, f, right.Length()) {
			t.Fatalf("%s for %s beside %s: %q", wrong, right, l.At(f), said(doubts))
		}
	})
}

// A shifted point is caught by the limits beside it alone, and in both units at
// once.
func TestAShiftedPointIsCaughtByItsNeighbours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		f := place(t, l)
		wrong := l.At(f)
		also := map[Field]string{}
		if rapid.Bool().Draw(t, "to the right") {
			wrong.Length, wrong.Places = wrong.Length*10, wrong.Places-1
		} else {
			wrong.Length, wrong.Places = wrong.Length/10, wrong.Places+1
		}
		if rapid.Bool().Draw(t, "in both units") {
			also[f] = length.Of(wrong.Length).Format(length.MM, wrong.Places) + " mm"
		}
		if doubts := with(l, f, wrong).Doubts(also); !names(doubts, f, l.At(f).Length) {
			t.Fatalf("%s for %s in %s of %v %v: %q", wrong, l.At(f), f, l.New, l.Wear, said(doubts))
		}
	})
}

func TestExchangedLimitsAreCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyRow(t)
		swapped := l
		swapped.New = Range{Low: l.New.High, High: l.New.Low}
		doubts := swapped.Doubts(nil)
		if !names(doubts, NewLow, l.New.Low.Length) || !names(doubts, NewHigh, l.New.High.Length) {
			t.Fatalf("%v: %q", swapped.New, said(doubts))
		}
	})
}

// A slope keeps its number in every unit; turned as a length it is caught.
func TestATurnedSlopeIsCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := tenThousandths(rapid.Int64Range(1, 40).Draw(t, "ten-thousandths"))
		l := Limits{On: Taper, Of: "bore", Wear: Range{High: slope}, Per: w(t, "1 in")}
		right := map[Field]string{WearHigh: slope.Number() + " mm per mm"}
		if doubts := l.Doubts(right); len(doubts) > 0 {
			t.Fatalf("%s per in: %q", slope, said(doubts))
		}
		turned := map[Field]string{WearHigh: length.Of(slope.Length).Format(length.MM, 5) + " per mm"}
		want := length.Of(slope.Length).Times(int64(length.Millimetre)).Round() / length.Inch
		if doubts := l.Doubts(turned); !names(doubts, WearHigh, want) {
			t.Fatalf("%s turned into %s: %q", slope, turned[WearHigh], said(doubts))
		}
	})
}
