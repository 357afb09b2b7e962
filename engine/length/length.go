package length

// Length is a length in picometres: 1 mm is 1e9 and 1 in is 25 400 000 000.
// Parsed values lie within ±100 m; the type itself reaches ±9 223 km. The zero
// value is a length of zero.
type Length int64

// The lengths of the units, exact. Writing multiplies and reading divides. The
// inch is 25.4 mm: 24 FR 5348 (1959) and NIST SP 811 (2008) App. B.
const (
	Picometre  Length = 1
	Nanometre         = 1000 * Picometre
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Metre             = 1000 * Millimetre
	Microinch         = 25_400 * Picometre
	Inch              = 1_000_000 * Microinch
)

// limit is the largest magnitude that is read from text.
const limit = 100 * Metre
