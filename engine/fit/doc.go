// Package fit computes what two parts make together: the running clearance of
// a hole and its shaft, the size that housings and shells make, and which of
// the sizes on offer fits.
//
// Clearance is diametral: hole less shaft. It is computed level by level where
// both have levels. Where they have not, an extreme made from different levels
// is a bound and not a clearance, and is marked so: see Clearance.Bound.
//
// Caveats:
//   - Which readings of a hole count is the caller's to choose: shells are
//     eccentric by design, so a bearing is read square to its parting line.
//   - Ranges of parts say what could come together, never what a clearance may
//     be; printed ranges do not always subtract to the printed clearance.
//   - Only ring gaps pass through floating point, being multiples of π.
package fit
