package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
)

// BenchmarkSpreadsheet assesses a full vee eight by "borewright assess", in turns
// with a spreadsheet that recalculates the same readings: each place's mean, and
// of every feature the smallest, the largest, the out-of-round and the taper. It
// has no limits, no doubts, no clearances and no ranking to work out.
func BenchmarkSpreadsheet(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	office, err := exec.LookPath("soffice")
	if err != nil {
		b.Skip("there is no soffice: not run")
	}
	station, dir := built(b, "cmd/borewright"), b.TempDir()
	s, events := wholeVee(b)
	file, table := filepath.Join(dir, "vee.json"), filepath.Join(dir, "vee.csv")
	var full bytes.Buffer
	if err := record.WriteFull(&full, lines(events)); err != nil {
		b.Fatal(err)
	}
	for path, data := range map[string][]byte{file: full.Bytes(), table: spreadsheet(b, s)} {
		if err := os.WriteFile(path, data, 0o600); err != nil {
			b.Fatal(err)
		}
	}
	recalculate := []string{
		"-env:UserInstallation=file://" + filepath.Join(dir, "office"), "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", filepath.Join(dir, "out"), table,
	}
	whole(b, office, recalculate...) // makes its settings
	sameFigures(b, s, filepath.Join(dir, "out"))
	var ours, sheet []float64
	for range rounds(5, 1) {
		ours = append(ours, whole(b, station, "assess", file))
		sheet = append(sheet, whole(b, office, recalculate...))
	}
	b.ReportMetric(median(ours), "assess-ms")
	b.ReportMetric(median(sheet), "spreadsheet-ms")
	b.ReportMetric(median(ours)/median(sheet), "spreadsheet-x")
}

func wholeVee(b *testing.B) (*engine.Session, []record.Sealed) {
	b.Helper()
	bodies := append(recordtest.Setup("vee"), recordtest.Read(recordtest.Whole, recordtest.Repeats)...)
	events, err := recordtest.Seal(recordtest.Events(bodies))
	if err != nil {
		b.Fatal(err)
	}
	s, err := engine.Replay(events)
	if err != nil {
		b.Fatal(err)
	}
	return s, events
}

// spreadsheet is a table with a line for each level of each feature, a cell for
// each direction with the mean of its readings as a formula, and behind the
// last level the formulas of the feature's figures.
func spreadsheet(b *testing.B, s *engine.Session) []byte {
	b.Helper()
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	row := 0
	write := func(cells ...string) {
		row++
		if err := w.Write(cells); err != nil {
			b.Fatal(err)
		}
	}
	for _, f := range s.Plan().Features(s.Layout()) {
		g, _ := s.Plan().Group(f.Family)
		last := string(rune('B' + len(g.Directions) - 1))
		first := row + 1
		for _, l := range g.Levels {
			cells := []string{f.String()}
			for _, d := range g.Directions {
				cells = append(cells, meanFormula(s, plan.Place{Of: f, Level: l.ID, Dir: d}))
			}
			write(append(cells, fmt.Sprintf("=MAX(B%d:%s%d)-MIN(B%d:%s%d)", row+1, last, row+1, row+1, last, row+1))...)
		}
		all, round := fmt.Sprintf("B%d:%s%d", first, last, row), string(rune(last[0]+1))
		write(f.String()+" figures", "=MIN("+all+")", "=MAX("+all+")",
			fmt.Sprintf("=MAX(%s%d:%s%d)", round, first, round, row), fmt.Sprintf("=B%d-B%d", first, row))
	}
	w.Flush()
	return out.Bytes()
}

// meanFormula is the mean of a place's readings, in millimetres.
func meanFormula(s *engine.Session, p plan.Place) string {
	var sizes []string
	for _, t := range s.Now(p) {
		sizes = append(sizes, s.SizeOf(t).Format(length.MM, 6))
	}
	return "=AVERAGE(" + strings.Join(sizes, ";") + ")"
}

// sameFigures holds the spreadsheet's smallest and largest sizes to ours.
func sameFigures(b *testing.B, s *engine.Session, dir string) {
	b.Helper()
	written, err := filepath.Glob(filepath.Join(dir, "*.csv"))
	if err != nil || len(written) != 1 {
		b.Fatalf("it wrote %v, %v", written, err)
	}
	data, err := os.ReadFile(written[0])
	if err != nil {
		b.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		b.Fatal(err)
	}
	a, compared := engine.Assess(s), 0
	for _, cells := range rows {
		name, ok := strings.CutSuffix(cells[0], " figures")
		if !ok {
			continue
		}
		f, err := plan.ParseFeature(name)
		if err != nil {
			b.Fatal(err)
		}
		m, _ := a.Feature(f)
		small, large := smallLarge(m)
		if got, err := strconv.ParseFloat(cells[1], 64); err != nil || fmt.Sprintf("%.4f", got) != fmt.Sprintf("%.4f", small) {
			b.Errorf("%s: smallest %s, ours is %.6f", name, cells[1], small)
		}
		if got, err := strconv.ParseFloat(cells[2], 64); err != nil || fmt.Sprintf("%.4f", got) != fmt.Sprintf("%.4f", large) {
			b.Errorf("%s: largest %s, ours is %.6f", name, cells[2], large)
		}
		compared++
	}
	if compared == 0 {
		b.Errorf("no figures in\n%.500s", data)
	}
}

// smallLarge are the smallest and the largest figure of a grid in millimetres.
func smallLarge(m engine.Measured) (small, large float64) {
	for _, row := range m.Grid.Values {
		for _, v := range row {
			x := v.Float() / float64(length.Millimetre)
			if small == 0 || x < small {
				small = x
			}
			large = max(large, x)
		}
	}
	return small, large
}
