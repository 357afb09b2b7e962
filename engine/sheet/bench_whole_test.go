package sheet

import (
	"io"
	"testing"

	"borewright/engine"
	"borewright/engine/record/recordtest"
)

// BenchmarkSheet makes the whole sheet of a full vee eight from its assessment:
// as one page of HTML and as a PDF.
func BenchmarkSheet(b *testing.B) {
	events, err := recordtest.Seal(recordtest.Events(append(recordtest.Setup("sheet"), recordtest.Read(recordtest.Whole, recordtest.Repeats)...)))
	if err != nil {
		b.Fatal(err)
	}
	s, err := engine.Replay(events)
	if err != nil {
		b.Fatal(err)
	}
	a := engine.Assess(s)
	for name, write := range map[string]func(io.Writer, Sheet) error{"html": HTML, "pdf": PDF} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sheet, err := Build(s, a, Options{})
				if err != nil {
					b.Fatal(err)
				}
				if err := write(io.Discard, sheet); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
