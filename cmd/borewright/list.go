package main

import (
	"context"
	"fmt"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// listCommand is "borewright list".
func listCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "list",
		Usage:     "list the sessions, the newest touched first",
		ArgsUsage: "[WORDS...]",
		Description: `With words, only the sessions in whose title, customer and engine every word,
or part of one, is found. DATE is a day such as 2026-03-10; a session that
was begun before --until and went on after --since is listed.`,
		Flags: append(dateFlags(), jsonFlag()),
		Action: func(_ context.Context, cmd *cli.Command) error {
			want, err := wanted(cmd, w.Now().Location())
			if err != nil {
				return err
			}
			return list(cmd, w, want)
		},
	}
}

func list(cmd *cli.Command, w World, want want) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	all, err := headings(w, path)
	hs := want.of(all)
	switch {
	case err != nil:
		return err
	case cmd.Bool("json"):
		return record.WriteJSON(w.Out, listed(hs, shortIDs(all)))
	case len(all) == 0:
		return printLines(w.Out, []string{`There is no session yet; "borewright" begins one.`})
	case len(hs) == 0:
		return printLines(w.Out, []string{fmt.Sprintf("None of %s is found so.", plural(int64(len(all)), "session"))})
	default:
		return printLines(w.Out, listLines(hs, shortIDs(all), w.Now().Location()))
	}
}

// headings returns those of every session in the database at path; none when
// there is no database, which is not made.
func headings(w World, path string) (hs []record.Heading, err error) {
	if !w.Exists(path) {
		return nil, nil
	}
	err = withBook(w, path, func(b Book) error {
		hs, err = b.Headings(0)
		return err
	})
	return hs, err
}

// listColumns are the columns of the list and the most cells each may take.
var listColumns = []struct {
	name string
	most int
}{
	{"ID", 64},
	{"TOUCHED", 16},
	{"READINGS", 8},
	{"STATE", 8},
	{"TITLE", 40},
	{"ENGINE", 30},
	{"CUSTOMER", 30},
	{"LAST READING", 80},
}

// listLines lays sessions with their short IDs out in columns, times as a clock in zone shows
// them.
func listLines(hs []record.Heading, short map[string]string, zone *time.Location) []string {
	rows := make([][]string, 1, len(hs)+1)
	for _, c := range listColumns {
		rows[0] = append(rows[0], c.name)
	}
	for _, h := range hs {
		rows = append(rows, []string{
			short[h.UID], clock(h.Last, zone), fmt.Sprint(h.Readings), state(h), draw.Clean(h.Title),
			draw.Clean(h.Engine), draw.Clean(h.Customer), lastReading(h, zone),
		})
	}
	return columns(rows)
}

// columns lays rows out so that the cells of each column begin one below the
// other.
func columns(rows [][]string) []string {
	widths := make([]int, len(listColumns))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = min(max(widths[i], draw.Width(cell)), listColumns[i].most)
		}
	}
	lines := make([]string, len(rows))
	for i, row := range rows {
		for j, cell := range row {
			lines[i] += draw.Fit(cell, widths[j]) + "  "
		}
	}
	return lines
}

// clock returns a time as a bench's clock and calendar show it.
func clock(t time.Time, zone *time.Location) string { return t.In(zone).Format("2006-01-02 15:04") }

// state returns the state of a session in one word.
func state(h record.Heading) string {
	if h.State == "" {
		return "open"
	}
	return h.State
}

// lastReading says what was last read in a session, and where and when, as the bench
// does: what its levels are called stands in the session's plan alone.
func lastReading(h record.Heading, zone *time.Location) string {
	if h.Readings == 0 {
		return "none"
	}
	return draw.Clean(fmt.Sprintf("%s %s: %s at %s",
		h.LastPlace.Of.Family.Noun(), h.LastLabel, h.LastKeyed, clock(h.LastAt, zone)))
}

// listedSession is a session in the list as other programs read it.
type listedSession struct {
	UID      string       `json:"uid"`
	ID       string       `json:"id"` // the short form of UID
	Title    string       `json:"title"`
	Customer string       `json:"customer,omitempty"`
	Engine   string       `json:"engine,omitempty"`
	Unit     string       `json:"unit"`
	State    string       `json:"state"`
	Started  time.Time    `json:"started"`
	Touched  time.Time    `json:"touched"`
	Readings int64        `json:"readings"`
	Last     *listedPlace `json:"last_reading,omitempty"`
	Digest   record.Head  `json:"digest"`
}

// listedPlace is where and when the last reading was taken, and what was keyed.
type listedPlace struct {
	Of    string    `json:"of"`
	Label string    `json:"label"`
	Level string    `json:"level"`
	Dir   string    `json:"dir"`
	Keyed string    `json:"keyed"`
	At    time.Time `json:"at"`
}

func listed(hs []record.Heading, short map[string]string) []listedSession {
	out := make([]listedSession, len(hs))
	for i, h := range hs {
		out[i] = listedSession{
			UID: h.UID, ID: short[h.UID], Title: h.Title, Customer: h.Customer, Engine: h.Engine,
			Unit: h.Unit.String(), State: state(h), Started: h.Started, Touched: h.Last,
			Readings: h.Readings, Digest: h.Head,
		}
		if h.Readings > 0 {
			p := h.LastPlace
			out[i].Last = &listedPlace{p.Of.String(), h.LastLabel, p.Level, p.Dir, h.LastKeyed, h.LastAt}
		}
	}
	return out
}
