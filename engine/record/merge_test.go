package record_test

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/record"
)

func lines(texts ...string) [][]byte {
	out := make([][]byte, len(texts))
	for i, t := range texts {
		out[i] = []byte(t)
	}
	return out
}

func TestMerge(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		ours, theirs, missing [][]byte
		diverged              int64
	}{
		"both empty":        {nil, nil, nil, 0},
		"new here":          {nil, lines("a", "b"), lines("a", "b"), 0},
		"the same":          {lines("a", "b"), lines("a", "b"), nil, 0},
		"they go on":        {lines("a"), lines("a", "b", "c"), lines("b", "c"), 0},
		"we go on":          {lines("a", "b", "c"), lines("a"), nil, 0},
		"nothing of theirs": {lines("a"), nil, nil, 0},
		"another beginning": {lines("a", "b"), lines("x", "b"), nil, 1},
		"another end":       {lines("a", "b"), lines("a", "x"), nil, 2},
		"in the middle":     {lines("a", "b", "c"), lines("a", "x", "c", "d"), nil, 2},
		"a longer event":    {lines("a", "b"), lines("a", "bb"), nil, 2},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			missing, err := record.Merge(c.ours, c.theirs)
			var diverged *record.DivergedError
			if errors.As(err, &diverged) != (c.diverged > 0) || diverged != nil && diverged.N != c.diverged {
				t.Fatalf("error %v, want one at event %d", err, c.diverged)
			}
			if diverged != nil && !errors.Is(err, record.ErrDiverged) {
				t.Errorf("%v is not ErrDiverged", err)
			}
			if !slices.EqualFunc(missing, c.missing, slices.Equal) {
				t.Errorf("missing %q, want %q", missing, c.missing)
			}
		})
	}
}

// Ours with what is missing is the longer of the two whenever one begins the
// other; where it does not, the first difference is named.
func TestMergeProperty(t *testing.T) {
	t.Parallel()
	event := rapid.SliceOfN(rapid.ByteRange('a', 'c'), 1, 2)
	rapid.Check(t, func(t *rapid.T) {
		common := rapid.SliceOfN(event, 0, 5).Draw(t, "common")
		ours := append(slices.Clone(common), rapid.SliceOfN(event, 0, 3).Draw(t, "ours")...)
		theirs := append(slices.Clone(common), rapid.SliceOfN(event, 0, 3).Draw(t, "theirs")...)
		missing, err := record.Merge(ours, theirs)
		n := 0
		for n < len(ours) && n < len(theirs) && slices.Equal(ours[n], theirs[n]) {
			n++
		}
		if n < len(ours) && n < len(theirs) {
			var diverged *record.DivergedError
			if !errors.As(err, &diverged) || diverged.N != int64(n)+1 || missing != nil {
				t.Fatalf("%q, %v, want the difference at event %d", missing, err, n+1)
			}
			return
		}
		longer := ours
		if len(theirs) > len(ours) {
			longer = theirs
		}
		if got := append(slices.Clone(ours), missing...); err != nil || !slices.EqualFunc(got, longer, slices.Equal) {
			t.Fatalf("%q and %q make %q, %v", ours, theirs, got, err)
		}
	})
}
