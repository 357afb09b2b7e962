package tui

import (
	"errors"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/term"
)

// frameGap is the time between two pictures at least: 120 frames a second. Each is
// drawn as soon as it is there.
const frameGap = time.Second / 120

// ErrCrashed says that the station broke off. What was kept before is kept.
var ErrCrashed = errors.New("the station broke off; every reading that rang the bell is kept")

// Program is a station ready to run.
type Program struct {
	router  *router
	canvas  *term.Canvas
	program *tea.Program
}

// drawn is the router as the library sees it: a model that draws on a canvas, and of
// which nothing is left for the library's own renderer to do but its one beat a
// second.
type drawn struct {
	*router
	on *term.Canvas
}

// Update hands a message to the router.
func (d drawn) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	_, cmd := d.router.Update(msg)
	return d, cmd
}

// View draws the router on the canvas.
func (d drawn) View() string {
	if d.w > 0 {
		d.on.Show(d.picture(), d.w)
	}
	return ""
}

// New makes a station on a terminal. Keys come from in.
func New(o Options, in io.Reader) *Program {
	st := &Station{Options: o}
	r := newRouter(st, newBench(st))
	r.retryAfter = retryAfter
	c := term.NewCanvas(o.Output, frameGap)
	p := tea.NewProgram(drawn{r, c}, tea.WithInput(in), tea.WithOutput(c), tea.WithAltScreen(),
		tea.WithFPS(1), tea.WithoutBracketedPaste(), tea.WithoutSignalHandler())
	return &Program{r, c, p}
}

// Hangup ends the station when the window is closed or the system says so. It
// may be called from any goroutine.
func (p *Program) Hangup() { p.program.Send(hangup{}) }

// Resume takes the terminal in again and draws everything anew, when the program
// goes on after it was stopped: a shell may have used the terminal meanwhile. It
// may be called from any goroutine.
func (p *Program) Resume(in *term.File) {
	_ = term.Retake(in, p.router.st.Output) // a terminal that is gone ends the program elsewhere
	p.program.Send(tea.ClearScreen())
}

// Warn says on the screen what the user should know although the station works. It
// may be called from any goroutine, and waits until the station runs.
func (p *Program) Warn(text string) { p.program.Send(warning{text}) }

// Fatal writes down why a goroutine of ours broke off and ends the station.
func (p *Program) Fatal(err error) {
	p.router.record(err)
	p.program.Send(fatal{err})
}

// Run shows the station until it is left. The error is ErrCrashed, wrapped,
// when it broke off.
func (p *Program) Run() error {
	p.canvas.Start(p.Fatal)
	defer p.canvas.Stop()
	_, err := p.program.Run()
	if errors.Is(err, tea.ErrProgramPanic) {
		return p.router.crashed(err)
	}
	if p.router.fault != nil {
		return p.router.crashed(p.router.fault)
	}
	return err
}

// Start prepares the terminal, runs the station and puts the terminal back
// however it ends.
func (p *Program) Start(in *term.File, out io.Writer) (err error) {
	restore, prepared := term.Prepare(in, out)
	if prepared != nil {
		return prepared
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, restore())
			return
		}
		err = term.Reset(out)
	}()
	if c := p.router.st.Cable; c != nil {
		term.Go(func() { c.pump(func(msg any) { p.program.Send(msg) }) }, p.Fatal)
	}
	return p.Run()
}
