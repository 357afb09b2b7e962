// Package form computes the form of one feature from its readings: size,
// out-of-round, taper, spread, shape, and the two-lobe fit of a section.
//
// All figures are diametral. From the same readings published manuals compute
// different figures under one name, so each figure here says by which
// definition it is made.
//
// Caveats:
//   - A missing reading is an unmeasured length.Exact. A figure is made of the
//     readings there are, and is itself not measured where they do not suffice.
//   - End to end needs both the first and the last planned level of its
//     direction. Spread needs any two levels, so it may be there alone.
//   - Out-of-round is what a two-contact gauge sees in the directions read: see
//     SeenShare. Odd lobes are not seen at all, and with a three-contact head
//     out-of-round and the two-lobe fit are not measured.
//   - Slopes and fits are floating-point numbers; everything else is exact.
package form
