package store

import (
	"path/filepath"
	"strings"
	"time"

	bolt "go.etcd.io/bbolt"
)

// A backup is marked inside with the name of its file, and is one under that name
// alone: it is only read then. A copy under another name, such as one put in the
// place of the database, is a database like any other.

// backupKey is the key of the mark in the bucket meta.
var backupKey = []byte("backup")

// backupName returns the name to mark a copy of the database at from with, made
// at to: none when both have the same name. Such a copy can be put in the place of
// the database, here or on another computer, and must not be taken for a backup
// there.
func backupName(from, to string) string {
	name := filepath.Base(to)
	if strings.EqualFold(name, filepath.Base(from)) {
		return ""
	}
	return name
}

// markBackup marks the closed database at the path as the backup of that name,
// as none when the name is empty.
func markBackup(path, name string, h hooks) error {
	f, err := newFile(path, Options{hooks: h})
	if err != nil {
		return err
	}
	f.handle.Lock()
	defer f.handle.Unlock()
	if err := f.run(func() error { return f.openBolt(false) }); err != nil {
		return err
	}
	err = f.run(func() error {
		return f.bolt.Update(func(tx *bolt.Tx) error {
			m := tx.Bucket(metaBucket)
			if name == "" {
				return m.Delete(backupKey)
			}
			return m.Put(backupKey, frame(backupKey, []byte(name)))
		})
	})
	if worse := f.closeBolt(); err == nil {
		err = worse
	}
	return err
}

// isBackup reports whether the mark names the file, wherever a link to it has led.
func (f *file) isBackup(tx *readTx) bool {
	name, err := unframe(backupKey, tx.get(metaBucket, backupKey))
	if err != nil {
		return false
	}
	path := f.path
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return strings.EqualFold(string(name), filepath.Base(path))
}

// ReadOnly returns why nothing can be kept in the database, an ErrBackup, or nil
// where it can.
func (d *DB) ReadOnly() error { return d.refuse }

// readAfar opens the file for reading, when it is a backup in a place where no
// database may be.
func (f *file) readAfar() (opened bool) {
	l, err := lookTwice(f.path)
	if err != nil {
		return false
	}
	f.doubtful = l.doubtful
	f.handle.Lock()
	defer f.handle.Unlock()
	return f.openReading()
}

// openReading opens the file for reading, when it is a backup: that no other
// program may write it meanwhile, or nobody at all, does not matter then. Else it
// stays closed. Call it with handle.
func (f *file) openReading() (opened bool) {
	wait := f.hooks.lockWait
	defer func() { f.hooks.lockWait, f.backup = wait, opened }()
	f.hooks.lockWait, f.backup = time.Millisecond, true // it was waited for already
	if err := f.run(func() error { return f.openBolt(false) }); err != nil {
		return false
	}
	if err := f.checkLocked(); err == nil && f.backup {
		return true
	}
	_ = f.closeBolt() // what was wrong before is told
	return false
}
