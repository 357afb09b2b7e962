// Package powercut replays what a program asked of its disk and cuts the power
// in between: of what was not flushed, any 512-byte sectors land and others do
// not, sizes and names fall back to any earlier moment. A trace is recorded by
// strace, or read from a compact file that was made from one.
//
// Caveats. A disk that lies about its flushes is outside of it, and so is a
// sector written by half. Names are flushed by a sync of their folder alone,
// which is less than most file systems promise. All files lie in one folder.
package powercut
