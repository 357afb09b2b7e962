// Package gauge knows instruments, the masters they are zeroed on, and what a
// keyed text means on one of them.
//
// [Read] turns a keyed text into a meaning and answers one of three things. It
// is taken; or it is held, because it looks like a slip of the hand or the
// eye; or it is refused, because it is no reading at all. What was probably
// meant is only ever text to be shown: no key takes it.
//
// A comparator is keyed in graduations from zero, and a sign always means
// size, never needle travel: + is larger than the master. A direct instrument
// is keyed as a size with its point, or by its last digits once a size in full
// was read in the set.
//
// [Warm] is a reading with the temperatures of part, master and gauge: it gives
// the size at 20 °C, how doubtful inputs move it, and when they matter.
//
// Caveats:
//   - The thresholds of the slips are common practice, no source. They are
//     chosen so that a worn bore is not held; a slip smaller than wear cannot
//     be told from wear.
//   - Everything is diametral and exact, sizes at 20 °C too. Read knows nothing
//     of temperature or drift; [Warm] brings a size to 20 °C.
package gauge
