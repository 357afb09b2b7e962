package sheet

import (
	"bytes"
	"errors"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// FuzzReadCSV: a table is refused with a sentence, or its readings are events
// of a session that seal, or are refused with row and column.
func FuzzReadCSV(f *testing.F) {
	for _, text := range []string{
		"feature,level,direction,value\nbore/1,a,across,3.7503\n", "feature,level,across,along\nbore/1,top,+2,-1.5\n1,b,3.7503 in,\"95,25 mm\"\n",
		"\ufeffFeature,Level,Direction,Keyed (in),stage\r\nbore 1,1,along,3.75,final\r\n", "feature\n\n", "a;b\n1;2\n", "feature,level,direction,value\n\x1b[2J,\u202e,across,NaN\n",
		"feature,level,across\nbore/1,a,1e9\nbore/1,a,99999999999999999999\n\"",
	} {
		f.Add([]byte(text), true, "across=bore across")
		f.Add([]byte(text), false, "")
	}
	var bare *engine.Session
	f.Fuzz(func(t *testing.T, data []byte, inch bool, column string) {
		if bare == nil {
			bare = without(t, session(t, "launch", 0))
		}
		how := Mapping{Of: plan.Bore, Unit: length.MM}
		if inch {
			how.Unit = length.In
		}
		if column != "" {
			how.Columns = map[string]string{column: "across"}
		}
		in, err := ReadCSV(bytes.NewReader(data), how)
		if err != nil {
			worded(t, data, err)
			return
		}
		bodies, err := in.Into(bare)
		if err != nil {
			worded(t, data, err)
		}
		head := bare.Head()
		for _, b := range bodies {
			s, err := record.Seal(record.Event{At: lastAt(bare), Body: b}, head)
			if err != nil {
				t.Fatalf("%q gives %+v, which does not seal: %v", data, b, err)
			}
			head = s.Head
		}
	})
}

// worded holds an error to a sentence of row and column, without anything raw.
func worded(t *testing.T, data []byte, err error) {
	t.Helper()
	var field *record.FieldError
	if err.Error() == "" || !errors.As(err, &field) && !errors.Is(err, record.ErrTooLarge) {
		t.Fatalf("%q: %T %v", data, err, err)
	}
}
