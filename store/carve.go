package store

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"strings"
	"time"
	"unicode"

	"borewright/engine/length"
	"borewright/engine/record"
)

// Finding events in bytes without believing anything about them. A key lies
// directly before its value wherever bbolt puts the two, and the value begins
// with its version, holds JSON and ends in a checksum over both: what has that
// shape and the right checksum was written by this program. So neither a
// damaged tree nor a damaged page hides an event of which no byte is changed.

// The sizes of the keys that JSON is stored under: an event and a heading.
const (
	eventKeySize   = 12
	headingKeySize = 8
)

// mostEvents is how many events of a stream are believed, more than ten times what
// was ever measured: each that is lost takes a note, and a forged number would
// fill the memory with them.
const mostEvents = 1 << 20

// leaf is an event that was found; two of the same bytes are one.
type leaf struct {
	id   uint64
	n    int64
	line []byte
	sum  string
	prev string
	// newer says that it is of a newer vocabulary.
	newer bool
	// copied says that another file had it.
	copied bool
	// reached says that the tree of the database leads to it.
	reached bool
}

// quarry is what was found in a file, and in those that were joined to it.
type quarry struct {
	events map[uint64]map[int64][]leaf
	// headings are the newest that were found.
	headings map[uint64]record.Heading
	// strange are events with the right checksum that make no sense.
	strange int64
	// ruins are where damaged events lie, remains is what can be read of them, and
	// restored are those that were set right.
	ruins    []ruin
	remains  map[eventID]remains
	restored map[eventID]bool
}

func newQuarry() *quarry {
	return &quarry{
		events: map[uint64]map[int64][]leaf{}, headings: map[uint64]record.Heading{},
		remains: map[eventID]remains{}, restored: map[eventID]bool{},
	}
}

// carve takes in every event and heading in the data, which must not change
// afterwards.
func (q *quarry) carve(data []byte) {
	for at := headingKeySize; at+frameExtra < len(data); {
		if data[at] != frameVersion || data[at+1] != '{' {
			at++
			continue
		}
		if at >= eventKeySize {
			key := data[at-eventKeySize : at]
			if payload := carved(key, data[at:]); payload != nil {
				q.event(key, payload)
				at += len(payload) + frameExtra
				continue
			}
		}
		key := data[at-headingKeySize : at]
		if payload := carved(key, data[at:]); payload != nil {
			q.heading(key, payload)
			at += len(payload) + frameExtra
			continue
		}
		q.ruin(data, at)
		at++
	}
}

// ruin takes in what can be read of a damaged event whose frame begins there, if
// the number that its text begins with is that of its key.
func (q *quarry) ruin(data []byte, at int) {
	if at < eventKeySize {
		return
	}
	id, n, _ := parseEventKey(data[at-eventKeySize : at])
	q.ruins = append(q.ruins, ruin{eventID{id, n}, data[at-eventKeySize : at], data[at:]})
	begins := fmt.Appendf(nil, `{"n":%d,`, n)
	text := data[at+1 : min(len(data), at+1+record.MaxEvent)]
	if !bytes.HasPrefix(text, begins) {
		return
	}
	if next := bytes.Index(text[1:], begins[:len(`{"n":`)]); next >= 0 {
		text = text[:next]
	}
	q.remains[eventID{id, n}] = remainsOf(text)
}

// carved returns what the frame at the beginning of the data holds, nil when
// there is no frame of the key. A text ends in a brace, perhaps with blanks
// behind it, and has no control characters.
func carved(key, data []byte) []byte {
	sum, done, brace := crc32.Checksum(key, castagnoli()), 0, false
	for i := 1; i+crc32.Size < len(data) && i < maxFrame; i++ {
		switch b := data[i]; {
		case b == '}':
			brace = true
		case b < ' ' && b != '\t':
			return nil
		case b != ' ' && b != '\t':
			brace = false
		}
		if !brace {
			continue
		}
		sum, done = crc32.Update(sum, castagnoli(), data[done:i+1]), i+1
		if sum == binary.BigEndian.Uint32(data[done:]) {
			return data[1:done]
		}
	}
	return nil
}

func (q *quarry) event(key, line []byte) {
	id, n, _ := parseEventKey(key)
	e, err := record.Decode(line)
	newer := errors.Is(err, record.ErrNewer)
	if newer {
		e, _, err = record.DecodeEnvelope(line)
	}
	if err != nil || e.N != n || n > mostEvents {
		q.strange++
		return
	}
	q.add(leaf{id: id, n: n, line: line, sum: record.SumOf(line), prev: e.Prev, newer: newer})
}

// add takes in an event unless it is there already.
func (q *quarry) add(l leaf) {
	if q.events[l.id] == nil {
		q.events[l.id] = map[int64][]leaf{}
	}
	if list := q.events[l.id][l.n]; !has(list, l) {
		q.events[l.id][l.n] = append(list, l)
	}
}

func (q *quarry) heading(key, text []byte) {
	var h record.Heading
	if json.Unmarshal(text, &h) != nil || h.Head.N < 1 || h.Head.N > mostEvents {
		return
	}
	if id := bytesNumber(key); h.Head.N > q.headings[id].Head.N && ofEvents(h, id) {
		q.headings[id] = h
	}
}

// ofEvents reports whether events can have made what salvage uses of a heading of
// the stream: its details, and the place and the text of its last reading.
func ofEvents(h record.Heading, id uint64) bool {
	for _, text := range []string{h.LastPlace.Level, h.LastKeyed} {
		if len(text) > mostOfName || strings.ContainsFunc(text, unicode.IsControl) {
			return false
		}
	}
	if id == shopID {
		return true
	}
	_, err := record.Seal(record.Event{At: time.Unix(0, 0), Body: detailsOf(h)}, record.Head{})
	return err == nil
}

// detailsOf returns the details that a heading has.
func detailsOf(h record.Heading) record.Details {
	return record.Details{UID: h.UID, Title: h.Title, Customer: h.Customer, Engine: h.Engine, Unit: cmp.Or(h.Unit, length.In)}
}

// last returns the number of the last event that a stream is known to have had.
func (q *quarry) last(id uint64) int64 {
	n := q.headings[id].Head.N
	for at := range q.events[id] {
		n = max(n, at)
	}
	return n
}
