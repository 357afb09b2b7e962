package tui

import "errors"

// ErrThere says that a file of this name is in the folder already.
var ErrThere = errors.New("a file of this name is there already")

// Folder is where the station writes what leaves the shop, and nowhere else.
type Folder interface {
	// Path is where a file of that name would be written. What of the name
	// would lead elsewhere, or cannot stand in a name, is left out.
	Path(name string) (string, error)
	// Write writes a whole file, for its owner only, and returns its path. What
	// is there is replaced only when replace is set; else the error is ErrThere.
	Write(name string, data []byte, replace bool) (path string, err error)
}
