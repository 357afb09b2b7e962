// Package engine is everything that is true of metal, and the question asked
// of it: a session is replayed from its events and assessed.
//
//	events → Replay / Session.Apply → Assess → Assessment
//
// Nothing here reads a clock, a file or a terminal, and nothing computed is
// stored: the same events give the same assessment for ever.
//
// Caveats: a Session is not safe for use by several goroutines at once. The
// program advises; the part maker's data, local codes and a qualified person
// govern.
package engine
