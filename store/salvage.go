package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"borewright/engine/record"
)

// maxSalvage is how many bytes a file may have that is searched for events: it
// is read whole.
const maxSalvage = 4 << 30

// asideSuffix is what the name of the file of what was set aside adds to that of
// the new database.
const asideSuffix = ".aside.jsonl"

// Salvaged is what salvage found.
type Salvaged struct {
	Path string `json:"path"`
	// Out is the new database, Beside the file with the events that were set
	// aside or are of a newer program, empty when there are none.
	Out    string `json:"out"`
	Beside string `json:"beside,omitempty"`
	// Streams are the sessions and the shop, the newest touched last.
	Streams []Saved `json:"streams"`
	// Unknown are events with a good checksum that make no sense.
	Unknown int64 `json:"unknown,omitempty"`
}

// Step is how far a salvage has come.
type Step struct {
	// Doing says what is being done, in a word or two.
	Doing string
	// N counts the sessions from 1 that it is done to, and Of says how many there
	// are, the shop among them; both are 0 where it is done to all at once.
	N, Of int
}

// untold is for who does not want to hear how far a salvage has come.
func untold(Step) {}

// Totals counts events: recovered, lost, set aside, and of a newer program.
func (s *Salvaged) Totals() (recovered, lost, aside, newer int64) {
	for i := range s.Streams {
		recovered += s.Streams[i].Events
		lost += int64(len(s.Streams[i].Lost))
		aside += int64(len(s.Streams[i].Aside))
		newer += int64(len(s.Streams[i].Newer))
	}
	return recovered, lost, aside, newer
}

// Salvage searches the file at the path for events, whatever is damaged in it,
// and writes every intact one into a new database at out, which must not be
// there yet, nor may out.aside.jsonl. The files with are searched too, for what the
// first one lost. What is searched is never written. Errors are *FileErrors:
// ErrBusy while a station has one of them, ErrNotOurs when no event is in it,
// ErrExists, ErrLongName, ErrNoFolder, ErrUnreadable and those of writing. Meanwhile
// it tells how far it has come; tell may be nil.
func Salvage(path, out string, tell func(Step), with ...string) (Salvaged, error) {
	if tell == nil {
		tell = untold
	}
	out, err := filepath.Abs(out)
	if err != nil {
		return Salvaged{}, explain(out, err)
	}
	for _, name := range []string{out, out + asideSuffix} {
		switch _, err := os.Lstat(name); {
		case err == nil:
			return Salvaged{}, &FileError{Path: name, Kind: ErrExists}
		case isAny(err, longCodes...):
			return Salvaged{}, explain(name, err)
		}
	}
	if info, err := os.Stat(filepath.Dir(out)); err != nil || !info.IsDir() {
		return Salvaged{}, &FileError{Path: filepath.Dir(out), Kind: ErrNoFolder, Cause: err}
	}
	for _, name := range append([]string{path}, with...) {
		release, err := share(name)
		if err != nil {
			return Salvaged{}, err
		}
		defer release()
	}
	s, err := search(path, tell, with)
	if err != nil {
		return s, err
	}
	return s, s.write(out, tell)
}

// search finds every stream in the files.
func search(path string, tell func(Step), with []string) (Salvaged, error) {
	s := Salvaged{Path: path}
	tell(Step{Doing: "searching"})
	q, err := quarryOf(path)
	if err != nil {
		return s, err
	}
	for _, name := range with {
		other, err := quarryOf(name)
		if err != nil {
			return s, err
		}
		q.join(other)
	}
	q.restore()
	s.Unknown = q.strange
	if len(q.events) == 0 {
		return s, &FileError{Path: path, Kind: ErrNotOurs, Cause: errNoEvent}
	}
	c, err := q.reach(path)
	if err != nil {
		return s, err
	}
	return s, s.take(q, c, tell)
}

// quarryOf carves a file.
func quarryOf(path string) (*quarry, error) {
	data, err := readWhole(path)
	if err != nil {
		return nil, err
	}
	q := newQuarry()
	q.carve(data)
	return q, nil
}

// reach walks the tree as far as it can be walked and marks the events that it
// leads to.
func (q *quarry) reach(path string) (*check, error) {
	c := newCheck(path)
	c.found = func(id uint64, n int64, line []byte) {
		sum := record.SumOf(line)
		for i := range q.events[id][n] {
			l := &q.events[id][n][i]
			l.reached = l.reached || l.sum == sum
		}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(path, err)
	}
	defer func() { _ = f.Close() }()
	info, err := f.Stat()
	if err != nil {
		return nil, explain(path, err)
	}
	_ = c.all(f, info) // what is wrong with the file is not the question here
	maps.Copy(q.remains, c.remains)
	return c, nil
}

// take makes the streams of what was found.
func (s *Salvaged) take(q *quarry, c *check, tell func(Step)) error {
	names, ids := map[string]bool{}, q.ids()
	for i, id := range ids {
		tell(Step{"putting together", i + 1, len(ids)})
		chosen := q.choose(id)
		uid := q.uid(id, chosen, c)
		for names[uid] {
			uid += "-" + strconv.FormatUint(id, 10)
		}
		names[uid] = true
		_, listed := c.headings[id]
		saved, err := mend(uid, q.headings[id], listed || id == shopID && len(q.headings) > 0, chosen, q.remains)
		if err != nil {
			return err
		}
		saved.touch, saved.Restored = c.touches[id], q.restoredOf(id)
		s.Streams = append(s.Streams, saved)
	}
	slices.SortStableFunc(s.Streams, byTouch)
	return nil
}

// uid returns what the stream is called: by its first event, else by the lists.
func (q *quarry) uid(id uint64, chosen choice, c *check) string {
	if id == shopID {
		return record.ShopUID
	}
	for _, l := range chosen.events {
		if l.line == nil {
			continue
		}
		e, err := record.Decode(l.line)
		if d, ok := e.Body.(record.Details); ok && err == nil {
			return d.UID
		}
	}
	if uid := q.headings[id].UID; uid != "" {
		return uid
	}
	return c.name(id)
}

func readWhole(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, unread(path, err)
	case !info.Mode().IsRegular():
		return nil, &FileError{Path: path, Kind: ErrNotOurs}
	case info.Size() > maxSalvage:
		return nil, &FileError{Path: path, Kind: ErrNotOurs, Cause: fmt.Errorf("it has %d bytes, and no more than %d are searched", info.Size(), int64(maxSalvage))}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, unread(path, err)
	}
	return data, nil
}

// write makes the new database, checks it and gives it its name. The file of what
// was set aside is there before it, and is not without it.
func (s *Salvaged) write(out string, tell func(Step)) error {
	beside, err := s.writeAside(out + asideSuffix)
	if err != nil {
		return err
	}
	if err := publish(out, false, func(temp string) error { return s.fill(temp, tell) }); err != nil {
		if beside != "" {
			err = errors.Join(err, removeIfThere(beside))
		}
		if errors.Is(err, fs.ErrExist) {
			return &FileError{Path: out, Kind: ErrExists, Cause: err}
		}
		return explain(out, err)
	}
	s.Out, s.Beside = out, beside
	return nil
}

// writeAside writes what was set aside and returns where; nowhere when nothing was.
func (s *Salvaged) writeAside(path string) (string, error) {
	var aside [][]byte
	for i := range s.Streams {
		aside = append(aside, s.Streams[i].aside...)
	}
	if len(aside) == 0 {
		return "", nil
	}
	return path, WriteNew(path, append(bytes.Join(aside, []byte("\n")), '\n'))
}

// fill makes a database of the empty temporary file and keeps every stream.
func (s *Salvaged) fill(temp string, tell func(Step)) error {
	f, err := newFile(temp, Options{})
	if err != nil {
		return err
	}
	f.warn = func(string) {}
	if err := f.firstTransaction(temp); err != nil {
		return err
	}
	db, err := Open(temp, Options{})
	if err != nil {
		return err
	}
	// publish syncs the file, once, before it gets its name: with a sync for each
	// session, and each event read as an import is, 1,000 sessions took 2.5 times as
	// long.
	db.file.bolt.NoSync = true
	for i := range s.Streams {
		tell(Step{"writing", i + 1, len(s.Streams)})
		if err := db.append(s.Streams[i].UID, s.Streams[i].lines, vouched); err != nil {
			return errors.Join(err, db.Close())
		}
	}
	if err := db.Close(); err != nil {
		return err
	}
	tell(Step{Doing: "checking"})
	return sound(temp)
}

// ErrUnsound means that a database that was just written is not what was
// written.
var ErrUnsound = errors.New("what was written does not read back as it should")

// sound checks a database that was just written.
func sound(path string) error { return soundAt(path, nil) }

// soundAt is sound at a pace.
func soundAt(path string, pace Pace) error {
	r, err := verifyAt(path, pace)
	if err == nil && !r.Sound {
		err = &FileError{Path: path, Kind: ErrUnsound, Cause: r.Faults[0]}
	}
	return err
}
