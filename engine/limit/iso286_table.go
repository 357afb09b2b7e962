package limit

import (
	"math"

	"borewright/engine/length"
)

// mostGrade and mostNominal are how far the table goes.
const (
	mostGrade   = 13
	mostNominal = 500 * length.Millimetre
)

// sizeRow is one range of nominal sizes.
type sizeRow struct {
	// over and upTo are in mm: "over 50 up to and including 80".
	over, upTo int64
	// it are IT1 to IT13 in tenths of a micrometre.
	it [mostGrade]int64
	// deviation is how far, in whole micrometres, the tolerance of a letter
	// lies from the nominal size: d to g inside the material's side of it and
	// their capitals as far on the other, k to p above it. h and js have none.
	deviation map[string]int64
}

// sizeRows are the standard tolerances of ISO 286-1:2010 Table 1 and the
// fundamental deviations of its Tables 2 to 5, for the letters of Covered.
//
// How each was had: the row over 50 up to 80 was seen in print (ISO 286-2). The
// rest of IT1 to IT11, of d to g and of k to p was written from memory and then
// compared with tables that others print from ISO 286 and from JIS B 0401
// (1999), and with ISO 286-2:1988/Cor.1:2006 for E8 and f9; IT12 and IT13 over
// 315 are from memory. Tests hold every figure against the formulas from which
// the standard rounds them (ISO 286-1:1988 annex A), and every tolerance from
// IT11 up against ten times the one five grades finer. Where formula and table
// differ the table governs.
var sizeRows = []sizeRow{
	{0, 3, tenths(8, 12, 20, 30, 40, 60, 100, 140, 250, 400, 600, 1000, 1400), letters(20, 14, 6, 2, 0, 2, 4, 6)},
	{3, 6, tenths(10, 15, 25, 40, 50, 80, 120, 180, 300, 480, 750, 1200, 1800), letters(30, 20, 10, 4, 1, 4, 8, 12)},
	{6, 10, tenths(10, 15, 25, 40, 60, 90, 150, 220, 360, 580, 900, 1500, 2200), letters(40, 25, 13, 5, 1, 6, 10, 15)},
	{10, 18, tenths(12, 20, 30, 50, 80, 110, 180, 270, 430, 700, 1100, 1800, 2700), letters(50, 32, 16, 6, 1, 7, 12, 18)},
	{18, 30, tenths(15, 25, 40, 60, 90, 130, 210, 330, 520, 840, 1300, 2100, 3300), letters(65, 40, 20, 7, 2, 8, 15, 22)},
	{30, 50, tenths(15, 25, 40, 70, 110, 160, 250, 390, 620, 1000, 1600, 2500, 3900), letters(80, 50, 25, 9, 2, 9, 17, 26)},
	{50, 80, tenths(20, 30, 50, 80, 130, 190, 300, 460, 740, 1200, 1900, 3000, 4600), letters(100, 60, 30, 10, 2, 11, 20, 32)},
	{80, 120, tenths(25, 40, 60, 100, 150, 220, 350, 540, 870, 1400, 2200, 3500, 5400), letters(120, 72, 36, 12, 3, 13, 23, 37)},
	{120, 180, tenths(35, 50, 80, 120, 180, 250, 400, 630, 1000, 1600, 2500, 4000, 6300), letters(145, 85, 43, 14, 3, 15, 27, 43)},
	{180, 250, tenths(45, 70, 100, 140, 200, 290, 460, 720, 1150, 1850, 2900, 4600, 7200), letters(170, 100, 50, 15, 4, 17, 31, 50)},
	{250, 315, tenths(60, 80, 120, 160, 230, 320, 520, 810, 1300, 2100, 3200, 5200, 8100), letters(190, 110, 56, 17, 4, 20, 34, 56)},
	{315, 400, tenths(70, 90, 130, 180, 250, 360, 570, 890, 1400, 2300, 3600, 5700, 8900), letters(210, 125, 62, 18, 4, 21, 37, 62)},
	{400, 500, tenths(80, 100, 150, 200, 270, 400, 630, 970, 1550, 2500, 4000, 6300, 9700), letters(230, 135, 68, 20, 5, 23, 40, 68)},
}

// tenths are the tolerances of a row.
func tenths(it ...int64) [mostGrade]int64 { return [mostGrade]int64(it) }

// letters names the deviations of a row.
func letters(d, e, f, g, k, m, n, p int64) map[string]int64 {
	return map[string]int64{"d": d, "e": e, "f": f, "g": g, "k": k, "m": m, "n": n, "p": p}
}

// rowOf returns the row of a nominal size; ok is false outside the table.
func rowOf(nominal length.Length) (row sizeRow, ok bool) {
	for _, r := range sizeRows {
		if nominal > length.Length(r.over)*length.Millimetre && nominal <= length.Length(r.upTo)*length.Millimetre {
			return r, true
		}
	}
	return sizeRow{}, false
}

// tolerance returns the tolerance of a grade, 0 where there is none.
func (r sizeRow) tolerance(grade int) length.Length {
	if grade < 1 || grade > mostGrade {
		return 0
	}
	return length.Length(r.it[grade-1]) * length.Micrometre / 10
}

// StandardTolerance returns the width of a standard tolerance grade, 1 to 13
// for IT1 to IT13, for a nominal size above 0 up to and including 500 mm (ISO
// 286-1:2010 Table 1). ok is false outside these.
func StandardTolerance(nominal length.Length, grade int) (width length.Length, ok bool) {
	row, ok := rowOf(nominal)
	width = row.tolerance(grade)
	return width, ok && width > 0
}

// GeometricMean returns the size, in millimetres, that stands for the whole
// range of sizes that a nominal lies in: the root of the product of its ends,
// of 1 and 3 mm for the first (ISO 286-1:1988 A.3.2). ok is false outside 0 to
// 500 mm.
func GeometricMean(nominal length.Length) (d float64, ok bool) {
	row, ok := rowOf(nominal)
	return math.Sqrt(float64(max(row.over, 1)) * float64(row.upTo)), ok
}

// ToleranceFactor returns the standard tolerance factor i in micrometres, for a
// size D in millimetres up to 500: 0.45·∛D + 0.001·D (ISO 286-1:1988 A.3.2). D
// is the geometric mean of a range of sizes, not a nominal size.
func ToleranceFactor(d float64) float64 { return 0.45*math.Cbrt(d) + 0.001*d }

// factors are how many factors i the grades from IT5 up are wide.
var factors = []float64{7, 10, 16, 25, 40, 64, 100, 160, 250}

// FormulaTolerance returns the width, in micrometres, of a grade from IT5 to
// IT13 as a multiple of i, before the standard rounds it: 7i, 10i, 16i, 25i,
// 40i, 64i, 100i, 160i, 250i. ok is false outside these and outside 0 to 500 mm.
// The rounded table, StandardTolerance, is what governs.
func FormulaTolerance(nominal length.Length, grade int) (width float64, ok bool) {
	d, ok := GeometricMean(nominal)
	if !ok || grade < 5 || grade >= 5+len(factors) {
		return 0, false
	}
	return factors[grade-5] * ToleranceFactor(d), true
}
