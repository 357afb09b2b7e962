//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"time"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"

	"borewright/tui/term"
)

type benchKey struct{}

// bench holds the stations of one story.
type bench struct {
	vars     []string // names of the variables that stations are given
	stations map[string]*station
	current  *station
	saw      string // what was witnessed last
	cables   map[string]*cableEnd
}

func (b *bench) clear() {
	for _, s := range b.stations {
		s.end()
	}
	for _, c := range b.cables {
		c.close()
	}
}

// storyCommand is a command of a story whose arguments have been counted.
type storyCommand func(ts *testscript.TestScript, b *bench, neg bool, args []string)

var storyCommands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	"station":   plain("NAME WxH [K=V...] PROGRAM ARGS...", 3, 99, startCommand),
	"at":        plain("NAME", 1, 1, atCommand),
	"keys":      plain("TEXT", 1, 1, keysCommand),
	"type":      plain("TEXT", 1, 1, typeCommand),
	"see":       plain("REGEXP", 1, 1, seeCommand),
	"witness":   plain("REGEXP", 1, 1, witnessCommand),
	"proof":     plain("FAULT TRIES", 2, 2, proofCommand),
	"shell":     plain("", 0, 0, shellCommand),
	"seated":    plain("", 0, 0, seatedCommand),
	"restored":  plain("", 0, 0, restoredCommand),
	"unseen":    plain("REGEXP", 1, 1, unseenCommand),
	"screen":    plain("FILE", 1, 1, screenCommand),
	"bells":     plain("N", 1, 1, bellsCommand),
	"pressed":   plain("N", 1, 1, pressedCommand),
	"sent":      counted("TEXT", 1, 1, sentCommand),
	"coloured":  counted("", 0, 0, colouredCommand),
	"resize":    plain("WxH", 1, 1, resizeCommand),
	"term":      plain("SIGNAL", 1, 1, termCommand),
	"quit":      plain("", 0, 0, quitCommand),
	"kill9":     plain("", 0, 0, kill9Command),
	"hangup":    plain("", 0, 0, hangupCommand),
	"plug":      plain("NAME", 1, 1, plugCommand),
	"unplug":    plain("NAME", 1, 1, unplugCommand),
	"gauge":     plain("NAME TEXT", 2, 2, gaugeCommand),
	"wait-exit": plain("CODE", 1, 1, waitExitCommand),
	"spoil":     plain("FILE TEXT", 2, 2, spoilCommand),
	"nudge":     plain("FILE TEXT", 2, 2, nudgeCommand),
	"cut":       plain("FILE BYTES", 2, 2, cutCommand),
	"exits":     plain("CODE PROGRAM ARGS...", 2, 99, exitsCommand),
}

// counted makes a script command of do, which takes from least to most
// arguments, described by form.
func counted(form string, least, most int, do storyCommand) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if len(args) < least || len(args) > most {
			ts.Fatalf("usage: %s", form)
		}
		do(ts, ts.Value(benchKey{}).(*bench), neg, args)
	}
}

// plain is counted for a command that cannot be turned round with "!".
func plain(form string, least, most int, do storyCommand) func(*testscript.TestScript, bool, []string) {
	return counted(form, least, most, func(ts *testscript.TestScript, b *bench, neg bool, args []string) {
		if neg {
			ts.Fatalf("this command cannot be negated")
		}
		do(ts, b, neg, args)
	})
}

func startCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	if b.stations[args[0]] != nil {
		ts.Fatalf("there is already a station %s", args[0])
	}
	w, h, err := parseSize(args[1])
	ts.Check(err)
	settings, line := splitSettings(args[2:])
	if len(line) == 0 {
		ts.Fatalf("station %s has no program", args[0])
	}
	path, err := exec.LookPath(line[0])
	ts.Check(err)
	program := exec.Command(path, line[1:]...)
	program.Dir = ts.MkAbs(".")
	program.Env = append(b.environment(ts), settings...)
	s, err := startStation(program, w, h)
	ts.Check(err)
	b.stations[args[0]], b.current = s, s
	if !s.until(patience, func() bool { return strings.TrimSpace(s.text()) != "" }) {
		ts.Fatalf("station %s drew nothing", args[0])
	}
}

// environment returns the story's variables; one set to nothing is left out.
func (b *bench) environment(ts *testscript.TestScript) []string {
	var vars []string
	for _, name := range b.vars {
		if value := ts.Getenv(name); value != "" {
			vars = append(vars, name+"="+value)
		}
	}
	return vars
}

func atCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	if b.current = b.stations[args[0]]; b.current == nil {
		ts.Fatalf("there is no station %s", args[0])
	}
}

// station returns the station that commands speak to.
func (b *bench) station(ts *testscript.TestScript) *station {
	if b.current == nil {
		ts.Fatalf("no station was started")
	}
	return b.current
}

func keysCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	text, err := unescape(args[0])
	ts.Check(err)
	b.station(ts).pressed++
	_, err = b.station(ts).tty.WriteString(text)
	ts.Check(err)
}

func typeCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	text, err := unescape(args[0])
	ts.Check(err)
	s := b.station(ts)
	for len(text) > 0 {
		_, size := utf8.DecodeRuneInString(text)
		var before string
		s.until(0, func() bool { before = s.appearance(); return true })
		_, err := s.tty.WriteString(text[:size])
		ts.Check(err)
		s.pressed++
		s.until(oneKey, func() bool { return s.appearance() != before })
		s.silence(oneFrame)
		text = text[size:]
	}
}

func pressedCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	if got := b.station(ts).pressed; got != want {
		ts.Fatalf("%d keys were pressed, not %d", got, want)
	}
}

func seeCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	pattern, s := multiline(ts, args[0]), b.station(ts)
	if !s.until(patience, func() bool { return pattern.MatchString(s.text()) }) {
		ts.Fatalf("%q is not on the screen:\n%s", args[0], s.seen())
	}
}

func unseenCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	pattern, s := multiline(ts, args[0]), b.station(ts)
	s.rest()
	if !s.until(patience, func() bool { return !pattern.MatchString(s.text()) }) {
		ts.Fatalf("%q is still on the screen:\n%s", args[0], s.seen())
	}
}

func screenCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	s := b.station(ts)
	s.rest()
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(s.seen()), 0o666))
}

func bellsCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	s := b.station(ts)
	want, err := strconv.Atoi(args[0])
	counted := args[0] != "any"
	if counted {
		ts.Check(err)
		s.until(patience, func() bool { return s.bells >= want })
	}
	if s.rest(); want > 0 || !counted {
		s.silence(term.BellGap + atRest) // one more would belong to the signal
	}
	var rang int
	s.until(0, func() bool { rang, s.bells = s.bells, 0; return true })
	if counted && rang != want {
		ts.Fatalf("%d bells rang, want %d", rang, want)
	}
}

func sentCommand(ts *testscript.TestScript, b *bench, neg bool, args []string) {
	text, err := unescape(args[0])
	ts.Check(err)
	if found := b.station(ts).wrote(func(sent []byte) bool { return bytes.Contains(sent, []byte(text)) }); found == neg {
		ts.Fatalf("the program wrote %q: %v", text, found)
	}
}

// colour is a style that sets a colour, of the text or behind it.
var colour = regexp.MustCompile(`\x1b\[(\d*[;:])*(3[0-8]|4[0-8]|9[0-7]|10[0-7])([;:]\d*)*m`)

func colouredCommand(ts *testscript.TestScript, b *bench, neg bool, _ []string) {
	if found := b.station(ts).wrote(colour.Match); found == neg {
		ts.Fatalf("the program wrote colours: %v", found)
	}
}

func resizeCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	w, h, err := parseSize(args[0])
	ts.Check(err)
	ts.Check(b.station(ts).resize(w, h))
}

var signals = map[string]os.Signal{
	"CONT": syscall.SIGCONT,
	"HUP":  syscall.SIGHUP,
	"INT":  syscall.SIGINT,
	"KILL": syscall.SIGKILL,
	"QUIT": syscall.SIGQUIT,
	"STOP": syscall.SIGSTOP,
	"TERM": syscall.SIGTERM,
}

func termCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	signal, known := signals[args[0]]
	if !known {
		ts.Fatalf("there is no signal %s", args[0])
	}
	ts.Check(b.station(ts).program.Process.Signal(signal))
}

func quitCommand(ts *testscript.TestScript, b *bench, neg bool, _ []string) {
	termCommand(ts, b, neg, []string{"TERM"})
	waitExitCommand(ts, b, neg, []string{"0"})
}

func kill9Command(ts *testscript.TestScript, b *bench, neg bool, _ []string) {
	termCommand(ts, b, neg, []string{"KILL"})
	waitExitCommand(ts, b, neg, []string{"killed"})
}

func hangupCommand(ts *testscript.TestScript, b *bench, _ bool, _ []string) {
	ts.Check(b.station(ts).tty.Close())
}

func waitExitCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	s := b.station(ts)
	select {
	case <-s.ended:
	case <-time.After(patience):
		ts.Fatalf("the program has not ended; its screen:\n%s", s.seen())
	}
	if got := ending(s.program.ProcessState); got != args[0] {
		ts.Fatalf("the program ended with %s, want %s; its screen:\n%s", got, args[0], s.seen())
	}
}

// ending says how a program ended: its exit code, or the signal that killed it.
func ending(state *os.ProcessState) string {
	if status, ok := state.Sys().(syscall.WaitStatus); ok && status.Signaled() {
		return status.Signal().String()
	}
	return strconv.Itoa(state.ExitCode())
}

func exitsCommand(ts *testscript.TestScript, _ *bench, _ bool, args []string) {
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if failure := new(exec.ExitError); errors.As(err, &failure) {
		got = ending(failure.ProcessState)
	} else {
		ts.Check(err)
	}
	if got != args[0] {
		ts.Fatalf("%s ended with %s, want %s:\n%s", args[1], got, args[0], ts.ReadFile("stderr"))
	}
}

// multiline compiles a pattern in which ^ and $ stand for the ends of a line.
func multiline(ts *testscript.TestScript, pattern string) *regexp.Regexp {
	compiled, err := regexp.Compile("(?m)" + pattern)
	ts.Check(err)
	return compiled
}

// unescape reads text as the inside of a Go string in double quotes.
func unescape(text string) (string, error) {
	plain, err := strconv.Unquote(`"` + strings.ReplaceAll(text, `"`, `\"`) + `"`)
	if err != nil {
		return "", fmt.Errorf("%q does not read as a Go string: %w", text, err)
	}
	return plain, nil
}

// parseSize reads a size such as 80x24, columns by rows.
func parseSize(text string) (w, h int, err error) {
	columns, rows, _ := strings.Cut(text, "x")
	width, err1 := strconv.ParseUint(columns, 10, 10)
	height, err2 := strconv.ParseUint(rows, 10, 10)
	if err1 != nil || err2 != nil || width == 0 || height == 0 {
		return 0, 0, fmt.Errorf("%q is not a size such as 80x24", text)
	}
	return int(width), int(height), nil
}

var setting = regexp.MustCompile(`^[A-Z_]+=`)

// splitSettings parts the leading K=V of args from the command line after them.
func splitSettings(args []string) (settings, line []string) {
	for len(args) > 0 && setting.MatchString(args[0]) {
		settings, args = append(settings, args[0]), args[1:]
	}
	return settings, args
}
