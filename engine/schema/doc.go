// Package schema writes JSON Schemas, draft 2020-12, of Go types: what a type
// does not say of its fields (what they mean, which must be there, which words
// they may hold) stands in a table beside it, and the two must fit.
//
// Caveats: it knows only the keywords that are used here; patterns are kept to
// what the regular expressions of ECMA-262 and of Go have in common.
package schema
