package main

import (
	"context"
	"testing"

	"github.com/urfave/cli/v3"

	"borewright/tui/term"
)

// parsed runs use as what "program args" does, with the options of the station
// on the program and on its command demo.
func parsed(t *testing.T, args []string, use func(*cli.Command) error) error {
	t.Helper()
	action := func(_ context.Context, cmd *cli.Command) error { return use(cmd) }
	program := &cli.Command{
		Name: "program", Flags: looksFlags(), Action: action,
		Commands:       []*cli.Command{{Name: "demo", Flags: looksFlags(), Action: action}},
		ExitErrHandler: func(context.Context, *cli.Command, error) {},
	}
	return program.Run(t.Context(), append([]string{"program"}, args...))
}

func TestLooks(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		args []string
		want term.Flags
		kind kind
	}{
		"nothing":        {nil, term.Flags{}, done},
		"light":          {[]string{"--light"}, term.Flags{Background: term.Light}, done},
		"dark":           {[]string{"--dark"}, term.Flags{Background: term.Dark}, done},
		"both":           {[]string{"--dark", "--light"}, term.Flags{}, usage},
		"no colour":      {[]string{"--no-colour"}, term.Flags{NoColour: true}, done},
		"ascii":          {[]string{"--ascii"}, term.Flags{ASCII: true}, done},
		"before command": {[]string{"--light", "demo", "--ascii"}, term.Flags{Background: term.Light, ASCII: true}, done},
		"after command":  {[]string{"demo", "--light"}, term.Flags{Background: term.Light}, done},
		"split":          {[]string{"--light", "demo", "--dark"}, term.Flags{}, usage},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var got term.Flags
			err := parsed(t, c.args, func(cmd *cli.Command) (err error) {
				got, err = looks(cmd)
				return err
			})
			if kindOf(err) != c.kind || c.kind == done && got != c.want {
				t.Errorf("got %+v, %v, want %+v", got, err, c.want)
			}
		})
	}
}

func TestInitials(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		env  string
		args []string
		want string
		kind kind
	}{
		"none":           {"", nil, "", done},
		"variable":       {"ek", nil, "ek", done},
		"option":         {"ek", []string{"--by", "mw"}, "mw", done},
		"before command": {"ek", []string{"--by", "mw", "demo"}, "mw", done},
		"after command":  {"ek", []string{"--by", "mw", "demo", "--by", "js"}, "js", done},
		"control":        {"e\x1bk", nil, "", usage},
		"too long":       {"", []string{"--by", "thirty-three letters are too many"}, "", usage},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := diskWorld()
			w.Env = func(name string) string { return map[string]string{"BOREWRIGHT_BY": c.env}[name] }
			var got string
			err := parsed(t, c.args, func(cmd *cli.Command) (err error) {
				got, err = initials(cmd, w)
				return err
			})
			if kindOf(err) != c.kind || got != c.want {
				t.Errorf("got %q, %v, want %q", got, err, c.want)
			}
		})
	}
}
