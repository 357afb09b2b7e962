package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxName is how many bytes a file's name may have.
const maxName = 200

// FilePath returns where [WriteFile] would write a file. The name is cleaned:
// nothing of it leads out of the folder. The error is a *FileError of ErrName
// or ErrDisk.
func FilePath(dir, name string) (string, error) {
	clean := cleanName(name)
	if clean == "" {
		return "", &FileError{Path: dir, Kind: ErrName}
	}
	path, err := filepath.Abs(filepath.Join(dir, clean))
	if err != nil {
		return "", explain(dir, err)
	}
	return path, nil
}

// WriteFile writes a file into the folder, for its owner only, and returns its
// path, which is that of [FilePath]. The
// file is whole or not there. What is there is replaced only when overwrite is
// set. Errors are *FileErrors: ErrName, ErrNoFolder, ErrExists, ErrFull,
// ErrReadOnly, ErrDisk.
func WriteFile(dir, name string, data []byte, overwrite bool) (path string, err error) {
	path, err = FilePath(dir, name)
	if err != nil {
		return "", err
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return "", &FileError{Path: dir, Kind: ErrNoFolder, Cause: err}
	}
	if info, err := os.Lstat(path); err == nil && info.IsDir() {
		return "", &FileError{Path: path, Kind: ErrExists}
	}
	err = publish(path, overwrite, func(temp string) error { return os.WriteFile(temp, data, 0o600) })
	switch {
	case errors.Is(err, fs.ErrExist):
		return "", &FileError{Path: path, Kind: ErrExists, Cause: err}
	case err != nil:
		return "", explain(path, err)
	}
	return path, nil
}

// WriteNew writes a file at the path that the user named, for its owner only. The
// file is whole or not there, and what is there is not replaced. Errors are
// *FileErrors: ErrExists, ErrNoFolder, ErrFull, ErrReadOnly, ErrDisk.
func WriteNew(path string, data []byte) error {
	err := publish(path, false, func(temp string) error { return os.WriteFile(temp, data, 0o600) })
	switch {
	case errors.Is(err, fs.ErrExist):
		return &FileError{Path: path, Kind: ErrExists, Cause: err}
	case errors.Is(err, fs.ErrNotExist):
		return &FileError{Path: filepath.Dir(path), Kind: ErrNoFolder, Cause: err}
	}
	return explain(path, err)
}

// cleanName returns what of a name can name a file anywhere, at most maxName
// bytes: separators and the signs that some system forbids become "-"; control,
// bidirectional and other invisible characters go, and so do dots and spaces at
// both ends. Empty when nothing is left.
func cleanName(name string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case r == utf8.RuneError || !unicode.IsGraphic(r):
			return -1
		case strings.ContainsRune(`/\:*?"<>|`, r):
			return '-'
		case unicode.IsSpace(r):
			return ' '
		}
		return r
	}, name)
	clean = strings.Trim(clean, ". ")
	if isDevice(clean) {
		clean = "_" + clean
	}
	return shorten(clean)
}

// isDevice reports whether one system takes the name for a device, whatever
// stands after its first dot.
func isDevice(name string) bool {
	stem, _, _ := strings.Cut(strings.ToUpper(name), ".")
	stem = strings.TrimRight(stem, " ")
	if slices.Contains([]string{"CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"}, stem) {
		return true
	}
	port, ok := strings.CutPrefix(stem, "COM")
	if !ok {
		port, ok = strings.CutPrefix(stem, "LPT")
	}
	return ok && utf8.RuneCountInString(port) == 1 && strings.Contains("0123456789¹²³", port)
}

// shorten cuts the stem of a name that is too long and keeps its extension.
func shorten(name string) string {
	if len(name) <= maxName {
		return name
	}
	ext := filepath.Ext(name)
	if len(ext) > 16 {
		ext = ""
	}
	stem := name[:maxName-len(ext)]
	for !utf8.ValidString(stem) {
		stem = stem[:len(stem)-1]
	}
	return strings.TrimRight(stem, ". ") + ext
}
