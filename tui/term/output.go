package term

import (
	"io"
	"os"
	"sync"
	"time"

	xterm "github.com/charmbracelet/x/term"
)

// The rhythm of the bell.
const (
	// BellGap is the time between two bells of one signal.
	BellGap = 150 * time.Millisecond
	// BellRest is the time from the last bell of a signal to the first of the
	// next, so that one bell twice and two bells sound different.
	BellRest = 450 * time.Millisecond
)

const bel = "\a"

// Output is what the program draws on; give it to tea.WithOutput. Every write
// is whole: a bell falls between two frames and never inside one. It is safe
// for use from several goroutines.
//
// It deliberately does not embed the file under it: the file's other ways to
// write would go around the lock.
type Output struct {
	mu sync.Mutex // held during one write
	to io.Writer

	bells   sync.Mutex
	waiting int         // bells of the next signal
	ringing bool        // a goroutine rings
	report  func(error) // of a panic while ringing
}

// Bubble Tea measures and prepares the terminal only through this interface.
var _ xterm.File = (*Output)(nil)

// NewOutput returns an output that writes to w. If w is a file, its size can
// be measured through the output; any other writer has no size.
func NewOutput(w io.Writer) *Output {
	return &Output{to: w}
}

// OnPanic sets what is called, from another goroutine, with the *PanicError
// of a panic while ringing. Call it before the first Bell.
func (o *Output) OnPanic(report func(error)) {
	o.bells.Lock()
	defer o.bells.Unlock()
	o.report = report
}

// Write writes p in one piece.
func (o *Output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.to.Write(p)
}

// WriteString writes s in one piece.
func (o *Output) WriteString(s string) (int, error) {
	return o.Write([]byte(s))
}

// Read reads from the file under the output. It fails with os.ErrInvalid if
// there is none.
func (o *Output) Read(p []byte) (int, error) {
	if f, ok := o.to.(xterm.File); ok {
		return f.Read(p)
	}
	return 0, os.ErrInvalid
}

// Fd returns the descriptor of the file under the output, or the highest
// uintptr, which is no terminal, if there is none.
func (o *Output) Fd() uintptr {
	if f, ok := o.to.(xterm.File); ok {
		return f.Fd()
	}
	return ^uintptr(0)
}

// Close does nothing: the file belongs to whoever opened it.
func (o *Output) Close() error {
	return nil
}

// Bell rings n times, BellGap apart, and returns at once. A signal that comes
// while another sounds waits for it and for BellRest; of several that wait
// only the longest is rung, so that a fast cable does not leave minutes of
// bells behind. With n below one nothing happens.
func (o *Output) Bell(n int) {
	o.bells.Lock()
	defer o.bells.Unlock()
	o.waiting = max(o.waiting, n)
	if o.ringing || o.waiting < 1 {
		return
	}
	o.ringing = true
	Go(o.ring, o.report)
}

// ring rings the waiting signals until there are none.
func (o *Output) ring() {
	for n := o.next(); n > 0; n = o.next() {
		for i := range n {
			if i > 0 {
				time.Sleep(BellGap)
			}
			_, _ = o.WriteString(bel) // a bell that is not heard is no error
		}
		time.Sleep(BellRest)
	}
}

// next takes the waiting signal. After a 0 the ringer must end.
func (o *Output) next() int {
	o.bells.Lock()
	defer o.bells.Unlock()
	n := o.waiting
	o.waiting = 0
	o.ringing = n > 0
	return n
}
