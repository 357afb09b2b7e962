package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"time"

	"borewright/engine"
	"borewright/engine/record"
)

// standardInput is what stands for w.In where a file can be named.
const standardInput = "-"

// readFile reads the file that the user named, in either form.
func readFile(w World, name string) (record.File, error) {
	in, err := input(w, name)
	if err != nil {
		return record.File{}, fileError(name, err)
	}
	file, err := record.ReadFile(in)
	if err := errors.Join(err, in.Close()); err != nil {
		return record.File{}, fileError(name, err)
	}
	return file, nil
}

func input(w World, name string) (io.ReadCloser, error) {
	if name == standardInput {
		return io.NopCloser(w.In), nil
	}
	return w.Read(name)
}

// fileError names the file that err is about.
func fileError(name string, err error) error {
	if name == standardInput {
		name = "standard input"
	}
	var told *fs.PathError
	if errors.As(err, &told) {
		err = told.Err // it names the file too
	}
	return fmt.Errorf("%s: %w", name, err)
}

// replayFile returns the events of the file with the state they replay to. The
// plain form becomes events of uid, by one hand at one time.
func replayFile(file record.File, uid string, at time.Time, by string) ([]record.Sealed, *engine.Session, error) {
	var events []record.Sealed
	if file.Full != nil {
		events = file.Full.Events
	} else {
		fresh, err := file.Plain.Events(uid, at, by)
		if err != nil {
			return nil, nil, err
		}
		if events, err = seal(fresh); err != nil {
			return nil, nil, err
		}
	}
	session, err := engine.Replay(events)
	return events, session, err
}

// seal makes a stream of fresh events.
func seal(fresh []record.Event) ([]record.Sealed, error) {
	sealed := make([]record.Sealed, len(fresh))
	var head record.Head
	for i, e := range fresh {
		s, err := record.Seal(e, head)
		if err != nil {
			return nil, fmt.Errorf("event %d: %w", i+1, err)
		}
		sealed[i], head = s, s.Head
	}
	return sealed, nil
}
