package engine_test

import (
	"testing"

	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
)

// A clearance of a bore and a piston, each read more times with a gauge that
// reads 0.0001 in and repeats to 0.0001 in.
func clearanceRead(more int) doubt.Figure {
	read := func(key string) doubt.Reading {
		return doubt.Reading{
			Key: key, Step: length.Of(length.Inch / 10_000), Count: 1 + more,
			Repeat: doubt.Estimate{S: float64(length.Inch) / 10_000, DF: 30},
		}
	}
	return doubt.Of(read("bore/1")).Less(doubt.Of(read("piston/1")))
}

// What settles a clearance settles its verdict: with guard bands it is too close
// to call until so many readings were taken, and a clearance too near for the
// gauge stays so. Under simple acceptance both are inside, with their chance.
func TestDecisionsAreSettled(t *testing.T) {
	t.Parallel()
	high := length.Written{Length: 5 * length.Inch / 1000, Unit: length.In, Places: 4}
	l := limit.Limits{On: limit.Clearance, Of: "bore", New: limit.Range{High: high}}
	for _, c := range []struct {
		inside length.Length
		more   int
		want   limit.Verdict
	}{
		{12 * length.Inch / 100_000, 0, limit.TooClose},
		{12 * length.Inch / 100_000, 4, limit.TooClose},
		{12 * length.Inch / 100_000, 5, limit.InsideNew},
		{5 * length.Inch / 100_000, 5, limit.TooClose},
		{5 * length.Inch / 100_000, 10_000, limit.TooClose},
	} {
		b, err := clearanceRead(c.more).Budget()
		if err != nil {
			t.Fatal(err)
		}
		y := length.Of(high.Length - c.inside)
		subject := limit.Subject{Doubt: b.Guard(doubt.Coverage{}), Guard: true}
		if got := l.Judge(y, subject); got.Verdict != c.want {
			t.Errorf("%d pm inside, %d more: %v, want %v", c.inside, c.more, got.Verdict, c.want)
		}
		subject.Guard = false
		if got := l.Judge(y, subject); got.Verdict != limit.InsideNew || got.Doubtful != (c.want == limit.TooClose) {
			t.Errorf("%d pm inside, %d more, simple acceptance: %+v", c.inside, c.more, got)
		}
		if p := l.New.Chance(y, b.U); !(p > 0.5 && p < 1) {
			t.Errorf("%d pm inside, %d more: a chance of %v", c.inside, c.more, p)
		}
		s, err := clearanceRead(0).Settle(c.inside, doubt.Coverage{})
		if err != nil || s.Finer != (c.inside == 5*length.Inch/100_000) || !s.Finer && s.More != 5 {
			t.Errorf("%d pm inside: %+v, %v", c.inside, s, err)
		}
	}
}
