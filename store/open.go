package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"borewright/engine/plan"
)

// DB is a store in a database file. Its methods may be called from any
// goroutine.
type DB struct {
	*book
	file *file
}

// Open opens the database at the path and makes it when there is none, with
// its folder. Errors are *FileErrors: ErrBusy, ErrNewer, ErrEmptyFile,
// ErrNotOurs, ErrNetwork, ErrDamaged, ErrUnreadable, ErrReadOnly, ErrLongName,
// ErrFull, ErrDisk. See Warnings for what it found and could live with.
func Open(path string, o Options) (*DB, error) {
	f, err := newFile(path, o)
	if err != nil {
		return nil, err
	}
	var warnings []string
	f.warn = func(text string) { warnings = append(warnings, text) }
	if err := f.prepare(o.Ballast); err != nil {
		return nil, err
	}
	o.hooks = f.hooks
	b := newBook(f, o)
	f.warn = b.warn
	for _, w := range warnings {
		b.warn(w)
	}
	if f.backup {
		b.refuse = &FileError{Path: f.path, Kind: ErrBackup}
	}
	b.begin()
	return &DB{b, f}, nil
}

// newFile returns the shelf of the path, not opened.
func newFile(path string, o Options) (*file, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, explain(path, err)
	}
	return &file{path: abs, hooks: o.hooks.filled(), index: newIndex()}, nil
}

// prepare makes the file if it is missing, opens it and reads its index, unless
// that can wait.
func (f *file) prepare(ballast bool) error {
	if err := f.create(); err != nil {
		return err
	}
	err := f.refuseNetwork()
	if err == nil {
		err = f.open()
	} else if f.readAfar() {
		err = nil
	}
	if err != nil {
		return err
	}
	later, err := f.indexLater()
	if err == nil && !later {
		err = f.readIndex()
	}
	if err != nil {
		return errors.Join(err, f.close())
	}
	f.unindexed.Store(later)
	if f.doubtful || f.torn {
		f.warn(f.doubt())
	}
	if !f.backup {
		f.reserve(ballast)
	}
	return nil
}

// doubt is the warning for a file whose last transaction may be lost. It names
// the last event that is there.
func (f *file) doubt() string {
	text := "the beginning of the database file is damaged, so the last reading may be missing"
	if !f.doubtful {
		text = tornText
	}
	newest, err := f.headings(1)
	if err != nil || len(newest) == 0 {
		return text
	}
	h := newest[0]
	text += fmt.Sprintf(": the newest session, %q, ends at event %d", h.Title, h.Head.N)
	if h.LastKeyed != "" {
		text += fmt.Sprintf(", its last reading is %q at %s", h.LastKeyed, plan.Layout{Labels: h.Labels}.Name(h.LastPlace.Of))
	}
	return text
}

// Path returns the absolute path of the database.
func (d *DB) Path() string { return d.file.path }

// create makes the database when nothing is at its path.
func (f *file) create() error {
	if _, err := os.Stat(f.path); !errors.Is(err, fs.ErrNotExist) {
		return unread(f.path, err)
	}
	dir := filepath.Dir(f.path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return f.explain(err)
	}
	if err := f.refuseNetwork(); err != nil {
		return err
	}
	err := publish(f.path, false, f.firstTransaction)
	if errors.Is(err, fs.ErrExist) {
		return nil // another window was faster
	}
	return f.explain(err)
}

// firstTransaction makes an empty database of the empty temporary file. Only
// here the file's name is another one: a cut in a database's first transaction
// leaves what cannot be opened.
func (f *file) firstTransaction(temp string) error {
	first := &file{path: temp, hooks: f.hooks, warn: f.warn, index: f.index}
	first.handle.Lock()
	defer first.handle.Unlock()
	if err := first.run(func() error { return first.openBolt(true) }); err != nil {
		return err
	}
	err := first.run(func() error { return first.bolt.Update(createBuckets) })
	return errors.Join(err, first.closeBolt())
}

// refuseNetwork refuses a folder on another computer. Where the system does
// not tell, nothing is refused.
func (f *file) refuseNetwork() error {
	name, err := f.hooks.network(f.path)
	if err != nil || name == "" {
		return nil //nolint:nilerr // not knowing is no reason to refuse
	}
	return &FileError{Path: f.path, Kind: ErrNetwork, Cause: fmt.Errorf("the file system is %s", name)}
}
