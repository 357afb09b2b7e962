package store

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
)

var keepVersion = flag.String("keep-version", "", "keep a database of this version, such as v1, that is not kept yet")

const keptFolder = "../testdata/databases"

// TestKeptDatabases opens one database of every version there ever was and
// finds in it what was found then. A kept database is never written anew.
func TestKeptDatabases(t *testing.T) {
	if *keepVersion != "" {
		keepDatabase(t, filepath.Join(keptFolder, *keepVersion+".db"))
	}
	kept, err := filepath.Glob(filepath.Join(keptFolder, "*.db"))
	if err != nil || len(kept) == 0 {
		t.Fatalf("no database is kept in %s (%v)", keptFolder, err)
	}
	for _, path := range kept {
		t.Run(filepath.Base(path), func(t *testing.T) {
			want, err := os.ReadFile(strings.TrimSuffix(path, ".db") + ".txt")
			if err != nil {
				t.Fatal(err)
			}
			if got := assessed(t, copied(t, path)); got != string(want) {
				t.Errorf("assessed now:\n%s\nthen:\n%s", got, want)
			}
		})
	}
	t.Logf("PROOF | databases of every version there was | %d | 0 | the same sessions, judged as then", len(kept))
}

// copied returns a copy of a database, since opening one may write to it.
func copied(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "kept.db")
	if err := os.WriteFile(to, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return to
}

// assessed tells every session of a database: its digest, its log and what is
// judged of it.
func assessed(t *testing.T, path string) string {
	t.Helper()
	db, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}()
	headings, err := db.Headings(0)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	for _, h := range headings {
		events, err := db.Load(h.UID)
		if err != nil {
			t.Fatal(err)
		}
		s, err := engine.Replay(events)
		if err != nil {
			t.Fatal(err)
		}
		tell(&b, h, s)
	}
	return b.String()
}

func tell(b *bytes.Buffer, h record.Heading, s *engine.Session) {
	a := engine.Assess(s)
	fmt.Fprintf(b, "session %s: %d events, digest %s, state %q\n", h.UID, h.Head.N, h.Head.Hash, h.State)
	for _, e := range s.Events() {
		fmt.Fprintf(b, "  %d %s live=%v\n", e.N, e.Is(), s.Live(e.N))
	}
	for _, f := range a.Report(s).Findings {
		margin := "unranked"
		if f.Margin != nil {
			margin = fmt.Sprintf("%.6f", *f.Margin)
		}
		fmt.Fprintf(b, "  %s %s (%s) at %q %q: %q, %s, %s\n", f.Of, f.On, f.By, f.Level, f.Direction, f.Value, f.Verdict, margin)
	}
}

// keepDatabase makes a database with the demo and a session that has an event
// of every kind, and writes down what is found in it.
func keepDatabase(t *testing.T, path string) {
	t.Helper()
	if _, err := os.Stat(path); err == nil {
		t.Fatalf("%s is kept already, for ever", path)
	}
	db, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"launch", "hillclimb"} {
		appendFile(t, db, "../testdata/sessions/"+name+".json")
	}
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.FixedZone("", 3600))
	for i, body := range everyKind(t) {
		if _, err := db.Keep("every-kind", record.Event{At: at.Add(time.Duration(i) * time.Minute), By: "ek", Body: body}); err != nil {
			t.Fatalf("event %d (%s): %v", i+1, body.Is(), err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	_ = os.Remove(path + ".ballast")
	text := assessed(t, copied(t, path))
	if err := os.WriteFile(strings.TrimSuffix(path, ".db")+".txt", []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func appendFile(t *testing.T, db *DB, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	uid := file.Full.Events[0].Body.(record.Details).UID
	if err := db.Append(uid, file.Full.Lines); err != nil {
		t.Fatal(err)
	}
}

// everyKind is a session with an event of every kind there is.
func everyKind(t *testing.T) []record.Body {
	t.Helper()
	w := func(text string) length.Written {
		x, err := length.Parse(text, length.MM)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	bore := func(at int) plan.Feature { return plan.Feature{Family: plan.Bore, At: at} }
	reading := func(at int, level, dir, size, as string) record.Reading {
		return record.Reading{Of: bore(at), Level: level, Dir: dir, Set: "t1", Keyed: size, Via: record.ViaKeypad, Size: w(size), As: as}
	}
	return []record.Body{
		record.Details{UID: "every-kind", Title: "Every kind of event", Customer: "nobody", Engine: "an inline two", Unit: length.MM, Earlier: "before", Ran: "two seasons"},
		record.Layout{Layout: plan.Default(plan.Inline, 2, false)},
		record.Instrument{Instrument: gauge.Instrument{ID: "i1", Name: "inside micrometer", Kind: gauge.Direct, Contacts: 2, Unit: length.MM, Graduation: w("0.01"), Step: w("0.005")}},
		record.Plan{Plan: plan.Plan{Families: []plan.Group{
			{Family: plan.Bore, Nominal: w("70.00"), Levels: plan.Grid(plan.Bore, 2), Directions: []string{"across", "along"}, Instrument: "i1"},
			{Family: plan.Piston, Nominal: w("69.95"), Levels: plan.Grid(plan.Piston, 1), Directions: []string{"across"}, Instrument: "i1"},
			{Family: plan.Deck, Levels: plan.Grid(plan.Deck, 2), Directions: []string{plan.Once}},
		}}},
		record.Limit{Limits: limit.Limits{On: limit.OutOfRound, Of: "bore", New: limit.Range{High: w("0.01")}, Wear: limit.Range{High: w("0.05")}, JudgeBy: limit.Wear, Source: "invented"}},
		record.Limit{Limits: limit.Limits{On: limit.Clearance, Of: "bore", New: limit.Range{Low: w("0.03"), High: w("0.06")}, Target: w("0.04")}},
		record.Rules{Unit: length.MM, Judge: limit.New, Clearance: limit.SmallestLargest, StaleHours: 8},
		record.Given{Name: "stroke", Value: "80 mm", Source: "invented"},
		record.Table{Name: "ladder", Of: "bore", Rows: []map[string]string{{"step": "0.25 mm"}, {"step": "0.50 mm"}}, Source: "invented"},
		record.Setting{Setting: gauge.Setting{ID: "s1", Instrument: "i1", On: gauge.OnScale}},
		record.Set{Set: gauge.Set{ID: "t1", Setting: "s1", Plate: "none", At: gauge.Temperatures{Part: "20.5"}}},
		record.Zero{Set: "t1", Keyed: "0", Deviation: w("0.00")},
		reading(1, "a", "across", "70.01", record.First),
		reading(1, "a", "along", "70.00", record.First),
		reading(1, "b", "across", "70.03", record.First),
		reading(1, "b", "across", "70.02", record.Repeat),
		reading(1, "b", "across", "70.01", record.Replace),
		record.LeftOut{Of: bore(1), Level: "b", Dir: "along", Why: "a chamfer"},
		reading(2, "a", "across", "70.20", record.First),
		record.Withdrawn{Event: 19, Why: "the wrong bore"},
		record.Withdrawn{Event: 20},
		record.Moved{Readings: []int64{19}, Places: []plan.Place{{Of: bore(2), Level: "b", Dir: "across"}}},
		record.Work{Did: "honed", To: []plan.Feature{bore(1)}, Changes: []plan.Feature{bore(1)}, Metal: true, Amount: "0.02 mm"},
		reading(1, "a", "across", "70.03", record.First),
		record.Reading{Of: plan.Feature{Family: plan.Piston, At: 2}, Level: "a", Dir: "across", Set: "t1", Keyed: "69.97", Via: record.ViaCable, Size: w("69.97"), As: record.First},
		record.Reading{Of: plan.Feature{Family: plan.Deck, At: 1}, Level: "a", Dir: plan.Once, Keyed: "-0.10", Via: record.ViaFile, Size: w("-0.10"), As: record.First, Despite: "far from its neighbours"},
		record.Fitted{Part: plan.Feature{Family: plan.Piston, At: 2}, At: bore(1)},
		record.Intended{Actions: []record.Action{{Did: "hone", To: []plan.Feature{bore(2)}, Amount: "0.05 mm"}}},
		record.Steps{List: prep.List{{ID: "wash", Name: "wash", Text: "final wash", Kind: prep.Once}}},
		record.Done{Tick: prep.Tick{Step: "wash"}},
		record.Study{Instrument: "i1", Method: "range", Rows: []record.StudyRow{{Operator: "ek", Part: "1", Trial: 1, Value: "70.01"}}},
		record.Note{On: "bore/1", Text: "a light score, not felt"},
		record.State{State: record.Closed},
	}
}
