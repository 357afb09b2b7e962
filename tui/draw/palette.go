package draw

import (
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Palette is the style of every tone. The zero value styles nothing.
type Palette struct {
	Title  lipgloss.Style // headings
	Text   lipgloss.Style // ordinary text, always the terminal's own colours
	Dim    lipgloss.Style // what matters less
	Good   lipgloss.Style // inside
	Warn   lipgloss.Style // too close to call, suspect, held
	Bad    lipgloss.Style // outside
	Key    lipgloss.Style // a key to press
	Value  lipgloss.Style // a figure
	Frame  lipgloss.Style // lines around things
	Marked lipgloss.Style // the place or row that is meant now

	before, after [tones]string // what Paint puts around a text
	own           []string      // the sequences in them
}

// shade is one colour in the three depths of terminals. An empty one leaves
// the terminal's own colour.
type shade = lipgloss.CompleteColor

type shades struct{ dim, good, warn, bad, key, marked shade }

// The colours keep a contrast of 4.5 to 1 or more against black (dark) or
// white (light), and differ in lightness too, for eyes that do not part red
// from green.
var (
	onDark = shades{
		dim:    shade{TrueColor: "#9aa3ad", ANSI256: "247"},
		good:   shade{TrueColor: "#57c785", ANSI256: "78", ANSI: "10"},
		warn:   shade{TrueColor: "#ffd166", ANSI256: "221", ANSI: "11"},
		bad:    shade{TrueColor: "#ff7a66", ANSI256: "209", ANSI: "9"},
		key:    shade{TrueColor: "#8ecdf7", ANSI256: "117", ANSI: "14"},
		marked: shade{TrueColor: "#6fd3ff", ANSI256: "81", ANSI: "14"},
	}
	onLight = shades{
		dim:    shade{TrueColor: "#59616b", ANSI256: "241"},
		good:   shade{TrueColor: "#0b6b3c", ANSI256: "22", ANSI: "2"},
		warn:   shade{TrueColor: "#865700", ANSI256: "94", ANSI: "5"},
		bad:    shade{TrueColor: "#b3121d", ANSI256: "124", ANSI: "1"},
		key:    shade{TrueColor: "#0a4f8a", ANSI256: "24", ANSI: "4"},
		marked: shade{TrueColor: "#00538f", ANSI256: "25", ANSI: "4"},
	}
)

// NewPalette makes the styles for a dark or light terminal of the given colour
// depth. In 16 colours only the terminal's own named colours are used, and
// ordinary text, figures and frames keep its default colour, so that they stay
// legible when dark and light were told wrongly. termenv.Ascii gives no colour
// and no weight at all.
func NewPalette(dark bool, profile termenv.Profile) Palette {
	if profile == termenv.Ascii {
		return Palette{}
	}
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	r.SetHasDarkBackground(dark)
	of := onLight
	if dark {
		of = onDark
	}
	style := func(c shade) lipgloss.Style { return r.NewStyle().Foreground(c) }
	p := Palette{
		Title: r.NewStyle().Bold(true), Text: r.NewStyle(), Dim: style(of.dim),
		Good: style(of.good), Warn: style(of.warn).Bold(true), Bad: style(of.bad).Bold(true),
		Key: style(of.key).Bold(true), Value: r.NewStyle().Bold(true),
		Frame: style(of.dim), Marked: style(of.marked).Bold(true),
	}
	for t := range tones {
		p.before[t], p.after[t], _ = strings.Cut(p.Style(t).Render("."), ".")
		p.owns(p.before[t] + p.after[t])
	}
	return p
}

// Style gives the style of a tone.
func (p *Palette) Style(t Tone) lipgloss.Style {
	switch t {
	case Title:
		return p.Title
	case Dim:
		return p.Dim
	case Good:
		return p.Good
	case Warn:
		return p.Warn
	case Bad:
		return p.Bad
	case Key:
		return p.Key
	case Value:
		return p.Value
	case Frame:
		return p.Frame
	case Marked:
		return p.Marked
	default:
		return p.Text
	}
}

// Paint styles one line of text in a tone, as [NewPalette] made it, quicker
// than its style does. A nil or zero palette gives the text back unchanged.
func (p *Palette) Paint(t Tone, text string) string {
	if text == "" {
		return ""
	}
	before, after := p.around(t)
	return before + text + after
}

// around is what stands before and after a text in a tone.
func (p *Palette) around(t Tone) (before, after string) {
	if p == nil || t >= tones {
		return "", ""
	}
	return p.before[t], p.after[t]
}
