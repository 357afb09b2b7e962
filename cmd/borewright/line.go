package main

import (
	"io"
	"sync"
	"time"
)

// retry is how long a line waits before it looks for its port again.
const retry = time.Second

// line reads a port that may go away and come back.
type line struct {
	open   func() (io.ReadCloser, error)
	every  time.Duration
	closed chan struct{}

	away bool // the last attempt failed; used by Read alone

	mu   sync.Mutex // guards port
	port io.ReadCloser
	once sync.Once
}

func newLine(open func() (io.ReadCloser, error), every time.Duration) *line {
	return &line{open: open, every: every, closed: make(chan struct{})}
}

// Read reads what came. It returns nothing and no error after a silence, an
// error while the port is away, looking for it at intervals, and io.EOF once the
// line is closed.
func (l *line) Read(p []byte) (int, error) {
	port, err := l.opened()
	if err != nil {
		return 0, err
	}
	n, err := port.Read(p)
	if err == nil {
		return n, nil
	}
	l.drop()
	l.away = true
	if l.isClosed() {
		return n, io.EOF
	}
	return n, errPortPulled // whatever the system calls it
}

// opened returns the open port. After a failure it waits a while first.
func (l *line) opened() (io.ReadCloser, error) {
	if l.away {
		select {
		case <-time.After(l.every):
		case <-l.closed:
		}
	}
	if l.isClosed() {
		return nil, io.EOF
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.port == nil {
		port, err := l.open()
		if l.away = err != nil; l.away {
			return nil, err
		}
		l.port = port
	}
	return l.port, nil
}

// drop closes the port.
func (l *line) drop() {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.port != nil {
		_ = l.port.Close() // it is away already, or was only read
		l.port = nil
	}
}

func (l *line) isClosed() bool {
	select {
	case <-l.closed:
		return true
	default:
		return false
	}
}

// Close ends the line: a Read that waits returns io.EOF.
func (l *line) Close() error {
	l.once.Do(func() { close(l.closed) })
	l.drop()
	return nil
}
