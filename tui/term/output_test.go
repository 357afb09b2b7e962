package term

import (
	"bytes"
	"errors"
	"io"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// chimes records when bells were written, on the bubble's own clock.
type chimes struct {
	start time.Time
	at    []time.Duration
}

func (c *chimes) Write(p []byte) (int, error) {
	if string(p) == bel {
		c.at = append(c.at, time.Since(c.start))
	}
	return len(p), nil
}

// rings runs play on the bubble's clock and returns the milliseconds at which
// bells were written.
func rings(t *testing.T, play func(*Output)) []int64 {
	t.Helper()
	var ms []int64
	synctest.Test(t, func(*testing.T) {
		c := &chimes{start: time.Now()}
		o := NewOutput(c)
		play(o)
		time.Sleep(time.Hour)
		synctest.Wait()
		for _, d := range c.at {
			ms = append(ms, d.Milliseconds())
		}
	})
	return ms
}

func TestBell(t *testing.T) {
	tests := []struct {
		name string
		play func(*Output)
		want []int64
	}{
		{"none", func(o *Output) { o.Bell(0); o.Bell(-1) }, nil},
		{"one", func(o *Output) { o.Bell(1) }, []int64{0}},
		{"two", func(o *Output) { o.Bell(2) }, []int64{0, 150}},
		{"one, later one", func(o *Output) { o.Bell(1); time.Sleep(time.Second); o.Bell(1) }, []int64{0, 1000}},
		{"two while one sounds", func(o *Output) { o.Bell(1); time.Sleep(time.Millisecond); o.Bell(2) }, []int64{0, 450, 600}},
		{"a fast cable", func(o *Output) {
			for range 40 {
				o.Bell(1)
				time.Sleep(10 * time.Millisecond)
			}
		}, []int64{0, 450}},
		{"the longest waits", func(o *Output) {
			for _, n := range []int{1, 1, 2, 1} {
				o.Bell(n)
				time.Sleep(time.Millisecond)
			}
		}, []int64{0, 450, 600}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := rings(t, tt.play); !slices.Equal(got, tt.want) {
				t.Errorf("rang at %v ms, want %v", got, tt.want)
			}
		})
	}
}

func TestBellReturnsAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		NewOutput(io.Discard).Bell(5)
		if d := time.Since(start); d != 0 {
			t.Errorf("Bell took %v of the bubble's time", d)
		}
		time.Sleep(time.Hour)
		synctest.Wait()
	})
}

// pieces is a writer that lets others run within one write, as a terminal
// does that takes a frame in parts.
type pieces struct{ bytes.Buffer }

func (p *pieces) Write(b []byte) (int, error) {
	for _, c := range b {
		p.WriteByte(c)
		runtime.Gosched()
	}
	return len(b), nil
}

func TestBellFallsBetweenFrames(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const frame = "\x1b[Hframe\x1b[K"
		to := &pieces{}
		o := NewOutput(to)
		var frames sync.WaitGroup
		for range 2 {
			frames.Go(func() {
				for range 400 {
					_, _ = io.WriteString(o, frame) // as Bubble Tea does
					_, _ = o.Write([]byte(frame))
					time.Sleep(time.Millisecond)
				}
			})
		}
		o.Bell(3)
		frames.Wait()
		time.Sleep(time.Minute)
		synctest.Wait()
		got := to.String()
		if n := strings.Count(got, bel); n != 3 {
			t.Errorf("%d bells, want 3", n)
		}
		if want := strings.Repeat(frame, 2*800); strings.ReplaceAll(got, bel, "") != want {
			t.Error("frames are mixed")
		}
		if rest := strings.ReplaceAll(strings.ReplaceAll(got, frame, ""), bel, ""); rest != "" {
			t.Errorf("a bell fell inside a frame: %.60q", rest)
		}
	})
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

type panicking struct{ value any }

func (p panicking) Write([]byte) (int, error) { panic(p.value) }

func TestOutputPassesErrors(t *testing.T) {
	lost := errors.New("line lost")
	o := NewOutput(failing{lost})
	if _, err := o.Write([]byte("x")); !errors.Is(err, lost) {
		t.Errorf("Write: %v, want %v", err, lost)
	}
	if _, err := o.WriteString("x"); !errors.Is(err, lost) {
		t.Errorf("WriteString: %v, want %v", err, lost)
	}
}

func TestPanicWhileRingingIsReported(t *testing.T) {
	cause := errors.New("no such device")
	o := NewOutput(panicking{cause})
	reports := make(chan error, 1)
	o.OnPanic(func(err error) { reports <- err })
	o.Bell(1)
	err := <-reports
	var p *PanicError
	if !errors.As(err, &p) || !errors.Is(err, cause) {
		t.Fatalf("reported %v, want a PanicError of %v", err, cause)
	}
	if !bytes.Contains(p.Stack, []byte("panicking")) {
		t.Errorf("the stack does not show where: %s", p.Stack)
	}
	// The lock is free again: the screen can still be put right.
	func() {
		defer func() { _ = recover() }()
		_, _ = o.Write(nil)
		t.Error("the writer no longer panics")
	}()
}

func TestGo(t *testing.T) {
	done := make(chan error, 1)
	Go(func() { done <- nil }, func(err error) { done <- err })
	if err := <-done; err != nil {
		t.Errorf("reported %v of a function that returned", err)
	}
	Go(func() { panic("out of ink") }, func(err error) { done <- err })
	if err := <-done; err.Error() != "a part of the program failed: out of ink" {
		t.Errorf("reported %q", err)
	}
	gone := make(chan struct{})
	Go(func() { defer close(gone); panic("nobody listens") }, nil)
	<-gone
}

func TestOutputOfAFile(t *testing.T) {
	f, err := os.Create(t.TempDir() + "/out")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	o := NewOutput(f)
	if o.Fd() != f.Fd() {
		t.Errorf("descriptor %d, want %d", o.Fd(), f.Fd())
	}
	if _, err := o.WriteString("kept"); err != nil {
		t.Fatal(err)
	}
	if err := o.Close(); err != nil {
		t.Errorf("Close: %v", err)
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		t.Fatalf("the file was closed: %v", err)
	}
	p := make([]byte, 8)
	if n, err := o.Read(p); err != nil || string(p[:n]) != "kept" {
		t.Errorf("read %q, %v", p[:n], err)
	}
}

func TestOutputOfAWriter(t *testing.T) {
	o := NewOutput(&bytes.Buffer{})
	if fd := o.Fd(); fd != ^uintptr(0) {
		t.Errorf("descriptor %d of a buffer", fd)
	}
	if _, err := o.Read(make([]byte, 1)); !errors.Is(err, os.ErrInvalid) {
		t.Errorf("Read: %v, want %v", err, os.ErrInvalid)
	}
}

type still struct{}

func (still) Init() tea.Cmd                         { return tea.Quit }
func (s still) Update(tea.Msg) (tea.Model, tea.Cmd) { return s, nil }
func (still) View() string                          { return "frame" }

// A program can run on an output that is no terminal, as in tests.
func TestProgramOnAWriter(t *testing.T) {
	to := &bytes.Buffer{}
	p := tea.NewProgram(still{}, tea.WithInput(nil), tea.WithOutput(NewOutput(to)), tea.WithoutSignalHandler())
	if _, err := p.Run(); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(to.String(), "frame") {
		t.Errorf("drew %q", to)
	}
}
