package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"
	"unicode"

	"github.com/urfave/cli/v3"
)

// kind says how a command ended; it is the exit code.
type kind int

const (
	done    kind = 0 // what was asked for was done
	failed  kind = 1 // it could not be done
	usage   kind = 2 // the command line asks for nothing that exists
	outside kind = 3 // done, and something measured is outside its limits
)

// noHelpTopic is the code that the command line parser gives "--help NAME" when
// there is no command NAME.
const noHelpTopic = 3

// exitError is an error that knows how the command ended. Any other error means
// failed.
type exitError struct {
	kind kind
	err  error
}

func (e *exitError) Error() string { return e.err.Error() }

func (e *exitError) Unwrap() error { return e.err }

// usagef returns an error of wrong use, in the words of format.
func usagef(format string, args ...any) error {
	return &exitError{usage, fmt.Errorf(format, args...)}
}

// outsidef returns the error of a command that did its work and found something
// outside its limits.
func outsidef(format string, args ...any) error {
	return &exitError{outside, fmt.Errorf(format, args...)}
}

// kindOf says how a command that returned err ended.
func kindOf(err error) kind {
	var known *exitError
	var parser cli.ExitCoder
	switch {
	case err == nil:
		return done
	case errors.As(err, &known):
		return known.kind
	case errors.As(err, &parser) && parser.ExitCode() == noHelpTopic:
		return usage
	default:
		return failed
	}
}

// report writes err as one line on out and returns the exit code.
func report(out io.Writer, err error) int {
	if err != nil {
		// Nothing is left to be done about an error stream that takes no words.
		_, _ = fmt.Fprintf(out, "borewright: %s\n", oneLine(err.Error()))
	}
	return int(kindOf(err))
}

// reportFault writes what is known of a fault of the program itself and returns
// the exit code.
func reportFault(out io.Writer, fault any, stack []byte) int {
	_, _ = fmt.Fprintf(out, "borewright: stopped by a fault of its own (%s); readings kept before it are safe\n%s",
		oneLine(fmt.Sprint(fault)), stack)
	return int(failed)
}

// afterScreen returns err, the error that a screen ended with, unless all it
// says is that the window was closed: that is an orderly end. The terminal may
// tell so by an error of reading before the signal of [World.Hangup] arrives.
func afterScreen(err error) error {
	if errors.Is(err, syscall.EIO) {
		return nil
	}
	return err
}

// oneLine returns text without line breaks and without anything a terminal
// would obey.
func oneLine(text string) string {
	text = strings.ReplaceAll(strings.TrimSpace(text), "\n", "; ")
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return '·'
	}, text)
}

// usageWords puts an error of the command line parser in our words. name is the
// full name of the command, such as "borewright version".
func usageWords(name string, err error) error {
	text := err.Error()
	if option, found := strings.CutPrefix(text, "flag provided but not defined: -"); found {
		return usagef("there is no option %q here; %q lists them", dashed(option), name+" --help")
	}
	if option, found := strings.CutPrefix(text, "flag needs an argument: "); found {
		return usagef("the option %s needs a value", dashed(strings.TrimLeft(option, "-")))
	}
	return &exitError{usage, err}
}

// dashed returns the name of an option as it is written on a command line.
func dashed(option string) string {
	if len(option) == 1 {
		return "-" + option
	}
	return "--" + option
}

// operands returns the arguments of cmd, which takes exactly those named.
func operands(cmd *cli.Command, names ...string) ([]string, error) {
	given := cmd.Args().Slice()
	if len(given) < len(names) {
		return nil, usagef("%s needs %s", cmd.Name, strings.Join(names[len(given):], " and "))
	}
	if len(given) > len(names) {
		return nil, usagef("%s does not know what to do with %q", cmd.Name, given[len(names)])
	}
	return given, nil
}
