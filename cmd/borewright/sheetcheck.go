package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/engine/sheet"
)

// errNoMark is returned for a file that states no digest.
var errNoMark = errors.New("this states no digest: only sheets in HTML, PDF and JSON can be checked")

// checkSheet says whether a sheet still matches the session that it was made
// of.
func checkSheet(cmd *cli.Command, w World, name string) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	data, err := readAll(w, name)
	if err != nil {
		return fileError(name, err)
	}
	mark, ok := markOf(data)
	if !ok {
		return fileError(name, errNoMark)
	}
	events, err := markedEvents(w, path, mark)
	if err != nil {
		return fileError(name, err)
	}
	if err := sameSheet(data, mark, events[:mark.Head.N]); err != nil {
		return fileError(name, err)
	}
	text := fmt.Sprintf("matches to event %d, the last", mark.Head.N)
	if later := int64(len(events)) - mark.Head.N; later > 0 {
		text = fmt.Sprintf("matches to event %d; %d later", mark.Head.N, later)
	}
	return printLines(w.Out, []string{text})
}

// readAll reads the file that the user named.
func readAll(w World, name string) ([]byte, error) {
	in, err := input(w, name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(in, record.MaxFile+1))
	if err := errors.Join(err, in.Close()); err != nil {
		return nil, err
	}
	if len(data) > record.MaxFile {
		return nil, record.ErrTooLarge
	}
	return data, nil
}

// markOf returns what a sheet says that it was made of. JSON names no session.
func markOf(data []byte) (sheet.Mark, bool) {
	if m, ok := sheet.FindMark(data); ok {
		return m, true
	}
	var r engine.Report
	if err := json.Unmarshal(data, &r); err != nil || r.Digest.N < 1 {
		return sheet.Mark{}, false
	}
	return sheet.Mark{Head: record.Head{N: r.Digest.N, Hash: r.Digest.SHA256}}, true
}

// markedEvents returns the events of the session that a mark is of: the one it
// names, else the one in which the event that it names has its hash.
func markedEvents(w World, path string, m sheet.Mark) (events []record.Sealed, err error) {
	if !w.Exists(path) {
		return nil, fmt.Errorf("there is no session to check it by: no database is at %s", path)
	}
	err = withBook(w, path, func(b Book) error {
		hs, err := b.Headings(0)
		if err != nil {
			return err
		}
		for _, h := range hs {
			if m.UID != "" && h.UID != m.UID || m.UID == "" && h.Head.N < m.Head.N {
				continue
			}
			if events, err = b.Load(h.UID); err != nil {
				return err
			}
			if m.UID != "" || events[m.Head.N-1].Head == m.Head {
				return marked(events, m)
			}
		}
		return errors.New("no session here is the one that it was made of")
	})
	return events, err
}

// marked says why events are not those of a mark, or nil.
func marked(events []record.Sealed, m sheet.Mark) error {
	n := int64(len(events))
	switch {
	case m.Head.N < 1 || m.Head.N > n:
		return fmt.Errorf("does not match: it was made of %d events, and the session here has %d", m.Head.N, n)
	case events[m.Head.N-1].Head != m.Head:
		return fmt.Errorf("does not match: event %d of the session here has another digest", m.Head.N)
	default:
		return nil
	}
}

// sameSheet makes the sheet anew of the events that it was made of, and says
// so when it is not the same.
func sameSheet(data []byte, m sheet.Mark, events []record.Sealed) error {
	session, err := engine.Replay(events)
	if err != nil {
		return err
	}
	form := sheet.JSONForm
	switch {
	case bytes.HasPrefix(data, []byte("%PDF-")):
		form = sheet.PDFForm
	case m.UID != "":
		form = sheet.HTMLForm
	}
	again, err := sheet.Make(form, session, m.Units)
	if err != nil {
		return err
	}
	if !bytes.Equal(again.Data, data) {
		return fmt.Errorf("the digest matches to event %d, but the rest is not what is written of it now: it was altered, or another version wrote it", m.Head.N)
	}
	return nil
}
