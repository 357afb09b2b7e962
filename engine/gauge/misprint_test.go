package gauge_test

import (
	"testing"

	"borewright/engine/gauge"
)

// Misprints of published manuals, keyed beside the figure they stand for: the
// same slips that a hand makes. The right figure is the one that the other unit
// in the same print agrees with.
func TestPublishedMisprintsAreFound(t *testing.T) {
	for _, tt := range []struct {
		source, unit, graduation, beside, keyed string
		slip                                    gauge.Slip
		likely                                  string
	}{
		{"TM 9-2815-225-34&P: 5.483 in (13.972 cm)", "mm", "0.01 mm", "139.27", "139.72", gauge.Swapped, "139.27 mm"},
		{"TM 5-3895-369-14: 0.00942 in (2.3927 mm)", "in", "0.0001 in", "0.0942", "0.00942", gauge.Shifted, "0.0942 in"},
		{"TM 9-2815-220-24: 0.003 in (0.76 mm)", "in", "0.001 in", "0.030", "0.003", gauge.Shifted, "0.030 in"},
	} {
		c := inch(t)
		if tt.unit == "mm" {
			c = metric(t)
		}
		c.Instrument.Graduation = written(t, tt.graduation)
		c.Neighbours = sizes(t, tt.unit, tt.beside)
		r := gauge.Read(tt.keyed, c)
		if r.Kind != gauge.Held || r.Slip != tt.slip || r.Likely != tt.likely {
			t.Errorf("%s: Read(%q) = %+v", tt.source, tt.keyed, r)
		}
	}
}
