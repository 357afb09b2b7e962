package gauge

import "time"

// PastDue reports whether an instrument's calibration has ended: its due day is
// over on the day of now, where now is.
func (i Instrument) PastDue(now time.Time) bool {
	return i.Due != "" && now.Format(time.DateOnly) > i.Due
}
