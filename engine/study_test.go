package engine_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/record"
)

// publishedStudy returns the rows of the AIAG MSA manual's study.
func publishedStudy(t *testing.T) []record.StudyRow {
	t.Helper()
	file, err := os.ReadFile("../testdata/checks/aiag_10x3x3.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := record.ReadStudyCSV(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func studyOf(t *testing.T, rows []record.StudyRow, method, tolerance string) engine.StudyReport {
	t.Helper()
	r, err := engine.StudyOf(rows, method, tolerance)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// AIAG MSA manual: %study 26.68 and 5 sizes by average and range, 27.86 and 4 by
// analysis of variance.
func TestStudyOfPublished(t *testing.T) {
	t.Parallel()
	for method, want := range map[string]struct {
		share    float64
		distinct int
	}{engine.StudyByRange: {26.68, 5}, engine.StudyByVariance: {27.86, 4}} {
		r := studyOf(t, publishedStudy(t), method, "4.0")
		gauge, ok := r.Component("gauge")
		if !ok || math.Abs(*gauge.OfTotal-want.share) > 0.02 || *r.Distinct != want.distinct {
			t.Errorf("%s: %v %%, %v sizes", method, *gauge.OfTotal, *r.Distinct)
		}
		if got := *gauge.OfTolerance; math.Abs(got-600*gauge.Deviation/4) > 1e-6 || *r.Tolerance != 4 {
			t.Errorf("%s: %v %% of the tolerance %v", method, got, *r.Tolerance)
		}
		if r.Values != 90 || r.Operators != 3 || r.Parts != 10 || r.Trials != 3 || r.Unit != "" || r.Pooled.DF != 60 {
			t.Errorf("%s: %+v", method, r)
		}
		if (r.Other != nil) != (method == engine.StudyByVariance) || r.Other != nil && r.Other.Interaction != "kept" {
			t.Errorf("%s: the other way is %+v", method, r.Other)
		}
	}
}

func TestStudyLines(t *testing.T) {
	t.Parallel()
	text := strings.Join(studyOf(t, publishedStudy(t), engine.StudyByVariance, "").Lines(), "\n")
	for _, want := range []string{
		"10 parts by 3 operators in 3 trials, by analysis of variance; standard deviations in the unit of the values:",
		"  gauge                0.30237     27.86 %        7.76 %",
		"The gauge tells 4 sizes of part apart",
		"The gauge takes 27.86 % of the total variation: may do.",
		"Analysis of variance, the interaction pooled with the repeatability:",
		"  interaction          0.35898    18    0.019943     0.434   0.974",
		"  total                 94.647    89",
		"  parts                 88.362     9      9.8180   245.614  <0.001",
		"The interaction kept instead:",
		"  interaction                0      0.00 %        0.00 %  (below zero, taken as none)",
		"Pooled repeatability of one reading: s 0.21443 with 60 degrees of freedom.",
		"Note: operator B, part 4: the values range further than the rest; look for a slip.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	text = strings.Join(studyOf(t, publishedStudy(t), engine.StudyByRange, "10").Lines(), "\n")
	for _, want := range []string{
		"by average and range", "of tolerance", "The gauge takes 18.35 % of the tolerance: may do.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if strings.Contains(text, "Analysis of variance") {
		t.Errorf("by range it tells\n%s", text)
	}
}

// Two operators who read two parts the other way round: that is no chance, so
// the interaction is kept, and pooling it is told beside.
func TestStudyKeepsAnInteraction(t *testing.T) {
	t.Parallel()
	var rows []record.StudyRow
	for i, v := range []string{"10", "11", "20", "21", "20", "21", "10", "11"} {
		rows = append(rows, record.StudyRow{Operator: "AB"[i/4 : i/4+1], Part: "12"[i/2%2 : i/2%2+1], Trial: i%2 + 1, Value: v})
	}
	r := studyOf(t, rows, engine.StudyByVariance, "")
	c, ok := r.Component("interaction")
	if r.Interaction != "kept" || !ok || math.Abs(c.Deviation*c.Deviation-99.75) > 1e-6 || r.Other.Interaction != "pooled" {
		t.Errorf("%s, %+v, the other way %+v", r.Interaction, c, r.Other)
	}
	if parts, _ := r.Component("parts"); !parts.Clamped || parts.Deviation != 0 {
		t.Errorf("parts %+v", parts)
	}
	text := strings.Join(r.Lines(), "\n")
	for _, want := range []string{
		"Analysis of variance, the interaction kept:", "The interaction pooled with the repeatability instead:",
		"Note: what the parts differ by came out below zero, less than the scatter alone makes, and is taken as none.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}

// The guide's bounds, from both sides: 600 standard deviations over a tolerance
// of as many percent.
func TestStudyGuide(t *testing.T) {
	t.Parallel()
	rows := rowsOf("1; 3") // its standard deviation is √2, 600 of it 848.528
	for tolerance, want := range map[string]string{
		"28.28": "not enough", "28.3": "may do", "84.8": "may do", "84.9": "good", "1000": "good",
	} {
		text := strings.Join(studyOf(t, rows, engine.StudyByVariance, tolerance).Lines(), "\n")
		if !strings.Contains(text, "of the tolerance: "+want+".") {
			t.Errorf("tolerance %s: not %q in\n%s", tolerance, want, text)
		}
	}
}

// rowsOf makes rows of values, set apart by blanks: one operator, one part.
func rowsOf(values string) []record.StudyRow {
	var rows []record.StudyRow
	for i, v := range strings.Split(values, "; ") {
		rows = append(rows, record.StudyRow{Operator: "A", Part: "1", Trial: i + 1, Value: v})
	}
	return rows
}

// One place read several times is a bench study: its repeatability, and nothing
// of operators and parts.
func TestStudyOfOnePlace(t *testing.T) {
	t.Parallel()
	for _, method := range engine.StudyMethods() {
		r := studyOf(t, rowsOf("3.7503 in; 3.7504 in; 3.7502 in; 3.7503 in"), method, "0.001")
		text := strings.Join(r.Lines(), "\n")
		for _, want := range []string{
			"1 part by 1 operator in 4 trials", "standard deviations in in:", "Note: one operator", "Note: one part",
			"s 0.000081650 in with 3 degrees of freedom", "of the tolerance",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", method, want, text)
			}
		}
		if _, ok := r.Component("parts"); ok || r.Unit != "in" || r.Distinct != nil {
			t.Errorf("%s: %+v", method, r)
		}
	}
	text := strings.Join(studyOf(t, rowsOf("3.7503"), "range", "").Lines(), "\n")
	if want := "1 value, by average and range.\nNote: nothing can be computed from it"; !strings.HasPrefix(text, want) {
		t.Errorf("one value:\n%s", text)
	}
}

// A long list of what is missing is cut.
func TestStudyNotesAreFew(t *testing.T) {
	t.Parallel()
	rows := publishedStudy(t)
	for i := range rows {
		rows[i].Part += rows[i].Operator // no part is read by all
	}
	notes := studyOf(t, rows, engine.StudyByRange, "").Notes
	if len(notes) != 14 || notes[12] != "and 48 more such" {
		t.Errorf("%d notes: %q", len(notes), notes)
	}
}

// Values keep their units, whichever they are: the report is in the first's.
func TestStudyInUnits(t *testing.T) {
	t.Parallel()
	inch := studyOf(t, rowsOf("1 in; 2 in"), "range", "1 in")
	mixed := studyOf(t, rowsOf("1 in; 50.8 mm"), "range", "25.4 mm")
	bare := studyOf(t, rowsOf("1; 2"), "range", "1")
	if inch.Pooled.Deviation != mixed.Pooled.Deviation || inch.Pooled.Deviation != bare.Pooled.Deviation ||
		*inch.Tolerance != *mixed.Tolerance || mixed.Unit != "in" || bare.Unit != "" {
		t.Errorf("%+v, %+v, %+v", inch.Pooled, mixed.Pooled, bare.Pooled)
	}
}

func TestStudyRefuses(t *testing.T) {
	t.Parallel()
	twice := append(rowsOf("1; 2"), record.StudyRow{Operator: "A", Part: "1", Trial: 2, Value: "3"})
	for want, c := range map[string]struct {
		rows      []record.StudyRow
		tolerance string
	}{
		"the study holds no values":   {nil, ""},
		`row 3, column value: "2 kg"`: {rowsOf("1 in; 2 kg"), ""},
		`row 3, column value: "2 in": either every value states its unit or none does`: {rowsOf("1; 2 in"), ""},
		`row 4, column value: "3": either every value states its unit or none does`:    {rowsOf("1 in; 2 in; 3"), ""},
		`row 2, column value: "999999"`:                                                {rowsOf("999999; 2"), ""},
		`tolerance "0": it is not above zero`:                                          {rowsOf("1; 2"), "0"},
		`tolerance "-1 in": it is not above zero`:                                      {rowsOf("1; 2"), "-1 in"},
		`tolerance "wide"`: {rowsOf("1; 2"), "wide"},
		`operator "A", part "1", trial 2: this trial is there twice`: {twice, ""},
	} {
		if _, err := engine.StudyOf(c.rows, engine.StudyByRange, c.tolerance); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// A report is JSON whatever the values, and reads as text.
func TestStudyReportsAnything(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) record.StudyRow {
			return record.StudyRow{
				Operator: rapid.SampledFrom([]string{"", "A", "B"}).Draw(t, "operator"),
				Part:     rapid.SampledFrom([]string{"1", "2", "3"}).Draw(t, "part"),
				Trial:    rapid.IntRange(1, 3).Draw(t, "trial"),
				Value:    rapid.StringMatching(`-?[0-9]{1,4}\.[0-9]{0,4}`).Draw(t, "value"),
			}
		}), 1, 20, func(r record.StudyRow) record.StudyRow { r.Value = ""; return r }).Draw(t, "rows")
		for _, method := range engine.StudyMethods() {
			r, err := engine.StudyOf(rows, method, "0.5")
			if err != nil {
				t.Fatal(err)
			}
			if _, err := json.Marshal(r); err != nil {
				t.Error(err)
			}
			text := strings.Join(r.Lines(), "\n")
			if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s", text)
			}
		}
	})
}
