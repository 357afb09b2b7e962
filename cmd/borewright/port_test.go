package main

import (
	"errors"
	"io"
	"io/fs"
	"strings"
	"testing"
	"time"

	"go.bug.st/serial"
)

func TestParsePort(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]port{
		"/dev/ttyUSB0":       {"/dev/ttyUSB0", 9600},
		"/dev/ttyUSB0,2400":  {"/dev/ttyUSB0", 2400},
		"COM3, 115200":       {"COM3", 115200},
		" /dev/ttyACM1 ,300": {"/dev/ttyACM1", 300},
	} {
		if got, err := parsePort(text); err != nil || got != want {
			t.Errorf("%q is %v, %v, want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		",9600": "names no device", " ": "names no device", "/dev/x,": `"" is no speed`, "/dev/x,fast": `"fast" is no speed`,
		"/dev/x,0": `"0" is no speed`, "/dev/x,-9600": "is no speed", "/dev/x,9600,8": "is no speed", "/dev/x,99999999999": "is no speed",
	} {
		if got, err := parsePort(text); kindOf(err) != usage || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %v, %v, want %s", text, got, err, want)
		}
	}
}

func TestPortWords(t *testing.T) {
	t.Parallel()
	other := errors.New("inappropriate ioctl for device")
	for _, c := range []struct{ err, want error }{
		{&fs.PathError{Op: "open", Path: "/dev/x", Err: fs.ErrNotExist}, errPortAbsent},
		{&serial.PortError{}, errPortBusy},
		{other, other},
	} {
		if got := portWords(c.err); !errors.Is(got, c.want) {
			t.Errorf("%v becomes %v, want %v", c.err, got, c.want)
		}
	}
}

// reads is a port that gives its reads one after another, then fails.
type reads struct {
	left   []string
	closed bool
}

func (r *reads) Close() error { r.closed = true; return nil }

func (r *reads) Read(p []byte) (int, error) {
	if len(r.left) == 0 {
		return 0, errors.New("gone")
	}
	n := copy(p, r.left[0])
	r.left = r.left[1:]
	return n, nil
}

// A line goes on with a port that went away and came back.
func TestLineSurvivesUnplugging(t *testing.T) {
	t.Parallel()
	first, second := &reads{left: []string{"3.7503\r", ""}}, &reads{left: []string{"3.7504\r"}}
	ports := []io.ReadCloser{nil, first, nil, second}
	l := newLine(func() (io.ReadCloser, error) {
		p := ports[0]
		ports = ports[1:]
		if p == nil {
			return nil, errPortAbsent
		}
		return p, nil
	}, time.Nanosecond)
	buf := make([]byte, 16)
	for i, want := range []struct {
		text string
		err  error
	}{
		{"", errPortAbsent},
		{"3.7503\r", nil},
		{"", nil},
		{"", errPortPulled},
		{"", errPortAbsent},
		{"3.7504\r", nil},
	} {
		n, err := l.Read(buf)
		if string(buf[:n]) != want.text || !errors.Is(err, want.err) {
			t.Errorf("read %d: %q, %v, want %q, %v", i+1, buf[:n], err, want.text, want.err)
		}
	}
	if err := l.Close(); err != nil || !first.closed || !second.closed {
		t.Errorf("closed: %v, the first port %v, the second %v", err, first.closed, second.closed)
	}
	if _, err := l.Read(buf); !errors.Is(err, io.EOF) {
		t.Errorf("after closing: %v, want %v", err, io.EOF)
	}
}

// Closing ends a wait for a port that is away.
func TestLineClosesWhileAway(t *testing.T) {
	t.Parallel()
	l := newLine(func() (io.ReadCloser, error) { return nil, errPortAbsent }, time.Hour)
	if _, err := l.Read(nil); !errors.Is(err, errPortAbsent) {
		t.Fatalf("away: %v", err)
	}
	ended := make(chan error)
	go func() { _, err := l.Read(nil); ended <- err }()
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	if err := <-ended; !errors.Is(err, io.EOF) {
		t.Errorf("%v, want %v", err, io.EOF)
	}
}
