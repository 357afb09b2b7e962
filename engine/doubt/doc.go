// Package doubt says how far a figure may be from the truth, and what would
// bring it nearer.
//
// A [Reading] is what one place reads and why that may be wrong; a [Figure] is
// made of readings with signs, as a taper or a clearance is; its [Budget] adds
// the doubts up by their sources, so that what is common to both sides of a
// difference cancels (GUM, JCGM 100:2008, 5.2). A [Settlement] says how many
// more readings would take a figure clear of a limit. A [Study] takes a gauge,
// its operators and the parts apart.
//
// Caveats:
//   - Doubts are floating-point numbers of picometres, standard uncertainties
//     unless the word expanded stands beside them. Nothing here changes a size.
//   - Two contributions of one source are the same error, wholly; two of
//     different sources are independent. There is nothing between the two.
//   - Two contributions of one name are of one estimate: its degrees of freedom
//     count once, however many readings rest on it.
//   - A spread of readings is not Gaussian: see NoiseFloor.
//   - A coverage factor of 95 % says nothing of a slip of the hand.
package doubt
