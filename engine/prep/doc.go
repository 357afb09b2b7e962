// Package prep is the sign-off of what is measured: the steps that make a block
// or a crank ready, their order, and what was counted out and must come back.
//
//	Fact → State.Apply → Standing, Tally, Finding
//
// Its rules:
//   - A tick stands only while the steps before it stand, or it was forced over
//     those that did not.
//   - Work on metal withdraws the steps that it undoes (wash, above all) and
//     every step that rests on them; they are ticked anew.
//   - What was counted out stays counted out until as many are counted in or
//     accounted for.
//   - Nothing is forgotten: a tick that no longer stands is a Loss with its reason.
//
// Caveats: the order is that of published manuals where a Pair says so and
// common practice elsewhere. It advises; the part maker's data and local rules
// govern.
package prep
