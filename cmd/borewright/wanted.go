package main

import (
	"strings"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// dateFlags are the options that ask for sessions of some days.
func dateFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "since", Usage: "only what went on on `DATE` or later"},
		&cli.StringFlag{Name: "until", Usage: "only what was begun on `DATE` or earlier"},
	}
}

// want says which sessions are asked for. The zero value asks for all.
type want struct {
	words         []string  // folded
	since, before time.Time // zero: from ever, for ever
}

// wanted returns what the command line asks for; its days are those of zone.
func wanted(cmd *cli.Command, zone *time.Location) (want, error) {
	out := want{words: strings.Fields(draw.Folded(strings.Join(cmd.Args().Slice(), " ")))}
	since, err := dayOf(cmd, "since", zone)
	if err != nil {
		return out, err
	}
	until, err := dayOf(cmd, "until", zone)
	if err != nil {
		return out, err
	}
	out.since = since
	if !until.IsZero() {
		out.before = until.AddDate(0, 0, 1)
	}
	if !out.before.IsZero() && !since.Before(out.before) {
		return out, usagef("--since %s is later than --until %s", cmd.String("since"), cmd.String("until"))
	}
	return out, nil
}

// dayOf returns when the day of an option begins; zero when it is not given.
func dayOf(cmd *cli.Command, option string, zone *time.Location) (time.Time, error) {
	if !cmd.IsSet(option) {
		return time.Time{}, nil
	}
	day, err := time.ParseInLocation(time.DateOnly, cmd.String(option), zone)
	if err != nil {
		return day, usagef("--%s %q is no day such as 2026-03-10", option, cmd.String(option))
	}
	return day, nil
}

// of returns the sessions that are asked for, in the same order.
func (x want) of(hs []record.Heading) []record.Heading {
	var out []record.Heading
	for _, h := range hs {
		if x.has(h) {
			out = append(out, h)
		}
	}
	return out
}

func (x want) has(h record.Heading) bool {
	from, to := h.Started, h.Last
	if to.Before(from) { // the clock was put back meanwhile
		from, to = to, from
	}
	if to.Before(x.since) || !x.before.IsZero() && !from.Before(x.before) {
		return false
	}
	return draw.HasWords(draw.Folded(h.Title+"\n"+h.Customer+"\n"+h.Engine), x.words)
}
