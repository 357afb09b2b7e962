package gauge

import "slices"

// Material is what a part, a master or a gauge is made of, as far as it grows
// with temperature.
type Material struct {
	Name string
	// Alpha is its linear expansion near 20 °C in 1e-6 per °C, and Doubt how far
	// to either side it may be, both as decimal text.
	Alpha, Doubt string
	// Source is where Alpha is printed.
	Source string
}

// The sources of expansions. One steel (1050) is printed as 11.2, 11.5, 12.1,
// 13.5 and 14.6, by range of temperature and by source (NIST engineering
// metrology notes, temperature): no printed expansion is taken as exact.
const (
	callister = "Callister, Materials Science and Engineering, Table B.6"
	swyt      = "Swyt, J. Res. NIST 99 (1994) 31"
	anyDoubt  = "1.0" // about the spread of that steel near 20 °C; common practice, no source
)

// Materials returns what expansions are known here. They pre-fill what is
// entered; the maker's figure governs.
func Materials() []Material {
	return []Material{
		{"grey cast iron", "11.4", anyDoubt, callister},
		{"ductile iron", "11.2", anyDoubt, callister},
		{"ductile iron, strong", "10.6", anyDoubt, callister},
		{"steel", "11.5", anyDoubt, swyt},
		{"steel 1040", "11.3", anyDoubt, callister},
		{"steel 4140", "12.3", anyDoubt, callister},
		{"steel 4340", "12.3", anyDoubt, callister},
		{"aluminium", "23.1", anyDoubt, swyt},
		{"aluminium 356", "21.5", anyDoubt, callister},
		{"aluminium 6061", "23.6", anyDoubt, callister},
	}
}

// FindMaterial returns the material of that name; ok is false when there is
// none.
func FindMaterial(name string) (m Material, ok bool) {
	all := Materials()
	i := slices.IndexFunc(all, func(m Material) bool { return m.Name == name })
	if i < 0 {
		return Material{}, false
	}
	return all[i], true
}
