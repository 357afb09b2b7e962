package sheet

import (
	"io"
	"testing"

	"borewright/engine"
)

// benchmark measures how long the sheet of the measured launch takes, from its
// assessment to its last byte.
func benchmark(b *testing.B, write func(io.Writer, Sheet) error) {
	b.Helper()
	s := session(b, "launch-complete", 0)
	a := engine.Assess(s)
	for b.Loop() {
		made, err := Build(s, a, Options{Units: Both})
		if err != nil {
			b.Fatal(err)
		}
		if err := write(io.Discard, made); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHTML(b *testing.B) { benchmark(b, HTML) }

func BenchmarkPDF(b *testing.B) { benchmark(b, PDF) }
