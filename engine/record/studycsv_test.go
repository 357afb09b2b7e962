package record

import (
	"bytes"
	"errors"
	"io"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"
)

func TestReadStudyCSV(t *testing.T) {
	want := []StudyRow{{"A", "1", 1, "3.7503"}, {"A", "1", 2, "-3.7504 in"}}
	for name, text := range map[string]string{
		"plain":           "operator,part,trial,value\nA,1,1,3.7503\nA,1,2,-3.7504 in\n",
		"CR LF":           "operator,part,trial,value\r\nA,1,1,3.7503\r\nA,1,2,-3.7504 in\r\n",
		"no last break":   "operator,part,trial,value\nA,1,1,3.7503\nA,1,2,-3.7504 in",
		"another order":   "value,Trial,PART, appraiser \n3.7503,1,1,A\n-3.7504 in,2,1,A\n",
		"quoted":          "operator,part,trial,value\n\"A\",\"1\",\"1\",\"3.7503\"\nA,1,2,\"-3.7504 in\"\n",
		"blanks":          "operator,part,trial,value\n A , 1,1 ,3.7503\n\nA,1, 2,-3.7504 in \n",
		"a mark of UTF-8": "\ufeffoperator,part,trial,value\nA,1,1,3.7503\nA,1,2,-3.7504 in\n",
	} {
		for way, r := range map[string]io.Reader{"at once": strings.NewReader(text), "byte by byte": iotest.OneByteReader(strings.NewReader(text))} {
			if rows, err := ReadStudyCSV(r); err != nil || !reflect.DeepEqual(rows, want) {
				t.Errorf("%s, %s: %+v, %v", name, way, rows, err)
			}
		}
	}
}

// The table of AIAG's study, with its own heading and order of columns.
func TestReadStudyCSVOfAPublishedTable(t *testing.T) {
	file, err := os.Open("../../testdata/checks/aiag_10x3x3.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = file.Close() }()
	rows, err := ReadStudyCSV(file)
	if err != nil || len(rows) != 90 || rows[0] != (StudyRow{"A", "1", 1, "0.29"}) {
		t.Errorf("%d rows, %v", len(rows), err)
	}
}

func TestReadStudyCSVRefuses(t *testing.T) {
	const heading = "operator,part,trial,value\n"
	for name, c := range map[string]struct{ text, want string }{
		"nothing":           {"", "row 1: there is no heading operator,part,trial,value"},
		"a mark alone":      {"\ufeff", "row 1: there is no heading operator,part,trial,value"},
		"the heading alone": {heading, "row 2: there are no values below the heading"},
		"no heading":        {"A,1,1,3.7503\n", `row 1, column 1: "A": a study's columns are operator, part, trial and value`},
		"another column":    {"operator,part,trial,value,temperature\n", `row 1, column 5: "temperature": a study's columns are operator, part, trial and value`},
		"a column twice":    {"operator,part,appraiser,trial,value\n", `row 1, column 3: "appraiser": this column is there twice`},
		"a column missing":  {"operator,part,value\n", `row 1: "operator,part,value": the column trial is missing`},
		"semicolons":        {"operator;part;trial;value\n", `row 1: "operator;part;trial;value": columns are set apart by commas, not by semicolons`},
		"too few cells":     {heading + "A,1,1\n", "row 2: it has not as many columns as the heading; a number with a decimal comma stands in quotation marks"},
		"decimal comma":     {heading + "A,1,1,3.7503\nA,1,2,3,7504\n", "row 3: it has not as many columns as the heading; a number with a decimal comma stands in quotation marks"},
		"an open quote":     {heading + "A,1,1,\"3.7503\n", "row 2: a text in quotation marks does not end with one, or one inside it is not written twice"},
		"a bare quote":      {heading + "A,1,1,3.7503\"\n", "row 2: a text with a quotation mark in it stands in quotation marks itself"},
		"no part":           {heading + "A,,1,3.7503\n", "row 2, column part: it is missing"},
		"a long operator":   {heading + strings.Repeat("A", 65) + ",1,1,3.7503\n", `row 2, column operator: "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA…": at most 64 bytes long`},
		"an escape":         {heading + "\x1b[31m,1,1,3.7503\n", `row 2, column operator: "\x1b[31m": one line without control characters`},
		"trial 0":           {heading + "A,1,0,3.7503\n", `row 2, column trial: "0": at least 1`},
		"half a trial":      {heading + "A,1,1.5,3.7503\n", `row 2, column trial: "1.5": not a whole number`},
		"no value":          {heading + "A,1,1,\n", "row 2, column value: it is missing"},
		"no number":         {heading + "A,1,1,NaN\n", `row 2, column value: "NaN": not a number with its unit`},
		"an exponent":       {heading + "A,1,1,3e2\n", `row 2, column value: "3e2": a number here has no exponent`},
		"after empty lines": {heading + "\n\nA,1,1,x\n", `row 4, column value: "x": not a number with its unit`},
		"too many values":   {heading + strings.Repeat("A,1,1,3.7503\n", maxStudy+1), "row 100002, column value: a study has at most 100000 values"},
	} {
		rows, err := ReadStudyCSV(strings.NewReader(c.text))
		if err == nil || err.Error() != c.want || len(rows) > 0 {
			t.Errorf("%s: %d rows, %q, want %q", name, len(rows), err, c.want)
		}
	}
	if _, err := ReadStudyCSV(iotest.ErrReader(errors.New("the stick was pulled"))); err == nil || !strings.Contains(err.Error(), "the stick was pulled") {
		t.Errorf("a reader that fails: %v", err)
	}
	if _, err := ReadStudyCSV(endless{}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("a heading without an end: %v", err)
	}
}

// endless is a text that never ends.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	return len(p), nil
}

// FuzzReadStudyCSV: rows that are read are valid, print back and read the same.
func FuzzReadStudyCSV(f *testing.F) {
	f.Add([]byte("operator,part,trial,value\nA,1,1,3.7503\nA,1,2,\"-3,7504 in\"\n"))
	f.Add([]byte("\ufeffValue,trial,part,appraiser\r\n+5-,1,\"a \"\"b\"\"\",\r\n"))
	f.Add([]byte("operator;part;trial;value\n"))
	f.Add([]byte("operator,part,trial,value\nA,1,01,\xff\n\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := ReadStudyCSV(bytes.NewReader(data))
		if err != nil {
			if len(rows) > 0 || err.Error() == "" {
				t.Fatalf("%d rows with the error %v", len(rows), err)
			}
			return
		}
		if err := (Study{Instrument: "g", Method: "range", Rows: rows}).validate(0); err != nil {
			t.Fatalf("%q is read and is not valid: %v", data, err)
		}
		var printed bytes.Buffer
		if err := WriteStudyCSV(&printed, rows); err != nil {
			t.Fatal(err)
		}
		again, err := ReadStudyCSV(bytes.NewReader(printed.Bytes()))
		if err != nil || !reflect.DeepEqual(again, rows) {
			t.Fatalf("%q prints as %q and reads as %+v, %v", data, printed.Bytes(), again, err)
		}
	})
}
