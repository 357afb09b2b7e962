// Package record is the form of events and files: pure codecs over bytes.
//
// An event is a fact that happened, numbered from 1 without gaps and bound to
// the one before it by a hash. Nothing here reads a clock or a file.
//
// Caveats: stored bytes are kept verbatim, because the hash is over them; an
// event of a newer vocabulary is refused, never guessed at.
package record
