package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Backup writes a copy of the database, as it is kept now, to the path, where
// nothing may be, for its owner only. Events are kept meanwhile. The copy is
// marked as a backup, see [DB.ReadOnly], and checked whole before it gets its
// name. Errors are *FileErrors: ErrExists, ErrNoFolder, ErrDamaged
// when the database itself is damaged, ErrUnsound when the copy is, and those of writing.
func (d *DB) Backup(path string) error { return d.backup(path, nil) }

// backup is Backup at a pace.
func (d *DB) backup(path string, pace Pace) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return explain(path, err)
	}
	if info, err := os.Stat(filepath.Dir(path)); err != nil || !info.IsDir() {
		return &FileError{Path: filepath.Dir(path), Kind: ErrNoFolder, Cause: err}
	}
	if _, err := os.Lstat(path); err == nil {
		return &FileError{Path: path, Kind: ErrExists}
	}
	err = publish(path, false, func(temp string) error {
		if err := d.file.copyTo(temp, pace); err != nil {
			return err
		}
		// A copy where files cannot be locked goes without its mark.
		if err := markBackup(temp, backupName(d.Path(), path), d.file.hooks); err != nil && !errors.Is(err, ErrUnfit) {
			return err
		}
		return d.file.blamed(soundAt(temp, pace))
	})
	if errors.Is(err, fs.ErrExist) {
		return &FileError{Path: path, Kind: ErrExists, Cause: err}
	}
	return explain(path, err)
}

// blamed tells a copy that is not sound because the database is damaged from one
// that was written wrong. The open transaction keeps what is read in its place.
func (f *file) blamed(err error) error {
	if !errors.Is(err, ErrUnsound) {
		return err
	}
	var own error
	worse := f.view(func(*readTx) error { own = sound(f.path); return nil })
	if errors.Is(worse, ErrDamaged) { // found meanwhile, so that nobody writes it
		own, worse = sound(f.path), nil
	}
	if worse == nil && errors.Is(own, ErrUnsound) {
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: causeOf(own)}
	}
	return err
}

// copyTo writes the database over an empty file. What a full disk says of the
// copy is no fault of the database. One copy is made at a time: bbolt reads
// through the one handle, from where the last read ended.
func (f *file) copyTo(path string, pace Pace) error {
	f.copying.Lock()
	defer f.copying.Unlock()
	if err := f.indexed(); err != nil {
		return err
	}
	out, err := os.OpenFile(path, os.O_WRONLY|os.O_TRUNC, 0o600)
	if err != nil {
		return explain(path, err)
	}
	err = f.view(func(tx *readTx) error {
		if err := f.hooks.fault("copy"); err != nil {
			return err
		}
		var to io.Writer = out
		if pace != nil {
			to = &pacedWriter{file: out, pace: pace}
		}
		if _, err := tx.tx.WriteTo(to); err != nil {
			return err
		}
		return tx.tail.copyTo(out)
	})
	return errors.Join(err, out.Close())
}

// BackupFolder returns the folder in which the backups of the database at the
// path lie, beside it.
func BackupFolder(path string) string {
	return strings.TrimSuffix(path, filepath.Ext(path)) + "-backups"
}

// Backups returns the backups of the database at the path, the newest last: by
// the numbers in their names, whatever the clock said.
func Backups(path string) []string {
	found, err := filepath.Glob(filepath.Join(globEscaped(BackupFolder(path)), "[0-9][0-9][0-9][0-9][0-9][0-9]-*.db"))
	if err != nil {
		return nil
	}
	slices.Sort(found)
	return found
}

// globEscaped takes a path word for word in a pattern.
func globEscaped(path string) string {
	if filepath.Separator == '\\' {
		return path // there is no escape, and those signs are rare in a folder
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(path)
}

// BackupOfDay makes the backup of a day of work and returns its path, or "" when
// the newest one is of that day, or the database is a backup itself. At most keep backups stay, the oldest go first.
func (d *DB) BackupOfDay(day time.Time, keep int, pace Pace) (string, error) {
	if d.file.backup {
		return "", nil
	}
	have := Backups(d.Path())
	if len(have) > 0 && strings.HasSuffix(have[len(have)-1], "-"+day.Format(time.DateOnly)+".db") {
		return "", nil
	}
	return d.backupNow(day, keep, pace)
}

// BackupNow makes one more backup, dated of the day, and returns its path. At
// most keep backups stay, the oldest go first. Of a backup none is made.
func (d *DB) BackupNow(day time.Time, keep int) (string, error) { return d.backupNow(day, keep, nil) }

func (d *DB) backupNow(day time.Time, keep int, pace Pace) (string, error) {
	if err := d.ReadOnly(); err != nil {
		return "", err
	}
	d.file.dating.Lock()
	defer d.file.dating.Unlock()
	date := day.Format(time.DateOnly)
	have := Backups(d.Path())
	next := 1
	if len(have) > 0 {
		_, _ = fmt.Sscanf(filepath.Base(have[len(have)-1]), "%06d", &next)
		next++
	}
	folder := BackupFolder(d.Path())
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", explain(folder, err)
	}
	unfinished(folder)
	path := filepath.Join(folder, fmt.Sprintf("%06d-%s.db", next, date))
	if err := d.backup(path, pace); err != nil {
		return "", err
	}
	have = append(have, path)
	for len(have) > max(keep, 1) {
		if err := os.Remove(have[0]); err != nil {
			return path, explain(have[0], err)
		}
		have = have[1:]
	}
	return path, nil
}

// unfinished removes what backups that were cut off left in their folder. Only who
// holds the database writes there, and one backup at a time.
func unfinished(folder string) {
	left, _ := filepath.Glob(filepath.Join(globEscaped(folder), tempPattern))
	for _, path := range left {
		_ = os.Remove(path) // it is in nobody's way
	}
}
