// Package match chooses the best of many: which part goes to which position,
// and which of the sizes on hand each position gets.
//
//	Problem → Best → Result   parts to positions, one to each
//	Chain   → Best → Choice   an option for every position, from one stock
//
// What is best is a Score: as many positions filled as can be, then the fewest
// outside their limits, the fewest steps to a neighbour that are too large, the
// smallest worst margin used, the smallest sum of margins, and last the fewest
// parts moved, so that nothing moves for nothing.
//
// Caveats:
//   - Margins are compared to a billionth, and one above a million counts as a
//     million.
//   - Best of a Chain looks at a bounded number of choices: see Choice.Proven.
//     Best of a Problem is always the best there is.
package match
