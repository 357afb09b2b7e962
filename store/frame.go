package store

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"sync"
)

// frameVersion is the first byte of every value.
const frameVersion = 1

// frameExtra is how many bytes a frame adds to what it holds.
const frameExtra = 1 + crc32.Size

// maxFrame is the most bytes a value can have. A longer one is damage, and is
// not copied.
const maxFrame = 1 << 24

// castagnoli is made at its first use: at every start it took 0.2 ms.
var castagnoli = sync.OnceValue(func() *crc32.Table { return crc32.MakeTable(crc32.Castagnoli) })

var (
	errShort    = errors.New("it is too short or too long")
	errVersion  = errors.New("it has an unknown form")
	errChecksum = errors.New("its checksum does not match")
)

// frame returns the value stored under the key: the version byte, the payload
// and a CRC-32C over key, version and payload.
func frame(key, payload []byte) []byte {
	v := make([]byte, 0, len(payload)+frameExtra)
	v = append(v, frameVersion)
	v = append(v, payload...)
	return binary.BigEndian.AppendUint32(v, checksum(key, v))
}

// unframe returns a copy of what frame held, or what is wrong with the value.
func unframe(key, value []byte) ([]byte, error) {
	p, err := framed(key, value)
	if err != nil {
		return nil, err
	}
	return append([]byte(nil), p...), nil
}

// framed is unframe without the copy: what it returns is the value's own.
func framed(key, value []byte) ([]byte, error) {
	if len(value) < frameExtra || len(value) > maxFrame {
		return nil, errShort
	}
	body, sum := value[:len(value)-crc32.Size], value[len(value)-crc32.Size:]
	if checksum(key, body) != binary.BigEndian.Uint32(sum) {
		return nil, errChecksum
	}
	if body[0] != frameVersion {
		return nil, errVersion
	}
	return body[1:], nil
}

func checksum(key, body []byte) uint32 {
	return crc32.Update(crc32.Checksum(key, castagnoli()), castagnoli(), body)
}

// number is an 8-byte key or payload.
func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// unframeNumber is unframe of a payload that number made.
func unframeNumber(key, value []byte) (uint64, error) {
	p, err := framed(key, value)
	if err != nil {
		return 0, err
	}
	if len(p) != 8 {
		return 0, errShort
	}
	return binary.BigEndian.Uint64(p), nil
}

// maxN is the number of the last event a stream can hold.
const maxN int64 = 1<<32 - 1

// eventKey is the key of event n of the stream id.
func eventKey(id uint64, n int64) []byte {
	return binary.BigEndian.AppendUint32(number(id), uint32(n))
}

// parseEventKey is the reverse of eventKey; ok is false for any other key.
func parseEventKey(key []byte) (id uint64, n int64, ok bool) {
	if len(key) != 12 {
		return 0, 0, false
	}
	return binary.BigEndian.Uint64(key), int64(binary.BigEndian.Uint32(key[8:])), true
}

// bytesNumber is the reverse of number.
func bytesNumber(b []byte) uint64 { return binary.BigEndian.Uint64(b) }
