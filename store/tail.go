package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"slices"

	"borewright/engine/record"
)

// The tail of the database. bbolt keeps a change with two flushes and five pages or
// more. Here it is written behind the one before it into a room that the file has
// for that, with one flush, and goes into its bucket with the next transaction of
// bbolt's, some twenty changes later: a reading is kept in half of the time.
//
// There are two rooms, values of one bucket that bbolt itself writes once and never
// again. A round is what is written between two transactions; it fills the room of
// its turn, and its number stands in the bucket meta. So a change of round is one
// transaction: what the room holds is in the buckets after it and the other room
// counts, or neither. The room of the round before keeps what it holds until then,
// for a file whose newer meta page is lost: the one before leads to the buckets of
// the round before, and both rooms together hold what came after them. So a round
// that began with more than its own rows takes no frame, and what a process writes
// first is a transaction: behind it lie only frames of its own.
//
// A frame is one change: how long it is, which of its round, the round, the rows,
// and a checksum over them all.

// roomSize is how many bytes a room is made with: with their page's header and their keys
// two fill 32 KiB but for a few bytes, which are 8 pages of 4 KiB, 4 of 8 or 2 of 16.
const roomSize = (32<<10 - 128) / 2

// mostInTail is the longest frame: a longer change goes into the buckets at once.
const mostInTail = roomSize / 4

const (
	frameHead = 4 + 4 + 8
	rowHead   = 1 + 1 + 2 + 4
)

var (
	tailBucket = []byte("tail")
	roomKeys   = [2][]byte{[]byte("a"), []byte("b")}
	roundKey   = []byte("round")
)

// tailed are the buckets whose rows can be in the tail, by their numbers there.
var tailed = [][]byte{eventsBucket, headingsBucket, uidsBucket, recentBucket}

// tail is what of a database is not in its buckets. It is never changed: a reader
// may hold it.
type tail struct {
	// rooms is where the two begin in the file, zero in one that has none, and size
	// how many bytes each has.
	rooms [2]int64
	size  int
	// round is the round of the buckets.
	round uint64
	// rows are what the frames hold, in their order.
	rows overlay
	// held is what the rooms hold that counts, for a copy of the file.
	held [2][]byte
	// n is how many frames of the round there are.
	n uint32
	// full means that the next change goes into the buckets, and later that some of
	// the rows are of the round after theirs.
	full, later bool
	// sole means that perhaps the newer meta page alone leads to what the buckets
	// hold: the round takes no frame then, or that page would take all its frames
	// with it.
	sole bool
}

// room returns which of the two rooms a round fills.
func room(round uint64) int { return int(round % 2) }

// at returns where in the file the next frame goes.
func (t *tail) at() int64 { return t.rooms[room(t.round)] + int64(len(t.held[room(t.round)])) }

// last returns the last bytes of the last frame, nil when the round has none.
func (t *tail) last() []byte {
	held := t.held[room(t.round)]
	return held[max(0, len(held)-crc32.Size):]
}

// takes reports whether the round takes a frame, and has room for it.
func (t *tail) takes(frame []byte) bool {
	return !t.sole && len(t.held[room(t.round)])+len(frame) <= t.size
}

// with returns the tail with one more frame of the rows.
func (t *tail) with(frame []byte, rows []row) *tail {
	next := *t
	next.rows = append(t.rows, rows...) //nolint:gocritic // nobody else's slice is longer
	at := room(t.round)
	next.held[at] = append(t.held[at], frame...)
	next.n++
	return &next
}

// after returns the round that follows once the rows are in the buckets, which fills
// the other room. What goes there in it continues this one only when the rows went
// alone: else its number is another than the next.
func (t *tail) after(alone bool) uint64 {
	if alone && !t.later {
		return t.round + 1
	}
	return t.round + 3
}

// emptied returns the tail after its rows went into the buckets.
func (t *tail) emptied(alone bool) *tail {
	next := t.after(alone)
	return &tail{rooms: t.rooms, size: t.size, round: next, sole: next != t.round+1}
}

// failed returns the tail after a frame of it could not be written.
func (t *tail) failed() *tail {
	next := *t
	next.full = true
	return &next
}

// frame returns the next frame, of the rows.
func (t *tail) frame(rows []row) []byte {
	be := binary.BigEndian
	data := make([]byte, frameHead, 1024)
	be.PutUint32(data[4:], t.n)
	be.PutUint64(data[8:], t.round)
	for _, r := range rows {
		gone := byte(0)
		if r.value == nil {
			gone = 1
		}
		data = append(data, tailedNumber(r.bucket), gone)
		data = be.AppendUint16(data, uint16(len(r.key)))
		data = be.AppendUint32(data, uint32(len(r.value)))
		data = append(append(data, r.key...), r.value...)
	}
	be.PutUint32(data, uint32(len(data)+crc32.Size))
	return be.AppendUint32(data, crc32.Checksum(data, castagnoli()))
}

func tailedNumber(bucket []byte) byte {
	return byte(slices.IndexFunc(tailed, func(b []byte) bool { return string(b) == string(bucket) }))
}

// frameAt returns the rows of the n-th frame of a round, with which the data must
// begin, and its length; ok is false when it does not. The round that stands in the
// frame may be damaged: the checksum tells.
func frameAt(data []byte, round uint64, n uint32) (rows []row, size int, ok bool) {
	be := binary.BigEndian
	if len(data) < frameHead+crc32.Size {
		return nil, 0, false
	}
	size = int(be.Uint32(data))
	if size < frameHead+crc32.Size || size > len(data) || be.Uint32(data[4:]) != n {
		return nil, 0, false
	}
	sum := crc32.Checksum(data[:8], castagnoli())
	sum = crc32.Update(sum, castagnoli(), be.AppendUint64(nil, round))
	end := size - crc32.Size
	if crc32.Update(sum, castagnoli(), data[frameHead:end]) != be.Uint32(data[end:]) {
		return nil, 0, false
	}
	rows, ok = rowsIn(data[frameHead:end])
	return rows, size, ok
}

// rowsIn returns the rows of a frame; ok is false when they make no sense.
func rowsIn(data []byte) (rows []row, ok bool) {
	be := binary.BigEndian
	for len(data) > 0 {
		if len(data) < rowHead || int(data[0]) >= len(tailed) {
			return nil, false
		}
		r, gone := row{bucket: tailed[data[0]]}, data[1] != 0
		key, value := uint64(be.Uint16(data[2:])), uint64(be.Uint32(data[4:]))
		if data = data[rowHead:]; uint64(len(data)) < key+value {
			return nil, false
		}
		r.key = data[:key]
		if !gone {
			r.value = data[key : key+value]
		}
		if r.prev, ok = prevOf(r); !ok {
			return nil, false
		}
		rows, data = append(rows, r), data[key+value:]
	}
	return rows, true
}

// prevOf returns the hash of the event before the one of a row, "" of any other row.
func prevOf(r row) (prev string, ok bool) {
	if !bytes.Equal(r.bucket, eventsBucket) {
		return "", true
	}
	line, err := framed(r.key, r.value)
	if err != nil {
		return "", false
	}
	e, _, err := record.DecodeEnvelope(line)
	return e.Prev, err == nil
}

// tornText says that the tail ends in what is no frame.
const tornText = "what was kept last was cut off or is damaged, so the last reading may be missing"

var errTail = errors.New("what was kept last is damaged before its end")

// contents are what a room holds of a round.
type contents struct {
	rows []row
	held []byte
	n    uint32
	// torn means that what follows can be a damaged frame of the round, or one that
	// the power was cut in.
	torn bool
}

// readRoom returns what a room holds of a round. The error is errTail when a good
// frame lies behind one that is not.
func readRoom(data []byte, round uint64) (c contents, err error) {
	for {
		rows, size, ok := frameAt(data[len(c.held):], round, c.n)
		if !ok {
			break
		}
		c.rows, c.held, c.n = append(c.rows, rows...), data[:len(c.held)+size], c.n+1
	}
	rest := data[len(c.held):]
	c.torn = len(rest) >= frameHead && binary.BigEndian.Uint64(rest[8:]) == round
	for at := 1; at+frameHead < len(rest); at++ {
		n := binary.BigEndian.Uint32(rest[at+4:])
		if n <= c.n || uint64(n) > uint64(len(data)/frameHead) {
			continue
		}
		if _, _, ok := frameAt(rest[at:], round, n); ok {
			return c, errTail
		}
	}
	return c, nil
}

// readTail returns the tail that the rooms hold behind buckets of a round; torn is
// true when its last change may be missing. When the newer meta page of the file was
// lost the buckets are those of the round before: then the other room holds what
// came later. A backup made of such a file has both too.
func readTail(rooms [2][]byte, round uint64, doubtful bool) (t *tail, torn bool, err error) {
	own := room(round)
	c, err := readRoom(rooms[own], round)
	t = &tail{size: len(rooms[own]), round: round, rows: c.rows, n: c.n}
	t.held[own] = c.held
	if err != nil {
		return t, c.torn, err
	}
	later, err := readRoom(rooms[1-own], round+1)
	if later.n > 0 {
		t.rows, t.held[1-own], t.later = append(t.rows, later.rows...), later.held, true
	}
	if c.torn && t.later && err == nil {
		err = errTail
	}
	torn = c.torn || later.torn
	// What a process that was killed wrote may not be on the disk yet, what is torn
	// stays as it lies, for salvage, and a damaged beginning is written anew.
	t.full = len(t.rows) > 0 || torn || doubtful
	t.sole = !t.full
	return t, torn, err
}
