package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"os"
)

// The look at a file before it is opened, because bbolt makes a new database
// of an empty file, falls back to the older of its two meta pages without a
// word, and panics on a file that is cut short. It reads what bbolt v1 writes,
// in the byte order of the machines this program is built for.

const (
	metaMagic   = 0xED0CDAED
	metaVersion = 2
	metaAt      = 16 // after the page's header
	metaSize    = 64 // with its checksum
	noFreelist  = 1<<64 - 1
)

// meta is what a meta page says.
type meta struct {
	pageSize int64
	root     uint64
	freelist uint64
	pages    uint64 // the high-water mark
	tx       uint64
}

// looked is what the look found.
type looked struct {
	meta
	// doubtful means that one of the two meta pages is bad, and perhaps the
	// newer one.
	doubtful bool
}

// look reads the beginning of the file. Errors are FileErrors of kind
// ErrEmptyFile, ErrNotOurs or ErrDamaged, or what the system said.
func look(path string) (looked, error) {
	f, err := os.Open(path)
	if err != nil {
		return looked{}, unread(path, err)
	}
	defer func() { _ = f.Close() }()
	info, err := f.Stat()
	if err != nil {
		return looked{}, err
	}
	return lookInto(path, f, info)
}

// lookInto is look at a file that is open. What it found comes with the error
// of a file that is cut short.
func lookInto(path string, r io.ReaderAt, info os.FileInfo) (looked, error) {
	switch {
	case !info.Mode().IsRegular():
		return looked{}, &FileError{Path: path, Kind: ErrNotOurs}
	case info.Size() == 0:
		return looked{}, &FileError{Path: path, Kind: ErrEmptyFile}
	}
	l, err := lookAt(r, info.Size())
	if err != nil {
		return l, &FileError{Path: path, Kind: kindOfLook(err), Cause: err}
	}
	return l, nil
}

var (
	errForeign = errors.New("it has no meta page")
	errCut     = errors.New("it is cut short")
)

func kindOfLook(err error) error {
	if errors.Is(err, errForeign) {
		return ErrNotOurs
	}
	return ErrDamaged
}

func lookAt(r io.ReaderAt, size int64) (looked, error) {
	first, ok0 := readMeta(r, 0)
	second, ok1 := secondMeta(r, size, first, ok0)
	l := looked{meta: first}
	switch {
	case !ok0 && !ok1:
		return looked{}, errForeign
	case !ok0:
		l = looked{meta: second, doubtful: true}
	case !ok1:
		l.doubtful = true
	default:
		if second.tx > first.tx {
			l.meta = second
		}
		// One apart; two after the first commit to a copy of a database.
		if d := max(first.tx, second.tx) - min(first.tx, second.tx); d != 1 && d != 2 {
			l.doubtful = true
		}
	}
	switch {
	case l.freelist == noFreelist:
		return looked{}, errForeign
	case l.pages > uint64(size/l.pageSize):
		return l, fmt.Errorf("%w: %d bytes are left of %d", errCut, size, l.pages*uint64(l.pageSize))
	}
	return l, nil
}

// secondMeta finds the second meta page: after the first one, whose size only
// a good first one tells, so else at every size there is.
func secondMeta(r io.ReaderAt, size int64, first meta, ok bool) (meta, bool) {
	if ok {
		return readMeta(r, first.pageSize)
	}
	for at := int64(1 << 10); at <= 1<<24 && at < size; at *= 2 {
		if m, ok := readMeta(r, at); ok && m.pageSize == at {
			return m, true
		}
	}
	return meta{}, false
}

// readMeta returns the meta page that begins there; ok is false when its marks
// or its checksum are wrong.
func readMeta(r io.ReaderAt, at int64) (meta, bool) {
	var buf [metaSize]byte
	if n, _ := r.ReadAt(buf[:], at+metaAt); n < metaSize {
		return meta{}, false
	}
	h := fnv.New64a()
	_, _ = h.Write(buf[:metaSize-8])
	le := binary.LittleEndian
	m := meta{
		pageSize: int64(le.Uint32(buf[8:])),
		root:     le.Uint64(buf[16:]),
		freelist: le.Uint64(buf[32:]),
		pages:    le.Uint64(buf[40:]),
		tx:       le.Uint64(buf[48:]),
	}
	good := le.Uint32(buf[0:]) == metaMagic && le.Uint32(buf[4:]) == metaVersion &&
		le.Uint64(buf[56:]) == h.Sum64() && m.pageSize >= 1<<10 && m.pageSize <= 1<<24
	return m, good
}
