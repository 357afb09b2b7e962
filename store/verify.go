package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Report is what Verify found in a database file.
type Report struct {
	Path string `json:"path"`
	// Sound says that nothing is wrong.
	Sound bool `json:"sound"`
	// Pages is how many pages were read, Sessions how many sessions have events
	// and Events how many intact events there are, those of the shop among them.
	Pages    int64 `json:"pages"`
	Sessions int64 `json:"sessions"`
	Events   int64 `json:"events"`
	// Faults is what is wrong, at most MaxFaults; More is how many more there are.
	Faults []Fault `json:"faults"`
	More   int64   `json:"more,omitempty"`
}

// MaxFaults is how many faults a report lists.
const MaxFaults = 200

// Fault is one thing that is wrong with a database file.
type Fault struct {
	// Page is the number of the page that it lies on, 0 when it is about no
	// page or about the first.
	Page int64 `json:"page,omitempty"`
	// Session is the uid of the session it is about, record.ShopUID for the
	// shop, or empty; Title is what the session is called, as far as known.
	Session string `json:"session,omitempty"`
	Title   string `json:"title,omitempty"`
	// Event is the number of the event it is about, 0 when it is about none, and
	// Last the number of the last one when it is about several in a row, else 0.
	Event int64 `json:"event,omitempty"`
	Last  int64 `json:"last,omitempty"`
	// Text says what is wrong, in words that follow the place.
	Text string `json:"text"`
}

// Error returns the sentence: the place and what is wrong there.
func (f Fault) Error() string {
	text := f.Text
	switch {
	case f.Last > f.Event:
		text = fmt.Sprintf("events %d to %d %s", f.Event, f.Last, text)
	case f.Event > 0:
		text = fmt.Sprintf("event %d %s", f.Event, text)
	}
	switch {
	case f.Title != "":
		text = fmt.Sprintf("session %q (%s): %s", f.Title, f.Session, text)
	case f.Session != "":
		text = fmt.Sprintf("session %s: %s", f.Session, text)
	}
	if f.Page > 0 {
		text += fmt.Sprintf(" (page %d)", f.Page)
	}
	return text
}

// add takes a fault in.
func (r *Report) add(f Fault) {
	r.Sound = false
	if len(r.Faults) == MaxFaults {
		r.More++
		return
	}
	r.Faults = append(r.Faults, f)
}

// Verify reads every page of the database at the path and every event in it,
// and says what is wrong. It never writes and calls nothing that a damaged file
// could bring down. Errors are about the file as a whole: it cannot be read, it
// is open elsewhere (ErrBusy), or it is no database (ErrNotOurs, ErrEmptyFile,
// ErrNewer).
func Verify(path string) (Report, error) {
	release, err := share(path)
	if err != nil {
		return Report{}, err
	}
	defer release()
	return verify(path)
}

// verify is Verify of a file that nobody writes.
func verify(path string) (Report, error) { return verifyAt(path, nil) }

// verifyAt is verify at a pace.
func verifyAt(path string, pace Pace) (Report, error) {
	f, err := os.Open(path)
	if err != nil {
		return Report{}, unread(path, err)
	}
	defer func() { _ = f.Close() }()
	info, err := f.Stat()
	if err != nil {
		return Report{}, explain(path, err)
	}
	c := newCheck(path)
	c.pace = pace
	err = c.all(f, info)
	if err != nil && errors.Is(err, ErrDamaged) {
		c.report.add(Fault{Text: causeOf(err).Error()})
		err = nil
	}
	return c.report, err
}

// all looks at the beginning and then walks the whole file.
func (c *check) all(r io.ReaderAt, info os.FileInfo) error {
	l, err := lookInto(c.report.Path, r, info)
	switch {
	case errors.Is(err, errCut):
		c.report.add(Fault{Text: causeOf(err).Error()})
		l.pages = uint64(info.Size() / l.pageSize)
	case err != nil:
		return err
	}
	if c.doubtful = l.doubtful; l.doubtful {
		c.report.add(Fault{Text: "one of its two beginnings is damaged, so the last reading may be missing"})
	}
	c.walk(r, l.meta)
	switch {
	case c.format > formatNumber:
		return &FileError{Path: c.report.Path, Kind: ErrNewer}
	case c.foreign || !c.ours && c.report.Sound:
		return &FileError{Path: c.report.Path, Kind: ErrNotOurs}
	}
	return nil
}

// causeOf returns what is wrong without the name of the file.
func causeOf(err error) error {
	var f *FileError
	if errors.As(err, &f) && f.Cause != nil {
		return f.Cause
	}
	return err
}

// share holds the database for reading, so that no station writes it, until
// release is called. A file that cannot be held because it is damaged is not
// held, and that is no error.
func share(path string) (release func(), err error) {
	hooks := hooks{}.filled()
	if _, err := os.Stat(path); err != nil {
		return nil, unread(path, err)
	}
	var db *bolt.DB
	err = guard(func() (err error) {
		db, err = bolt.Open(path, 0o600, &bolt.Options{
			ReadOnly: true, Timeout: hooks.lockWait,
			OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
				return hooks.openFile(name, flag&^os.O_CREATE, mode)
			},
		})
		return err
	})
	switch {
	case errors.Is(err, berrors.ErrTimeout):
		return nil, explain(path, err)
	case err != nil:
		return func() {}, nil //nolint:nilerr // what is wrong with it is for the check to say
	}
	return func() { _ = guard(db.Close) }, nil
}

// sortedKeys returns the keys of a map in order.
func sortedKeys[V any](m map[uint64]V) []uint64 {
	keys := make([]uint64, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
