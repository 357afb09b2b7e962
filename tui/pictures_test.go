package tui

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"image/color"
	"os"
	"strings"
	"testing"

	"github.com/charmbracelet/x/vt"
	"github.com/muesli/termenv"

	"borewright/tui/draw"
)

var redraw = flag.Bool("redraw", false, "write the pictures of the README anew")

// pictures are the screens that the README shows, by the name of their file.
var pictures = []struct {
	name string
	w, h int
	keys []string
}{
	{"measure", 80, 24, []string{"<enter>", "+3"}},
	{"measure-large", 140, 45, []string{"<enter>", "+4", "<enter>", "+3"}},
	{"held", 80, 24, []string{"<enter>", "102", "<enter>"}},
	{"worst", 80, 24, []string{"<enter>", "w"}},
	{"worst-large", 140, 45, []string{"<enter>", "w"}},
	{"fits", 80, 24, []string{"<enter>", "v", "<up>", "<up>", "3.7512", "<enter>"}},
	{"fits-large", 140, 45, []string{"<enter>", "v", "<up>", "<up>", "3.7512", "<enter>"}},
	{"countdown", 80, 24, []string{"<enter>", "v", "<up>", "<up>", "3.7512", "<enter>", "c", "24", "<enter>", "+8", "<enter>"}},
	{"bench", 80, 24, nil},
	{"bench-large", 140, 45, nil},
	{"setup", 80, 24, []string{"n", "1"}},
	{"limits", 80, 24, []string{"<enter>", "b"}},
	{"limits-large", 140, 45, []string{"<enter>", "b"}},
	{"limit-doubted", 80, 24, []string{"<enter>", "b", "<enter>", "3.5700", "<enter>"}},
	{"log", 80, 24, []string{"<enter>", "+4", "<enter>", "/", "/", "+5", "<enter>", "l", "f", "<down>"}},
	{"setup-large", 140, 45, []string{"n", "1"}},
	{"prep", 80, 24, []string{"<enter>", "p", "3", "11", "<enter>", "<enter>", "<enter>", "<enter>"}},
	{"prep-held", 80, 24, []string{"<enter>", "p", "1", "/8", "9", "<enter>", "<enter>"}},
	{"prep-large", 140, 45, []string{"<enter>", "p", "2", "/8", "14", "<enter>", "<enter>", "*"}},
}

// TestPictures draws the README's pictures from the real screens and holds the
// kept files to them: go test ./tui -run Pictures -redraw writes them anew.
func TestPictures(t *testing.T) {
	for _, p := range pictures {
		t.Run(p.name, func(t *testing.T) {
			s := newStation(t, p.w, p.h, "hillclimb", "launch")
			s.st.Palette = draw.NewPalette(true, termenv.TrueColor)
			s.keys(p.keys...)
			got := svg(s.r.View(), p.w, p.h, true)
			path := "../testdata/pictures/" + p.name + ".svg"
			if *redraw {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			kept, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(kept, got) {
				t.Errorf("%s is not what the screen shows now; -redraw writes it anew", path)
			}
		})
	}
}

// The size of a cell, and the colours of a terminal that is dark.
const (
	cellW, cellH = 9, 19
	paper, ink   = "#151719", "#d6d6d6"
)

// svg draws a screen with its colours, on dark paper or light.
func svg(view string, w, h int, dark bool) []byte {
	paper, ink := paper, ink
	if !dark {
		paper, ink = "#fbfaf6", "#202124"
	}
	screen := vt.NewEmulator(w, h)
	_, _ = screen.Write([]byte(strings.ReplaceAll(view, "\n", "\r\n")))
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="monospace" font-size="15" xml:space="preserve" shape-rendering="crispEdges">`+"\n", w*cellW, h*cellH)
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", paper)
	for y := range h {
		for x := 0; x < w; x++ {
			c := screen.CellAt(x, y)
			if c == nil || strings.TrimSpace(c.Content) == "" {
				continue
			}
			drawCell(&b, x, y, c.Content, hex(c.Style.Fg, ink))
		}
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// drawCell draws one sign; blocks become rectangles, which meet without gaps.
func drawCell(b *bytes.Buffer, x, y int, sign, fill string) {
	part, ok := blocks[sign]
	if ok {
		fmt.Fprintf(b, `<rect x="%g" y="%g" width="%g" height="%g" fill="%s"/>`+"\n",
			(float64(x)+part[0])*cellW, (float64(y)+part[1])*cellH, part[2]*cellW, part[3]*cellH, fill)
		return
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" fill="%s">`, x*cellW, y*cellH+14, fill)
	_ = xml.EscapeText(b, []byte(sign))
	b.WriteString("</text>\n")
}

// blocks are the parts of a cell that a block sign fills: left, top, width and
// height.
var blocks = map[string][4]float64{
	"█": {0, 0, 1, 1}, "▀": {0, 0, 1, .5}, "▄": {0, .5, 1, .5}, "▌": {0, 0, .5, 1}, "▐": {.5, 0, .5, 1},
	"━": {0, .42, 1, .16}, "─": {0, .47, 1, .06}, "═": {0, .4, 1, .2}, "┃": {.4, 0, .2, 1}, "│": {.46, 0, .08, 1},
}

func hex(c color.Color, ink string) string {
	if c == nil {
		return ink
	}
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}
