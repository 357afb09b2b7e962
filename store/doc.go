// Package store keeps sessions in one database file and alone touches paths.
//
// A session is a stream of events, and so is the shop. Keep numbers and seals
// events at once; one writer commits them in that order and Options.Notify
// hears what became of each. Memory is the same store without a file.
//
// The file is a bbolt database of six buckets:
//
//	meta      format    → the format's number
//	          index     → the number of the form of headings, uids and recent
//	          round     → the number of the tail's round
//	          backup    → the name under which the file is a backup, if it is one
//	events    id n      → an event's stored bytes, verbatim
//	headings  id        → the session's heading as JSON
//	uids      uid       → id
//	recent    touch     → id, the newest touch last
//	tail      a, b      → what was kept since bbolt's last transaction, see tail
//
// An id is 8 bytes and 0 is the shop; n is 4 bytes, a touch 8, all big-endian.
// Every value ends in a CRC-32C over its key and itself, because bbolt puts no
// checksum on its data pages; in the tail every frame does. Only meta, events and
// the tail are the truth: Rebuild makes the other three again.
//
// Caveats: one process at a time can open a file. After a panic inside bbolt
// the file is not touched again before the process ends. Windows keeps no
// owner-only permissions; the user's folder protects the file there. A disk
// that lies about its flushes can still lose what it said was kept.
package store
