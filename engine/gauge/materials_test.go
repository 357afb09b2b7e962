package gauge_test

import (
	"testing"

	"borewright/engine/gauge"
)

// Expansions as printed: Swyt, J. Res. NIST 99 (1994) 31, and Callister,
// Materials Science and Engineering, Table B.6.
func TestMaterials(t *testing.T) {
	printed := map[string]string{
		"aluminium": "23.1", "steel": "11.5",
		"grey cast iron": "11.4", "ductile iron": "11.2", "ductile iron, strong": "10.6",
		"steel 4140": "12.3", "steel 4340": "12.3", "steel 1040": "11.3",
		"aluminium 356": "21.5", "aluminium 6061": "23.6",
	}
	all := gauge.Materials()
	if len(all) != len(printed) {
		t.Errorf("%d materials, %d printed", len(all), len(printed))
	}
	for _, m := range all {
		found, ok := gauge.FindMaterial(m.Name)
		if !ok || found != m || m.Alpha != printed[m.Name] || m.Source == "" {
			t.Errorf("%+v: printed %q, found %v", m, printed[m.Name], ok)
		}
		i := gauge.Instrument{
			ID: "x", Name: "x", Kind: gauge.Indicator, Unit: 1,
			Material: m.Name, Alpha: m.Alpha, AlphaDoubt: m.Doubt,
		}
		if err := i.Validate(); err != nil || m.Doubt == "" {
			t.Errorf("an instrument of %s: %v", m.Name, err)
		}
	}
	if m, ok := gauge.FindMaterial("unobtainium"); ok {
		t.Errorf("%+v", m)
	}
}
