package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"testing"

	"borewright/engine/record"

	berrors "go.etcd.io/bbolt/errors"
)

func TestExplain(t *testing.T) {
	for _, try := range []struct {
		err  error
		want error
	}{
		{&fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}, ErrFull},
		{errors.New("file resize error: truncate x: no space left on device"), ErrFull},
		{errors.New("file sync error: sync x: No space left on device"), ErrFull},
		{errors.New("mmap allocate error: truncate: There is not enough space on the disk."), ErrFull},
		{errors.New("file resize error: disk quota exceeded"), ErrFull},
		{berrors.ErrMaxSizeReached, ErrFull},
		{&fs.PathError{Op: "open", Path: "x", Err: os.ErrPermission}, ErrReadOnly},
		{syscall.EROFS, ErrReadOnly},
		{errors.New("file resize error: truncate x: read-only file system"), ErrReadOnly},
		{berrors.ErrDatabaseReadOnly, ErrReadOnly},
		{berrors.ErrTimeout, ErrBusy},
		{&panicError{"page 7: assertion failed"}, ErrDamaged},
		{fmt.Errorf("open: %w", &panicError{errors.New("fault")}), ErrDamaged},
		{berrors.ErrChecksum, ErrDamaged},
		{berrors.ErrInvalid, ErrDamaged},
		{berrors.ErrVersionMismatch, ErrDamaged},
		{berrors.ErrInvalidMapping, errHandle},
		{berrors.ErrDatabaseNotOpen, errHandle},
		{errHandle, ErrDisk},
		{syscall.EIO, ErrDisk},
		{&os.PathError{Op: "flock", Path: "x", Err: unfitCodes[0]}, ErrUnfit},
		{unfitCodes[1], ErrUnfit},
		{&os.PathError{Op: "open", Path: "x", Err: longCodes[0]}, ErrLongName},
	} {
		err := explain("/shop/borewright.db", try.err)
		var f *FileError
		if !errors.Is(err, try.want) || !errors.Is(err, try.err) || !errors.As(err, &f) {
			t.Errorf("%v became %v, want %v", try.err, err, try.want)
		}
		if text := err.Error(); !strings.Contains(text, "/shop/borewright.db") || strings.Contains(text, "\n") {
			t.Errorf("text %q", text)
		}
		if again := explain("/other", err); again != err { //nolint:errorlint // the very same
			t.Errorf("explained twice: %v", again)
		}
	}
	if err := explain("/x", nil); err != nil {
		t.Errorf("nothing became %v", err)
	}
}

func TestErrorTexts(t *testing.T) {
	for want, err := range map[string]error{
		"the database would lie on a network disk, where readings can be lost: /a.db (nfs)": &FileError{Path: "/a.db", Kind: ErrNetwork, Cause: errors.New("nfs")},
		"the disk is full: /a.db": &FileError{Path: "/a.db", Kind: ErrFull, Cause: syscall.ENOSPC},
		"the database file is damaged: /a.db (page 7); \"borewright salvage OUT\" recovers what is intact":             &FileError{Path: "/a.db", Kind: ErrDamaged, Cause: errors.New("page 7")},
		`session "s2" cannot be read from event 5 on: it is missing; "borewright salvage OUT" recovers what is intact`: &SessionError{UID: "s2", N: 5, Cause: errMissing},
		`session "s2" cannot be read from event 5 on: ` + record.ErrNewer.Error():                                      &SessionError{UID: "s2", N: 5, Cause: record.ErrNewer},
		"the file is not a database of this program: /a.db":                                                            &FileError{Path: "/a.db", Kind: ErrNotOurs},
		"1 event is not kept: the disk is full":                                                                        &UnkeptError{Events: 1, Cause: ErrFull},
		"3 events are not kept: the disk reported an error: x (file too large)":                                        &UnkeptError{Events: 3, Cause: explain("x", syscall.EFBIG)},
	} {
		if got := err.Error(); got != want {
			t.Errorf("got  %q\nwant %q", got, want)
		}
	}
}

// TestGuard catches panics and faults and puts the goroutine back as it was.
func TestGuard(t *testing.T) {
	var p *panicError
	if err := guard(func() error { panic("page 3") }); !errors.As(err, &p) || p.Error() != "page 3" {
		t.Errorf("a panic: %v", err)
	}
	if err := guard(func() error { return errShort }); !errors.Is(err, errShort) {
		t.Errorf("an error: %v", err)
	}
	if err := guard(func() error { return nil }); err != nil {
		t.Errorf("nothing: %v", err)
	}
}
