package store

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"slices"

	"borewright/engine/record"
)

// Setting a changed byte right. Which changes of one byte an event can have had its
// checksum tells, and which of them it had the hash that the next event, or the list
// of sessions, holds of it. Nothing less is proof: the checksum alone is met by
// chance once in 65,000 events.

// ruin is a damaged event: the key before its frame, which in another file may be
// of another stream, and where the frame begins, with what follows.
type ruin struct {
	eventID
	key  []byte
	data []byte
}

// restore takes in the damaged events that can be set right: the last ones first,
// for each can be the proof of the one before.
func (q *quarry) restore() {
	slices.SortStableFunc(q.ruins, func(a, b ruin) int {
		return cmp.Or(cmp.Compare(a.id, b.id), cmp.Compare(b.n, a.n))
	})
	for _, r := range q.ruins {
		if len(q.events[r.id][r.n]) > 0 {
			continue
		}
		for _, hash := range q.hashesOf(r.eventID) {
			if line := r.setRight(hash); line != nil {
				q.event(eventKey(r.id, r.n), line)
				q.restored[r.eventID] = true
				break
			}
		}
	}
}

// restoredOf returns the numbers of the events of a stream that were set right.
func (q *quarry) restoredOf(id uint64) []int64 {
	var out []int64
	for e := range q.restored {
		if e.id == id {
			out = append(out, e.n)
		}
	}
	slices.Sort(out)
	return out
}

// hashesOf returns the hashes that an event is known to have had.
func (q *quarry) hashesOf(id eventID) []string {
	var out []string
	for _, next := range q.events[id.id][id.n+1] {
		out = append(out, next.prev)
	}
	if h := q.headings[id.id].Head; h.N == id.n {
		out = append(out, h.Hash)
	}
	return out
}

// setRight returns the event's text as it was kept, when no more than one byte of
// its frame is another and the text has the hash; else nil.
func (r ruin) setRight(hash string) []byte {
	for _, end := range r.ends() {
		frame := bytes.Clone(r.data[:end+crc32.Size])
		text := frame[1:end]
		if record.SumOf(text) == hash { // its checksum is what is damaged
			return text
		}
		if r.mend(frame, func() bool { return record.SumOf(text) == hash }) {
			return text
		}
	}
	return nil
}

// mend makes each change of one byte of the text that its checksum would be right
// with, until one is proven. What a change adds to the checksum depends on its bits
// and on how far behind the end its byte lies, and on nothing else: 250 bytes take
// a tenth of a millisecond.
func (r ruin) mend(frame []byte, proven func() bool) bool {
	end := len(frame) - crc32.Size
	wrong := binary.BigEndian.Uint32(frame[end:]) ^ checksum(r.key, frame[:end])
	adds := *castagnoli() // what each change of the last byte adds
	for at := end - 1; at > 0; at-- {
		for bits := range adds {
			if adds[bits] == wrong {
				frame[at] ^= byte(bits)
				if proven() {
					return true
				}
				frame[at] ^= byte(bits)
			}
			adds[bits] = castagnoli()[byte(adds[bits])] ^ adds[bits]>>8
		}
	}
	return false
}

// maxRestored is how long an event may be that is set right, and maxEnds how many
// of its braces are tried as its end.
const (
	maxRestored = 16 << 10
	maxEnds     = 64
)

// ends returns where the text may end: so far behind the name of its last field,
// the hash of the event before, and behind each brace that closes a field of text.
// The next event of the page is not reached.
func (r ruin) ends() []int {
	window := r.data[:min(len(r.data), maxRestored)]
	if next := bytes.Index(window[2:], []byte(`{"n":`)); next >= 0 {
		window = window[:next+2]
	}
	var out []int
	field := []byte(`"prev":"`)
	if at := bytes.LastIndex(window, field); at > 0 {
		if end := at + len(field) + base64.RawURLEncoding.EncodedLen(sha256.Size) + len(`"}`); end+crc32.Size <= len(window) {
			out = append(out, end)
		}
	}
	for at := len(window) - crc32.Size - 1; at > 1 && len(out) < maxEnds; at-- {
		if window[at-1] == '"' && window[at] == '}' {
			out = append(out, at+1)
		}
	}
	return out
}
