package sheet

import (
	"bytes"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/record"
)

// A session that has only just begun has a title and nothing else: no layout,
// no plan, no finding.
func TestASheetOfASessionWithoutALayout(t *testing.T) {
	at := time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)
	e, err := record.Seal(record.Event{At: at, Body: record.Details{UID: "bare", Title: "bare", Unit: length.In}}, record.Head{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay([]record.Sealed{e})
	if err != nil {
		t.Fatal(err)
	}
	page := pageOf(t, built(t, s, ""))
	if !bytes.Contains(page, []byte("No layout is set.")) {
		t.Errorf("the sheet does not say that there is no layout")
	}
}
