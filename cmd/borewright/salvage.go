package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/store"
)

// salvageCommand is "borewright salvage OUT".
func salvageCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "salvage",
		Usage:     "recover every intact event of a damaged database into a new one",
		ArgsUsage: "OUT",
		Description: `Searches the database, which is not written, for every event of which no
byte is changed, and makes the new database OUT of them. A note stands in the
place of an event that is lost, and the title of its session says so: read
those places again. What is lost can come from a backup: --with FILE. Events
that cannot stand without a lost one are written to OUT.aside.jsonl.`,
		Flags: []cli.Flag{
			jsonFlag(),
			&cli.StringSliceFlag{Name: "with", Usage: "search `FILE`, a backup or a copy, too"},
		},
		ShellComplete: completeFile,
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "OUT")
			if err != nil {
				return err
			}
			return salvage(cmd, w, args[0])
		},
	}
}

func salvage(cmd *cli.Command, w World, out string) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	s, err := w.Salvage(path, out, cmd.StringSlice("with")...)
	switch {
	case err != nil:
		return busyWords(path, err)
	case cmd.Bool("json"):
		return record.WriteJSON(w.Out, s)
	default:
		return printLines(w.Out, salvageLines(s))
	}
}

// salvageLines says of every session what was recovered and what was not.
func salvageLines(s store.Salvaged) []string {
	var lines []string
	for i := range s.Streams {
		lines = append(lines, savedLine(&s.Streams[i]))
	}
	recovered, lost, aside := s.Totals()
	total := fmt.Sprintf("%s recovered into %s, %d lost", plural(recovered, "event"), s.Out, lost)
	if aside > 0 {
		total += fmt.Sprintf(", %d set aside in %s because they rest on what was lost", aside, s.Beside)
	}
	if s.Unknown > 0 {
		total += fmt.Sprintf("; %d could not be read by this version", s.Unknown)
	}
	return append(lines, total)
}

func savedLine(s *store.Saved) string {
	name := "session " + s.UID + " " + called(s.Title)
	if s.UID == record.ShopUID {
		name = "the shop"
	}
	text := fmt.Sprintf("%s: %s recovered", name, plural(s.Events, "event"))
	if len(s.Lost) > 0 {
		text += ", lost: " + numbers(s.Lost)
	}
	if len(s.Aside) > 0 {
		text += ", set aside: " + numbers(s.Aside)
	}
	if len(s.Broken) > 0 {
		text += ", altered before: " + numbers(s.Broken)
	}
	if s.EndUnknown {
		text += ", nothing tells whether more followed"
	}
	if s.Complete() {
		return text + ", complete"
	}
	return text + fmt.Sprintf("; its chain is whole up to event %d", s.Whole.N)
}

// numbers names events by their numbers, rows of them by their ends.
func numbers(list []int64) string {
	var out []string
	for i := 0; i < len(list); {
		j := i
		for j+1 < len(list) && list[j+1] == list[j]+1 {
			j++
		}
		out = append(out, eventRange(list[i], list[j]))
		i = j + 1
	}
	return strings.Join(out, ", ")
}
