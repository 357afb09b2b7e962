// Package length holds exact lengths: how they are read from text, averaged,
// compared, rounded and written back.
//
// A [Length] is a whole number of picometres, so that an inch, a millimetre
// and a microinch are all whole numbers and nothing keyed in any of them is
// ever rounded. A [Written] is a length as somebody wrote it, with its unit
// and its decimals. An [Exact] is what arithmetic makes of lengths: a mean of
// three readings, or half a difference, may be a fraction of a picometre.
//
// Rounding happens only for display, and always half to even on the decimal
// digits (NIST SP 811 (2008) B.7.1). [Exact.FormatBeside] never shows a value
// on the wrong side of a bound.
//
// Caveats:
//   - No floating point enters or leaves but by [Exact.Float] and
//     [Exact.Metres].
//   - A decimal comma is a decimal point: "1,234 mm" is a little over one
//     millimetre. There are no thousands separators.
//   - The zero [Exact] is not a length of zero: it is nothing measured. Use
//     Of(0) for a length of zero.
//   - An Exact keeps counts up to 1<<20. Past that, or where the sum no longer
//     fits 64 bits, a result is rounded half to even to 1 pm.
package length
