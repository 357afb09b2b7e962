package tui

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/muesli/termenv"

	"borewright/tui/draw"
)

var picturesTo = flag.String("pictures-to", "", "a folder to draw every screen into, at two sizes, dark and light")

// paint is how a screen is coloured.
type paint struct {
	name    string
	dark    bool
	profile termenv.Profile
}

var (
	plainPaint = paint{"no colour", true, termenv.Ascii}
	darkPaint  = paint{"dark", true, termenv.ANSI256}
	lightPaint = paint{"light", false, termenv.ANSI256}
	fewPaint   = paint{"dark, 16 colours", true, termenv.ANSI}
)

// look is one of everyScreen in a window and a paint.
type look struct {
	name string
	w, h int
	p    paint
}

// looked are the looks drawn so far: three tests look at the same ones.
var looked sync.Map

// looks draws one of everyScreen, once for all tests.
func looks(t *testing.T, name string, w, h int, p paint) string {
	t.Helper()
	l := look{name, w, h, p}
	shown, _ := looked.LoadOrStore(l, sync.OnceValue(func() string { return lookAt(t, l) }))
	return shown.(func() string)()
}

func lookAt(t *testing.T, l look) string {
	t.Helper()
	s := newStation(t, l.w, l.h, "hillclimb", "launch")
	s.st.Palette = draw.NewPalette(l.p.dark, l.p.profile)
	s.keys(everyScreen[l.name]...)
	return s.r.View()
}

// TestEveryScreenLooksAsKept holds every screen to its kept look: without
// colour at both sizes, and in colours at the smaller. go test ./tui -run
// EveryScreenLooks -redraw keeps them anew.
func TestEveryScreenLooksAsKept(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(everyScreen)) {
		var b strings.Builder
		for _, size := range [][2]int{{80, 24}, {140, 45}} {
			keepLook(&b, looks(t, name, size[0], size[1], plainPaint), fmt.Sprintf("%dx%d, no colour", size[0], size[1]))
		}
		for _, p := range []paint{darkPaint, lightPaint, fewPaint} {
			keepLook(&b, looks(t, name, 80, 24, p), "80x24, "+p.name)
		}
		path := filepath.Join("testdata", "every", strings.ReplaceAll(name, " ", "-")+".txt")
		if *redraw {
			if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if string(kept) != b.String() {
			t.Errorf("%s does not look as %s says; -redraw keeps it anew. Now:\n%s", name, path, looks(t, name, 80, 24, plainPaint))
		}
	}
}

// keepLook adds a screen under a heading, its escapes made visible and its
// blank ends taken away.
func keepLook(b *strings.Builder, view, heading string) {
	fmt.Fprintf(b, "== %s\n", heading)
	for _, line := range strings.Split(view, "\n") {
		b.WriteString(strings.TrimRight(strings.ReplaceAll(line, "\x1b", "^["), " ") + "\n")
	}
}

// TestNoColourLeavesNoEscape and TestColourChangesNoWord hold what a terminal
// without colours shows to what one with colours does.
func TestNoColourLeavesNoEscape(t *testing.T) {
	for name := range everyScreen {
		if view := looks(t, name, 80, 24, plainPaint); strings.Contains(view, "\x1b") {
			t.Errorf("%s without colours sends an escape", name)
		}
	}
}

func TestColourChangesNoWord(t *testing.T) {
	for name := range everyScreen {
		want := looks(t, name, 80, 24, plainPaint)
		for _, p := range []paint{darkPaint, lightPaint, fewPaint} {
			if got := stripped(looks(t, name, 80, 24, p)); got != want {
				t.Errorf("%s, %s, shows other words than without colours", name, p.name)
			}
		}
	}
}

// stripped takes the colours off a screen.
func stripped(view string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(view, "\x1b[") {
		if b.Len() > 0 || strings.HasPrefix(view, "\x1b[") {
			if _, rest, ok := strings.Cut(part, "m"); ok {
				part = rest
			}
		}
		b.WriteString(part)
	}
	return b.String()
}

// TestEveryPicture draws every screen at both sizes, dark and light, into the
// folder that -pictures-to names.
func TestEveryPicture(t *testing.T) {
	if *picturesTo == "" {
		t.Skip("no folder is named with -pictures-to")
	}
	for name := range everyScreen {
		for _, size := range [][2]int{{80, 24}, {140, 45}} {
			for _, p := range []paint{darkPaint, lightPaint} {
				file := fmt.Sprintf("%s-%dx%d-%s.svg", strings.ReplaceAll(name, " ", "-"), size[0], size[1], p.name)
				picture := svg(looks(t, name, size[0], size[1], p), size[0], size[1], p.dark)
				if err := os.WriteFile(filepath.Join(*picturesTo, file), picture, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
