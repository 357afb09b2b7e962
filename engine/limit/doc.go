// Package limit holds what a figure may be: limits as somebody wrote them,
// whether a figure keeps to them, how much of its margin is used, and which of
// two judgements is the worse.
//
// Limits compare exactly, and a figure exactly on a limit is inside. Only the
// margin and the chance of conformance are floating-point numbers.
//
// Caveats:
//   - Limits are data. Nothing here derives a limit from another, but for a
//     limit printed per length, which Limits.Effective turns into a plain one.
//   - A Doubt is a question about what is written. Nothing is changed by it, and
//     what it names as likely is not known to be right.
//   - A tolerance class gives limits in millimetres only: see Class.
//   - A taper whose limits have no low side is judged by its magnitude: see
//     Limits.Signed.
//   - Zero Limits judge nothing: the verdict is NoLimits, not InsideNew.
//   - A figure without a reference to measure its margin from has a verdict
//     and no rank: see Judgement.Ranked.
package limit
