package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"sync"

	"borewright/engine/record"
)

// Mark says which events a sheet was made of. It stands in every HTML and PDF
// sheet, so that the sheet can be checked against the session.
type Mark struct {
	UID   string
	Head  record.Head
	Units Units
}

// String writes the mark as FindMark finds it.
func (m Mark) String() string {
	return fmt.Sprintf("borewright-sheet uid=%s n=%d sha256=%s units=%s;", m.UID, m.Head.N, m.Head.Hash, m.Units)
}

var markPattern = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`borewright-sheet uid=([0-9A-Za-z-]{1,100}) n=([0-9]{1,18}) sha256=([0-9A-Za-z_-]{43}) units=(in|mm|both|);`)
})

// FindMark finds the mark in the bytes of a sheet; ok is false without one.
func FindMark(data []byte) (m Mark, ok bool) {
	found := markPattern().FindSubmatch(data)
	if found == nil {
		return Mark{}, false
	}
	n, err := strconv.ParseInt(string(found[2]), 10, 64)
	return Mark{string(found[1]), record.Head{N: n, Hash: string(found[3])}, Units(found[4])}, err == nil
}
