package engine_test

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
)

// checkAnswer writes an answer with as many decimals, and as much of a sign, as
// the expectation has. A word is itself whatever is expected.
type checkAnswer func(expected string) string

func inUnit(e length.Exact, u length.Unit) checkAnswer {
	return func(expected string) string {
		if strings.HasPrefix(expected, "+") {
			return e.FormatSigned(u, decimalsOf(expected))
		}
		return e.Format(u, decimalsOf(expected))
	}
}

func inNumbers(f float64) checkAnswer {
	return func(expected string) string { return strconv.FormatFloat(f, 'f', decimalsOf(expected), 64) }
}

func inWords(text string) checkAnswer { return func(string) string { return text } }

// decimalsOf counts the decimals of a number.
func decimalsOf(text string) int {
	_, after, _ := strings.Cut(text, ".")
	return len(after)
}

// checkGiven is what a row gives. It keeps the first error, and which names were
// asked for.
type checkGiven struct {
	texts map[string]string
	used  map[string]bool
	err   error
}

// fail keeps the first error.
func (g *checkGiven) fail(format string, args ...any) {
	if g.err == nil {
		g.err = fmt.Errorf(format, args...)
	}
}

// has reports whether a name is given.
func (g *checkGiven) has(name string) bool {
	_, ok := g.texts[name]
	return ok
}

// text returns what is given by a name, which must be there.
func (g *checkGiven) text(name string) string {
	g.used[name] = true
	if !g.has(name) {
		g.fail("%q is not given", name)
	}
	return g.texts[name]
}

// unit returns the unit of numbers without one.
func (g *checkGiven) unit() length.Unit {
	u, err := length.ParseUnit(g.text("unit"))
	if err != nil {
		g.fail("%w", err)
	}
	return u
}

// to returns the unit answers are in: "to" where it is given, else unit.
func (g *checkGiven) to() length.Unit {
	if !g.has("to") {
		return g.unit()
	}
	u, err := length.ParseUnit(g.text("to"))
	if err != nil {
		g.fail("%w", err)
	}
	return u
}

// parse reads one length, with its own unit or in the unit.
func (g *checkGiven) parse(text string) length.Written {
	bare := length.NoUnit
	if g.has("unit") {
		bare = g.unit()
	}
	w, err := length.Parse(text, bare)
	if err != nil {
		g.fail("%w", err)
	}
	return w
}

// length returns one length.
func (g *checkGiven) length(name string) length.Written { return g.parse(g.text(name)) }

// maybe returns one length, and nothing where the name is not given.
func (g *checkGiven) maybe(name string) length.Written {
	if !g.has(name) {
		return length.Written{}
	}
	return g.length(name)
}

// lengths returns a row of lengths in the unit.
func (g *checkGiven) lengths(name string) []length.Exact { return g.row(g.text(name)) }

func (g *checkGiven) row(text string) []length.Exact {
	var out []length.Exact
	for _, field := range strings.Fields(text) {
		out = append(out, g.parse(field).Exact())
	}
	return out
}

// grid returns lengths by level, set apart by semicolons, and direction.
func (g *checkGiven) grid(name string) [][]length.Exact {
	var out [][]length.Exact
	for _, level := range strings.Split(g.text(name), ";") {
		out = append(out, g.row(level))
	}
	return out
}

// span returns the two ends of a range.
func (g *checkGiven) span(name string) fit.Range {
	ends := g.lengths(name)
	if len(ends) != 2 {
		g.fail("%q gives %d ends of a range", name, len(ends))
		return fit.Range{}
	}
	return fit.Range{Low: ends[0].Round(), High: ends[1].Round()}
}

// whole returns a whole number.
func (g *checkGiven) whole(name string) int {
	n, err := strconv.Atoi(g.text(name))
	if err != nil {
		g.fail("%w", err)
	}
	return n
}

// wholes returns a row of whole numbers.
func (g *checkGiven) wholes(name string) []int {
	var out []int
	for _, field := range strings.Fields(g.text(name)) {
		n, err := strconv.Atoi(field)
		if err != nil {
			g.fail("%w", err)
		}
		out = append(out, n)
	}
	return out
}
