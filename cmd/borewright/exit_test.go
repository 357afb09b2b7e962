package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"

	"github.com/urfave/cli/v3"
)

func TestReport(t *testing.T) {
	t.Parallel()
	plain := errors.New("the disk is full")
	for name, c := range map[string]struct {
		err  error
		code int
		text string
	}{
		"nothing":           {nil, 0, ""},
		"plain":             {plain, 1, "borewright: the disk is full\n"},
		"usage":             {usagef("no %q", "x"), 2, "borewright: no \"x\"\n"},
		"outside":           {outsidef("%d outside", 2), 3, "borewright: 2 outside\n"},
		"wrapped":           {fmt.Errorf("list: %w", usagef("no")), 2, "borewright: list: no\n"},
		"parser, no topic":  {cli.Exit("No help topic", 3), 2, "borewright: No help topic\n"},
		"parser, failure":   {cli.Exit(plain, 1), 1, "borewright: the disk is full\n"},
		"several":           {errors.Join(plain, plain), 1, "borewright: the disk is full; the disk is full\n"},
		"terminal escapes":  {errors.New("name \x1b]0;x\a\u202e\u200b"), 1, "borewright: name ·]0;x···\n"},
		"letters of others": {errors.New("Kolben – größer"), 1, "borewright: Kolben – größer\n"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var out bytes.Buffer
			if code := report(&out, c.err); code != c.code {
				t.Errorf("code %d, want %d", code, c.code)
			}
			if out.String() != c.text {
				t.Errorf("wrote %q, want %q", out.String(), c.text)
			}
		})
	}
}

func TestExitErrorKeepsItsCause(t *testing.T) {
	t.Parallel()
	cause := errors.New("cause")
	if err := usagef("while reading: %w", cause); !errors.Is(err, cause) {
		t.Errorf("%v hides its cause", err)
	}
}

func TestUsageWords(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"flag provided but not defined: -x":                         `there is no option "-x" here; "borewright list --help" lists them`,
		"flag provided but not defined: -long":                      `there is no option "--long" here; "borewright list --help" lists them`,
		"flag needs an argument: --to":                              "the option --to needs a value",
		"flag needs an argument: -o":                                "the option -o needs a value",
		`invalid value "x" for flag -n: strconv.ParseInt: parsing…`: `invalid value "x" for flag -n: strconv.ParseInt: parsing…`,
	} {
		err := usageWords("borewright list", errors.New(text))
		if err.Error() != want || kindOf(err) != usage {
			t.Errorf("%q is told as %q (kind %d), want %q", text, err, kindOf(err), want)
		}
	}
}

func TestAfterScreen(t *testing.T) {
	t.Parallel()
	other := errors.New("the screen is gone")
	closed := &fs.PathError{Op: "read", Path: "/dev/stdin", Err: syscall.EIO}
	for name, c := range map[string]struct{ err, want error }{
		"good end":      {nil, nil},
		"window closed": {fmt.Errorf("killed: %w", closed), nil},
		"other":         {other, other},
	} {
		if got := afterScreen(c.err); !errors.Is(got, c.want) {
			t.Errorf("%s: got %v, want %v", name, got, c.want)
		}
	}
}
