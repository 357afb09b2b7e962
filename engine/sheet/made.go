package sheet

import (
	"bytes"

	"borewright/engine"
	"borewright/engine/record"
)

// Form is one of the forms in which a session leaves the shop.
type Form uint8

// The forms of a sheet.
const (
	HTMLForm     Form = iota // a page for a browser
	PDFForm                  // a document to print
	ReadingsForm             // a table of readings as comma-separated text
	ResultsForm              // a table of results as comma-separated text
	JSONForm                 // the report of an assessment
)

// Forms are all forms, in the order in which they are offered.
func Forms() []Form { return []Form{HTMLForm, PDFForm, ReadingsForm, ResultsForm, JSONForm} }

// String is what a form is called in a list of them.
func (f Form) String() string {
	return [...]string{"HTML", "PDF", "CSV readings", "CSV results", "JSON"}[f]
}

// Suffix is what the name of a file in this form ends in, behind the title.
func (f Form) Suffix() string {
	return [...]string{".html", ".pdf", " readings.csv", " results.csv", ".json"}[f]
}

// Document reports whether the form is a document for people, which shows its
// figures in the units that are chosen. Tables and JSON have those of the
// session.
func (f Form) Document() bool { return f == HTMLForm || f == PDFForm }

// Made is a session in a form.
type Made struct {
	Form Form
	// Data is what stands in the file.
	Data []byte
	// Sheet is what a document shows; zero for the other forms.
	Sheet Sheet
}

// Make makes a session's sheet in a form. The error says why the session cannot
// be shown so.
func Make(f Form, s *engine.Session, u Units) (Made, error) {
	out := Made{Form: f}
	a := engine.Assess(s)
	var data bytes.Buffer
	var err error
	if f.Document() {
		if out.Sheet, err = Build(s, a, Options{Units: u}); err != nil {
			return out, err
		}
	}
	switch f {
	case HTMLForm:
		err = HTML(&data, out.Sheet)
	case PDFForm:
		err = PDF(&data, out.Sheet)
	case ReadingsForm:
		err = ReadingsCSV(&data, s)
	case ResultsForm:
		err = ResultsCSV(&data, s, a)
	case JSONForm:
		err = record.WriteJSON(&data, a.Report(s))
	}
	out.Data = data.Bytes()
	return out, err
}
