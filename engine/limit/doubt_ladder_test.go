package limit_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

// ladder reads rungs in inches, two texts to a rung: its step and its size.
func ladder(t interface{ Fatal(...any) }, texts ...string) []Rung {
	inches := func(text string) length.Written {
		if text == "" {
			return length.Written{}
		}
		return w(t, text+" in")
	}
	var out []Rung
	for i := 0; i+1 < len(texts); i += 2 {
		out = append(out, Rung{By: inches(texts[i]), Size: inches(texts[i+1])})
	}
	return out
}

// equal reads rungs without steps.
func equal(t interface{ Fatal(...any) }, sizes ...string) []Rung {
	var texts []string
	for _, s := range sizes {
		texts = append(texts, "", s)
	}
	return ladder(t, texts...)
}

func TestLadders(t *testing.T) {
	for _, c := range []struct {
		name  string
		rungs []Rung
		at    int // -1 for no doubt
		guess Guess
	}{
		{"walls of undersizes, TM 9-2815-205-34 p. 3-203", ladder(t, "0", "0.1247", "0.002", "0.1257", "0.010", "0.1297", "0.020", "0.1347", "0.030", "0.1397"), -1, Guess{}},
		{"their digits swapped", ladder(t, "0", "0.1247", "0.002", "0.1257", "0.010", "0.1297", "0.020", "0.1374", "0.030", "0.1397"), 3, Guess{SwappedDigits, "0.1347 in"}},
		{"one grown by the whole step", ladder(t, "0", "0.1247", "0.002", "0.1257", "0.010", "0.1347", "0.020", "0.1347", "0.030", "0.1397"), 2, Guess{OffStep, "0.1297 in"}},
		{"oversizes, TM 9-2815-220-24 WP 0135 p. 8", ladder(t, "0", "5.7510", "0.010", "5.7610", "0.020", "5.7710", "0.030", "5.7810", "0.040", "5.7910"), -1, Guess{}},
		{"the last of them with digits swapped", ladder(t, "0", "5.7510", "0.010", "5.7610", "0.020", "5.7710", "0.030", "5.7810", "0.040", "5.9710"), 4, Guess{SwappedDigits, "5.7910 in"}},
		{"undersizes, TM 5-3805-262-34 p. 4-23", equal(t, "2.988", "2.978", "2.968"), -1, Guess{}},
		{"undersizes with a shifted point", equal(t, "2.988", "2.978", "29.68"), 2, Guess{ShiftedPoint, "2.968 in"}},
		{"oversizes with a shifted point", equal(t, "0.010", "0.020", "0.003", "0.040"), 2, Guess{ShiftedPoint, "0.030 in"}},
		{"the odd one in the middle", equal(t, "0.010", "0.020", "0.035", "0.040"), 2, Guess{OffStep, "0.030 in"}},
		{"a lost zero", equal(t, "5.005", "5.015", "5.25", "5.035"), 2, Guess{LostZero, "5.025 in"}},
		{"a size before the steps", equal(t, "0.002", "0.010", "0.020", "0.030"), -1, Guess{}},
		{"a step left out at the end", equal(t, "0.010", "0.020", "0.030", "0.040", "0.060"), -1, Guess{}},
		{"a step left out of three", equal(t, "0.010", "0.020", "0.040"), -1, Guess{}},
		{"more than one off", equal(t, "0.010", "0.025", "0.030", "0.047"), -1, Guess{}},
		{"two rungs", equal(t, "0.010", "0.200"), -1, Guess{}},
		{"one size all along", equal(t, "0.010", "0.010", "0.010"), -1, Guess{}},
		{"none", nil, -1, Guess{}},
	} {
		doubts := LadderDoubts(c.rungs)
		switch {
		case c.at < 0 && len(doubts) > 0:
			t.Errorf("%s: %v", c.name, doubts)
		case c.at < 0:
		case len(doubts) != 1 || doubts[0].Row != c.at || doubts[0].Reason != Uneven || len(doubts[0].Likely) != 1 || doubts[0].Likely[0] != c.guess:
			t.Errorf("%s: %+v, want rung %d likely %v", c.name, doubts, c.at, c.guess)
		case doubts[0].Written != c.rungs[c.at].Size.String() || doubts[0].Why == "":
			t.Errorf("%s: %+v", c.name, doubts[0])
		}
	}
}

// drawLadder draws a right ladder, with steps or equal ones.
func drawLadder(t *rapid.T) []Rung {
	from := rapid.Int64Range(1_000, 60_000).Draw(t, "from")
	step := rapid.Int64Range(5, 200).Draw(t, "half a step") * rapid.SampledFrom([]int64{2, -2}).Draw(t, "way")
	stepped := rapid.Bool().Draw(t, "with steps")
	part := rapid.SampledFrom([]int64{1, 2}).Draw(t, "part of the step")
	var out []Rung
	for i := range int64(rapid.IntRange(3, 7).Draw(t, "rungs")) {
		r := Rung{Size: tenThousandths(from*10 + i*step)}
		if stepped {
			r.By, r.Size = tenThousandths(i*step), tenThousandths(from*10+i*step/part)
		}
		out = append(out, r)
	}
	return out
}

func TestALadderOfEvenStepsIsNeverDoubted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rungs := drawLadder(t)
		if doubts := LadderDoubts(rungs); len(doubts) > 0 {
			t.Fatalf("%v: %v", rungs, doubts)
		}
	})
}

func TestAMisprintInALadderIsCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rungs := drawLadder(t)
		at := rapid.IntRange(0, len(rungs)-1).Draw(t, "rung")
		right := rungs[at].Size
		rungs[at].Size = misprinted(t, right)
		if rungs[at].Size.Length == right.Length {
			return
		}
		for _, d := range LadderDoubts(rungs) {
			if d.Row == at && w(t, d.Likely[0].Text).Length == right.Length {
				return
			}
		}
		t.Fatalf("%v at %d, %s for %s: %v", rungs, at, rungs[at].Size, right, LadderDoubts(rungs))
	})
}
