package draw

import (
	"slices"
	"testing"

	"github.com/muesli/termenv"
	"pgregory.net/rapid"
)

func TestCanvasWrites(t *testing.T) {
	c := newCanvas(6, 3)
	c.write(1, 0, 9, "bore", Plain)
	c.write(4, 1, 9, "journal", Plain)
	c.centre(0, 2, 6, "é日", Plain)
	c.write(0, 7, 9, "below", Plain)
	c.put(-1, 0, "x", Plain)
	want := []string{" bore ", "    jo", " é日  "}
	if got := c.lines(nil); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestCanvasMendsHalvedSigns(t *testing.T) {
	tests := []struct {
		x    int
		sign string
		want string
	}{
		{0, "x", "x 語  "},
		{1, "x", " x語  "},
		{2, "x", "日x   "},
		{1, "本", " 本   "},
		{3, "本", "日 本 "},
		{5, "本", "日語  "},
	}
	for _, tt := range tests {
		c := newCanvas(6, 1)
		c.write(0, 0, 6, "日語", Plain)
		c.write(tt.x, 0, 6, tt.sign, Plain)
		if got := c.lines(nil)[0]; got != tt.want {
			t.Errorf("%q at %d: %q, want %q", tt.sign, tt.x, got, tt.want)
		}
	}
}

func TestCanvasStaysExact(t *testing.T) {
	p := NewPalette(true, termenv.ANSI)
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(0, 12).Draw(t, "w"), rapid.IntRange(0, 4).Draw(t, "h")
		c := newCanvas(w, h)
		for range rapid.IntRange(0, 8).Draw(t, "writes") {
			c.write(rapid.IntRange(-3, 14).Draw(t, "x"), rapid.IntRange(-1, 5).Draw(t, "y"),
				rapid.IntRange(-1, 14).Draw(t, "room"), styledText().Draw(t, "text"),
				Tone(rapid.IntRange(0, int(tones)-1).Draw(t, "tone")))
		}
		for _, palette := range []*Palette{nil, &p} {
			lines := c.lines(palette)
			fits(t, lines, w, h)
			for _, line := range lines {
				if Width(line) != w {
					t.Errorf("%q is %d cells wide, want %d", line, Width(line), w)
				}
			}
		}
	})
}
