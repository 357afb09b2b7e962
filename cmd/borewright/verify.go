package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/store"
)

// verifyCommand is "borewright verify".
func verifyCommand(w World) *cli.Command {
	return &cli.Command{
		Name:  "verify",
		Usage: "check the database, page by page and event by event, and say what is wrong",
		Description: `Reads everything and writes nothing. A changed byte, a missing event and a
broken chain are named with their page, session and event. The check runs in
a process of its own, so that nothing a damaged file does can stop it from
being told. The exit code is 1 when something is wrong.`,
		Flags: []cli.Flag{
			jsonFlag(),
			&cli.DurationFlag{Name: "within", Value: 10 * time.Minute, Usage: "give the check up after this `TIME`"},
		},
		Action: func(ctx context.Context, cmd *cli.Command) error {
			if _, err := operands(cmd); err != nil {
				return err
			}
			return verify(ctx, cmd, w)
		},
	}
}

func verify(ctx context.Context, cmd *cli.Command, w World) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	if !w.Exists(path) {
		return fmt.Errorf("no database is at %s", path)
	}
	ctx, cancel := context.WithTimeout(ctx, cmd.Duration("within"))
	defer cancel()
	r, err := w.Verify(ctx, path)
	if err != nil {
		return busyWords(path, err)
	}
	if cmd.Bool("json") {
		err = record.WriteJSON(w.Out, r)
	} else {
		err = printLines(w.Out, verifyLines(r))
	}
	if err == nil && !r.Sound {
		err = fmt.Errorf("%s is damaged; \"borewright salvage OUT\" recovers what is intact", path)
	}
	return err
}

// verifyLines says what was found.
func verifyLines(r store.Report) []string {
	lines := make([]string, 0, len(r.Faults)+2)
	for _, f := range r.Faults {
		lines = append(lines, f.Error())
	}
	if r.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", r.More))
	}
	counted := fmt.Sprintf("%s of %s on %s", plural(r.Events, "event"), plural(r.Sessions, "session"), plural(r.Pages, "page"))
	if r.Sound {
		return append(lines, counted+" intact; the database is sound")
	}
	return append(lines, counted+" can be reached and are intact")
}

// childAnswer is what the process of the check says.
type childAnswer struct {
	Report store.Report `json:"report"`
	Error  string       `json:"error,omitempty"`
	Busy   bool         `json:"busy,omitempty"`
}

// checkMemory is how many bytes the process of a check may take.
const checkMemory = 2 << 30

// verifyInside is the hidden command that "verify" runs in a process of its own.
func verifyInside(w World) *cli.Command {
	return &cli.Command{
		Name:   "verify-inside",
		Usage:  "check the database for verify, as JSON",
		Hidden: true,
		Action: func(_ context.Context, cmd *cli.Command) error {
			limitMemory(checkMemory)
			path, err := database(cmd, w)
			if err != nil {
				return err
			}
			var a childAnswer
			if a.Report, err = store.Verify(path); err != nil {
				a.Error, a.Busy = err.Error(), errors.Is(err, store.ErrBusy)
			}
			return json.NewEncoder(w.Out).Encode(a)
		},
	}
}

// answerOf reads what the process of a check said, which ended with err.
func answerOf(ctx context.Context, out []byte, err error) (store.Report, error) {
	var a childAnswer
	switch {
	case ctx.Err() != nil:
		return store.Report{}, errors.New("the check was given up because it took too long; --within gives it more time")
	case err != nil:
		return store.Report{}, fmt.Errorf("the check could not be finished: %w; \"borewright salvage OUT\" recovers what is intact", err)
	}
	if err := json.Unmarshal(out, &a); err != nil {
		return store.Report{}, fmt.Errorf("the check said nothing that can be read: %w", err)
	}
	switch {
	case a.Busy:
		return store.Report{}, store.ErrBusy
	case a.Error != "":
		return store.Report{}, errors.New(a.Error)
	}
	return a.Report, nil
}
