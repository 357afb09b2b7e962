package engine

import (
	"fmt"
	"testing"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
)

// benchmarked replays a vee eight with so many readings of every place but the
// last round's, each with its budget.
func benchmarked(b *testing.B, bodies []record.Body) *Session {
	b.Helper()
	events, err := recordtest.Seal(recordtest.Events(bodies))
	if err != nil {
		b.Fatal(err)
	}
	s, err := Replay(events)
	if err != nil {
		b.Fatal(err)
	}
	return s
}

// BenchmarkAssess assesses a full vee eight with its budgets: with 700 readings,
// ten times and a hundred times as many.
func BenchmarkAssess(b *testing.B) {
	for _, times := range []int{1, 10, 100} {
		n := times * recordtest.Whole
		b.Run(fmt.Sprintf("%dx", times), func(b *testing.B) {
			s := benchmarked(b, append(recordtest.Setup("assess"), recordtest.Read(n, recordtest.Repeats)...))
			b.ReportAllocs()
			for b.Loop() {
				s.pooled = nil // as after a repeat
				Assess(s)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "us/reading")
		})
	}
}

// BenchmarkEnter takes one reading into a session and assesses what it touches,
// as Enter does: in a full session, and in one of 100,000 events.
func BenchmarkEnter(b *testing.B) {
	for name, bodies := range map[string][]record.Body{
		"whole": append(append(recordtest.Setup("enter"), recordtest.Read(recordtest.Whole, recordtest.Repeats)...), recordtest.Honed()),
		"long":  recordtest.Long("enter", 100_000),
	} {
		for _, as := range []string{record.First, record.Replace, record.Repeat} {
			b.Run(name+"/"+as, func(b *testing.B) { benchmarkEnter(b, bodies, as) })
		}
	}
}

func benchmarkEnter(b *testing.B, bodies []record.Body, as string) {
	b.Helper()
	s := benchmarked(b, bodies)
	a := Assess(s)
	reads := recordtest.Read(160, recordtest.Repeats)
	head := s.Head()
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		r := reads[i%len(reads)].(record.Reading)
		if r.As = as; i < len(reads) && as != record.First {
			r.As = record.First
		}
		b.StopTimer()
		e, err := record.Seal(record.Event{At: recordtest.Day, Body: r}, head)
		if err != nil {
			b.Fatal(err)
		}
		head = e.Head
		b.StartTimer()
		touched, err := s.Apply(e)
		if err != nil {
			b.Fatal(err)
		}
		a = a.Again(s, touched)
	}
}

// BenchmarkReplay replays 500 and 100,000 events that are decoded already.
func BenchmarkReplay(b *testing.B) {
	for _, n := range []int{500, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			events, err := recordtest.Seal(recordtest.Events(recordtest.Long("replay", n)))
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Replay(events); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkShells chooses shells for seven mains, three sizes a half, from stock
// that does not suffice for every wish, and says that nothing is better.
func BenchmarkShells(b *testing.B) {
	s := benchmarked(b, sevenMains(b))
	a := Assess(s)
	b.ReportAllocs()
	for b.Loop() {
		x := s.Shells(a, plan.MainBearing)
		if !x.Proven || len(x.Changes) == 0 {
			b.Fatalf("proven %v, %d changes, missing %v", x.Proven, len(x.Changes), x.Missing)
		}
	}
}

// sevenMains is a crank whose bearings want shells of both undersizes, of which
// there are not enough, and no two neighbours far apart.
func sevenMains(b *testing.B) []record.Body {
	b.Helper()
	inch := func(number string) length.Written {
		w, err := length.Parse(number, length.In)
		if err != nil {
			b.Fatal(err)
		}
		return w
	}
	group := func(f plan.Family) plan.Group {
		return plan.Group{Family: f, Nominal: inch("2.0000"), Levels: plan.Grid(f, 1), Directions: []string{"vertical"}}
	}
	bodies := []record.Body{
		record.Details{UID: "seven", Title: "Seven mains", Unit: length.In},
		record.Layout{Layout: plan.Default(plan.Inline, 6, false)},
		record.Plan{Plan: plan.Plan{Families: []plan.Group{group(plan.MainBearing), group(plan.MainJournal)}}},
		record.Limit{Limits: limit.Limits{On: limit.Clearance, Of: "main-bearing", New: limit.Range{Low: inch("0.0010"), High: inch("0.0030")}, Source: "invented"}},
		record.Limit{Limits: limit.Limits{On: limit.Step, Of: "main-bearing", New: limit.Range{High: inch("0.0010")}, Source: "invented"}},
		record.Table{Name: record.Shells, Of: "shell-main", Rows: []map[string]string{
			{"name": "thin", "undersize": "-0.001 in", "count": "3"},
			{"name": "standard", "undersize": "0 in", "count": "4"},
			{"name": "thick", "undersize": "0.001 in", "count": "5"},
		}},
	}
	for i, size := range []string{"2.0031", "2.0027", "2.0018", "2.0009", "2.0014", "2.0026", "2.0033"} {
		for f, w := range map[plan.Family]length.Written{plan.MainBearing: inch(size), plan.MainJournal: inch("2.0000")} {
			bodies = append(bodies, record.Reading{
				Of: plan.Feature{Family: f, At: i + 1}, Level: "a", Dir: "vertical", Keyed: w.Number(), Via: record.ViaFile, Size: w, As: record.First,
			})
		}
	}
	return bodies
}
