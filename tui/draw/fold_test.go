package draw

import (
	"strings"
	"testing"
)

func TestHasWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text, words string
		want        bool
	}{
		{"Kittiwake, harbour launch", "", true},
		{"Kittiwake, harbour launch", "LAUNCH wake", true},
		{"Kittiwake, harbour launch", "launch goat", false},
		{"Zoë's café\x1b[31m", "zoe cafe", true},
		{"Zoe", "zoë", true},
		{"a\u202eb", "ab", true},
	} {
		if got := HasWords(Folded(c.text), strings.Fields(Folded(c.words))); got != c.want {
			t.Errorf("%q in %q: %v", c.words, c.text, got)
		}
	}
}
