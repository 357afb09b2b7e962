package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/urfave/cli/v3"
)

// testWorld is a world without terminal, files or chance; what is written goes
// to out and errs.
func testWorld(out, errs io.Writer, env map[string]string) World {
	return World{
		In:          strings.NewReader(""),
		Out:         out,
		Err:         errs,
		Env:         func(name string) string { return env[name] },
		Now:         func() time.Time { return time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC) },
		UID:         func() string { return "uid" },
		Terminal:    func() bool { return false },
		ErrTerminal: func() bool { return false },
		Hangup:      context.WithCancel,
	}
}

// ran runs the program with args and returns what it wrote and its exit code.
func ran(args ...string) (out, errs string, code int) {
	var o, e bytes.Buffer
	code = run(append([]string{"borewright"}, args...), testWorld(&o, &e, nil))
	return o.String(), e.String(), code
}

func TestRunExitCodes(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		args []string
		code int
		errs string
	}{
		"version":               {[]string{"version"}, 0, ""},
		"version option":        {[]string{"--version"}, 0, ""},
		"help":                  {[]string{"help"}, 0, ""},
		"help option":           {[]string{"-h"}, 0, ""},
		"help of a command":     {[]string{"help", "version"}, 0, ""},
		"unknown command":       {[]string{"hone"}, 2, `there is no command "hone"; "borewright help" lists them`},
		"unknown option":        {[]string{"--hone"}, 2, `there is no option "--hone" here; "borewright --help" lists them`},
		"unknown letter":        {[]string{"version", "-z"}, 2, `there is no option "-z" here; "borewright version --help" lists them`},
		"option without value":  {[]string{"--db"}, 2, `the option --db needs a value`},
		"help for nothing":      {[]string{"help", "hone"}, 2, `there is no command "hone"; "borewright help" lists them`},
		"help option, nothing":  {[]string{"--help", "hone"}, 2, `No help topic for 'hone'`},
		"too many arguments":    {[]string{"version", "a"}, 2, `version does not know what to do with "a"`},
		"no shell":              {[]string{"completion"}, 2, `name one shell: bash, zsh, fish or pwsh`},
		"escapes in an unknown": {[]string{"\x1b[31mred"}, 2, `there is no command "\x1b[31mred"; "borewright help" lists them`},
		"escapes in an option":  {[]string{"--\x1b[31mred"}, 2, `there is no option "--\x1b[31mred" here; "borewright --help" lists them`},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			out, errs, code := ran(c.args...)
			if code != c.code {
				t.Errorf("code %d, want %d", code, c.code)
			}
			if want := sentence(c.errs); errs != want {
				t.Errorf("wrote the error %q, want %q", errs, want)
			}
			if (out == "") != (c.code != 0) {
				t.Errorf("with code %d it printed %q", code, out)
			}
		})
	}
}

// sentence is the line an error is reported with, "" for none.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	return "borewright: " + text + "\n"
}

func TestEveryCommandExplainsItself(t *testing.T) {
	t.Parallel()
	for _, cmd := range root(testWorld(io.Discard, io.Discard, nil)).Commands {
		out, _, code := ran(cmd.Name, "--help")
		if code != 0 || !strings.HasPrefix(out, "borewright "+cmd.Name+": "+cmd.Usage) {
			t.Errorf("%s --help ends with %d and prints %q", cmd.Name, code, out)
		}
		if cmd.Usage == "" {
			t.Errorf("%s has no words for the list of commands", cmd.Name)
		}
		if _, errs, code := ran(cmd.Name, "--no-such-option"); code != 2 || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s with an unknown option ends with %d and says %q", cmd.Name, code, errs)
		}
	}
}

func TestRunSurvivesItsOwnFault(t *testing.T) {
	t.Parallel()
	var errs bytes.Buffer
	w := testWorld(nil, &errs, nil) // printing on no stream is a fault
	if code := run([]string{"borewright", "version"}, w); code != 1 {
		t.Errorf("code %d, want 1", code)
	}
	if got := errs.String(); !strings.HasPrefix(got, "borewright: stopped by a fault of its own (") ||
		!strings.Contains(got, "goroutine ") {
		t.Errorf("the fault is told as %q", got)
	}
}

// brokenStream takes nothing.
type brokenStream struct{}

var errBroken = errors.New("the stream is closed")

func (brokenStream) Write([]byte) (int, error) { return 0, errBroken }

func TestRunTellsOfAStreamThatTakesNothing(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{{"borewright", "version"}, {"borewright", "completion", "bash"}} {
		var errs bytes.Buffer
		if code := run(args, testWorld(brokenStream{}, &errs, nil)); code != 1 {
			t.Errorf("%v: code %d, want 1", args, code)
		}
		if got, want := errs.String(), sentence(errBroken.Error()); got != want {
			t.Errorf("%v: said %q, want %q", args, got, want)
		}
	}
}

func TestOperands(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		args, names, want []string
		err               string
	}{
		"none":     {nil, nil, []string{}, ""},
		"one":      {[]string{"a"}, []string{"FILE"}, []string{"a"}, ""},
		"missing":  {[]string{"a"}, []string{"ID", "FILE", "DAY"}, nil, "test needs FILE and DAY"},
		"too many": {[]string{"a", "b\n"}, []string{"ID"}, nil, `test does not know what to do with "b\n"`},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var got []string
			cmd := &cli.Command{Name: "test", Action: func(_ context.Context, cmd *cli.Command) (err error) {
				got, err = operands(cmd, c.names...)
				return err
			}, ExitErrHandler: func(context.Context, *cli.Command, error) {}}
			err := cmd.Run(t.Context(), append([]string{"test"}, c.args...))
			if c.err != "" {
				if err == nil || err.Error() != c.err || kindOf(err) != usage {
					t.Fatalf("error %v of kind %d, want %q", err, kindOf(err), c.err)
				}
				return
			}
			if err != nil || strings.Join(got, "|") != strings.Join(c.want, "|") {
				t.Errorf("got %q, %v, want %q", got, err, c.want)
			}
		})
	}
}
