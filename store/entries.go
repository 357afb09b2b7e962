package store

import (
	"encoding/binary"
	"fmt"
)

// bucketHeader is how many bytes a bucket has before the page that can be kept
// inside it.
const bucketHeader = 16

// entries returns an error unless every entry of a branch or a leaf lies in its
// page behind the table of entries, has a key, is a bucket or a value as flag
// says, and all together take no more room than there is.
func entries(pg page, flag uint32) error {
	room := len(pg.data) - pageHeader - pg.count*pageElement
	if room < 0 {
		return fmt.Errorf("page %d has too many entries", pg.id)
	}
	for i := range pg.count {
		e, ok := elementOf(pg, i)
		room -= len(e.key) + len(e.value)
		switch {
		case !ok || len(e.key) == 0 || room < 0:
			return fmt.Errorf("entry %d of page %d leads out of it", i, pg.id)
		case e.flags&bucketFlag != flag:
			return fmt.Errorf("entry %d of page %d is of the wrong kind", i, pg.id)
		}
	}
	return nil
}

// inside checks a bucket that is kept inside an entry of the page.
func inside(id uint64, data []byte) error {
	if len(data) < pageHeader || binary.LittleEndian.Uint16(data[8:]) != leafPage {
		return fmt.Errorf("a bucket in page %d is no leaf", id)
	}
	return entries(page{id: id, flags: leafPage, count: int(binary.LittleEndian.Uint16(data[10:])), data: data}, 0)
}
