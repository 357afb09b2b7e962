package main

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"testing"

	"github.com/urfave/cli/v3"
)

func TestDatabase(t *testing.T) {
	t.Parallel()
	platform, own := t.TempDir(), t.TempDir()
	below := func(home string) string { return filepath.Join(home, "borewright", "borewright.db") }
	for name, c := range map[string]struct {
		args []string
		env  map[string]string
		home string
		want string
		kind kind
	}{
		"platform":               {nil, nil, platform, below(platform), done},
		"data home":              {nil, map[string]string{"XDG_DATA_HOME": own}, platform, below(own), done},
		"relative data home":     {nil, map[string]string{"XDG_DATA_HOME": "data"}, platform, below(platform), done},
		"variable":               {nil, map[string]string{"BOREWRIGHT_DB": "b.db", "XDG_DATA_HOME": own}, platform, "b.db", done},
		"option":                 {[]string{"--db", "a.db"}, map[string]string{"BOREWRIGHT_DB": "b.db"}, platform, "a.db", done},
		"option after":           {[]string{"where", "--db=a.db"}, nil, platform, "a.db", done},
		"empty option":           {[]string{"--db="}, nil, platform, "", usage},
		"nowhere":                {nil, nil, "", "", failed},
		"nowhere absolute":       {nil, nil, ".local/share", "", failed},
		"nowhere, but variable":  {nil, map[string]string{"BOREWRIGHT_DB": "b.db"}, "", "b.db", done},
		"nowhere, but data home": {nil, map[string]string{"XDG_DATA_HOME": own}, "", below(own), done},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := testWorld(io.Discard, io.Discard, c.env)
			w.DataHome = c.home
			var got string
			action := func(_ context.Context, cmd *cli.Command) (err error) {
				got, err = database(cmd, w)
				return err
			}
			program := &cli.Command{
				Name:           "borewright",
				Flags:          []cli.Flag{databaseFlag()},
				Action:         action,
				Commands:       []*cli.Command{{Name: "where", Action: action}},
				ExitErrHandler: func(context.Context, *cli.Command, error) {},
			}
			err := program.Run(t.Context(), append([]string{"borewright"}, c.args...))
			if got != c.want || kindOf(err) != c.kind {
				t.Errorf("got %q, %v, want %q and kind %d", got, err, c.want, c.kind)
			}
			if c.kind == failed && !errors.Is(err, errNoDataHome) {
				t.Errorf("error %v, want %v", err, errNoDataHome)
			}
		})
	}
}
