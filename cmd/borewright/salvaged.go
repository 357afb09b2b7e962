package main

import (
	"fmt"
	"strings"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

// salvaged is what salvage found and where it is listed.
type salvaged struct {
	store.Salvaged
	// Listing is the file that lists what is lost and what was set aside, empty
	// when nothing is.
	Listing string `json:"listing,omitempty"`
}

// listingSuffix is what the name of the listing adds to that of the new database.
const listingSuffix = ".report.txt"

// mostGaps is how many rows of lost events of one session are said on the
// terminal; the listing has them all.
const mostGaps = 6

// salvageLines says of every session, in short, what was recovered in place, what
// was set aside and what is lost.
func salvageLines(s salvaged) []string {
	var lines []string
	for i := range s.Streams {
		x := &s.Streams[i]
		lines = append(lines, savedLine(x))
		if x.ByPosition {
			lines = append(lines, "  "+byPosition)
		}
		for j := range x.Gaps[:min(len(x.Gaps), mostGaps)] {
			lines = append(lines, "  lost: "+gapLine(&x.Gaps[j]))
		}
		if more := len(x.Gaps) - mostGaps; more > 0 {
			lines = append(lines, fmt.Sprintf("  lost: %d more rows of events, which the listing has", more))
		}
		if len(x.Strays) > 0 {
			lines = append(lines, "  set aside: "+straysLine(x))
		}
		if len(x.Newer) > 0 {
			lines = append(lines, "  of a newer borewright: "+newerLine(x))
		}
	}
	lines = append(lines, totalLine(&s.Salvaged))
	if s.Listing != "" {
		lines = append(lines, "what is lost and what was set aside is listed in "+s.Listing)
	}
	return lines
}

// totalLine counts the events of all sessions.
func totalLine(s *store.Salvaged) string {
	recovered, lost, aside, newer := s.Totals()
	total := fmt.Sprintf("%s recovered into %s, %d lost", plural(recovered, "event"), s.Out, lost)
	if aside > 0 {
		total += fmt.Sprintf(", %d set aside in %s because they rest on what is missing", aside, s.Beside)
	}
	if newer > 0 {
		total += fmt.Sprintf(", %d of a newer borewright put as they are into %s", newer, s.Beside)
	}
	if s.Unknown > 0 {
		total += fmt.Sprintf("; %d could not be read by this version", s.Unknown)
	}
	return total
}

// savedName names a session as "verify" does.
func savedName(s *store.Saved) string {
	switch {
	case s.UID == record.ShopUID:
		return "the shop"
	case s.Title == "":
		return "session " + s.UID
	default:
		return fmt.Sprintf("session %s (%s)", called(s.Title), s.UID)
	}
}

// savedLine counts the events of one session.
func savedLine(s *store.Saved) string {
	text := fmt.Sprintf("%s: %s recovered in place", savedName(s), plural(s.Events, "event"))
	if n := len(s.Restored); n > 0 {
		text += fmt.Sprintf(", %d of them with one changed byte set right", n)
	}
	if len(s.Lost) > 0 {
		text += fmt.Sprintf(", %d lost", len(s.Lost))
	}
	if len(s.Aside) > 0 {
		text += fmt.Sprintf(", %d set aside", len(s.Aside))
	}
	if len(s.Newer) > 0 {
		text += fmt.Sprintf(", %d of a newer borewright", len(s.Newer))
	}
	if len(s.Broken) > 0 {
		text += ", altered before: " + numbers(s.Broken)
	}
	if s.EndUnknown {
		text += ", nothing tells whether more followed"
	}
	switch {
	case s.Complete():
		return text + ", complete"
	case s.Whole.N == 0:
		return text + "; no part of its chain is whole"
	default:
		return text + fmt.Sprintf("; its chain is whole up to event %d", s.Whole.N)
	}
}

// gapLine says which events are lost, what they perhaps were, and what they lie
// between.
func gapLine(g *store.Gap) string {
	text := eventRange(g.First, g.Last)
	switch {
	case g.First == g.Last && len(g.Remains) == 1:
		return text + ", " + g.Remains[0].Text
	case g.After != nil:
		text += fmt.Sprintf(", after event %d (%s)", g.After.N, toldText(g.After))
	}
	if g.Before != nil {
		text += fmt.Sprintf(", before event %d (%s)", g.Before.N, toldText(g.Before))
	}
	if n := len(g.Remains); n > 0 {
		text += fmt.Sprintf("; of %d something can be read", n)
	}
	return text
}

// toldText says an intact event and when it was kept.
func toldText(e *store.Told) string { return e.Text + ", " + benchClock(e.At) }

// straysLine says which events were set aside, how many of them are readings, and
// why the first of them was.
func straysLine(s *store.Saved) string {
	text := numbers(s.Aside)
	readings := int64(0)
	for _, e := range s.Strays {
		if e.Is == record.IsReading {
			readings++
		}
	}
	if readings > 0 {
		text += ", " + plural(readings, "reading") + " among them"
	}
	return text + fmt.Sprintf("; of event %d: %s", s.Strays[0].N, s.Strays[0].Why)
}

// newerLine says which events a newer program wrote, and why the first of them
// cannot be read.
func newerLine(s *store.Saved) string {
	var list []int64
	for _, e := range s.Newer {
		list = append(list, e.N)
	}
	return numbers(list) + "; " + s.Newer[0].Text
}

// benchClock returns a time as the clock showed it where the event was kept.
func benchClock(t time.Time) string { return t.Format("2006-01-02 15:04") }

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
