package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
)

// demoMark is the first event of the shop in a demo database. It keeps the demo
// out of every other one.
var demoMark = record.Note{On: "demo", Text: "this database holds invented sessions, to be tried and thrown away"}

// demoPath returns the demo's database, which lies beside the real one and is
// never the real one.
func demoPath(cmd *cli.Command, w World) (string, error) {
	path, err := database(cmd, w)
	if err != nil {
		return "", err
	}
	path, err = filepath.Abs(path)
	if err != nil {
		return "", err
	}
	demo := filepath.Join(filepath.Dir(path), "demo.db")
	if demo == path {
		return "", fmt.Errorf("the demo would be kept in %s, which is the database itself; name another with --%s", path, databaseOption)
	}
	return demo, nil
}

// demoState is what a database is to the demo.
type demoState uint8

const (
	notDemo   demoState = iota // somebody else's: it is left alone
	emptyBook                  // nothing was ever kept in it
	demoBook                   // the demo's own
)

func demoStateOf(b Book) (demoState, error) {
	shop, err := b.Load(record.ShopUID)
	if err != nil {
		return notDemo, err
	}
	if slices.ContainsFunc(shop, func(s record.Sealed) bool { return s.Body == demoMark }) {
		return demoBook, nil
	}
	hs, err := b.Headings(1)
	if err != nil || len(hs) > 0 || len(shop) > 0 {
		return notDemo, err
	}
	return emptyBook, nil
}

// notDemoError names a database that the demo leaves alone.
func notDemoError(path string) error {
	return fmt.Errorf("%s holds what the demo did not make and is left alone; move it away or name another database with --%s", path, databaseOption)
}

// layDemo marks an empty database as the demo's, puts the session of the events
// into it unless it is there, and returns its uid.
func layDemo(b Book, path string, events []record.Sealed) (uid string, err error) {
	state, err := demoStateOf(b)
	switch {
	case err != nil:
		return "", err
	case state == notDemo:
		return "", notDemoError(path)
	case state == emptyBook:
		if _, err := b.Keep(record.ShopUID, record.Event{At: events[0].At, Body: demoMark}); err != nil {
			return "", err
		}
	}
	uid = events[0].Body.(record.Details).UID // no replay begins otherwise
	hs, err := b.Headings(0)
	if err != nil {
		return "", err
	}
	if !slices.ContainsFunc(hs, func(h record.Heading) bool { return h.UID == uid }) {
		if err := b.Append(uid, lines(events)); err != nil {
			return "", err
		}
	}
	return uid, b.Wait(context.Background())
}

// demoAside gives the demo's database another name and returns the notice with
// that name; a database that is not the demo's is left alone. Without one
// nothing happens.
func demoAside(w World, path, notice string) (string, error) {
	if !w.Exists(path) {
		return notice, nil
	}
	err := withBook(w, path, func(b Book) error {
		state, err := demoStateOf(b)
		if err == nil && state == notDemo {
			err = notDemoError(path)
		}
		return err
	})
	if err != nil {
		return "", err
	}
	aside := filepath.Join(filepath.Dir(path), w.Now().Format("demo-2006-01-02-150405.db"))
	if err := w.Rename(path, aside); err != nil {
		return "", fmt.Errorf("the old demo cannot be put aside: %w", err)
	}
	return notice + " The old one is " + filepath.Base(aside) + " now.", nil
}
