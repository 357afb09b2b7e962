package gauge

import (
	"testing"
	"time"
)

func TestPastDueBeginsTheDayAfter(t *testing.T) {
	noon := time.Date(2026, 3, 11, 12, 0, 0, 0, time.UTC)
	for due, want := range map[string]bool{"": false, "2026-03-12": false, "2026-03-11": false, "2026-03-10": true, "2025-12-31": true} {
		if got := (Instrument{Due: due}).PastDue(noon); got != want {
			t.Errorf("due %q: past due is %v", due, got)
		}
	}
}
