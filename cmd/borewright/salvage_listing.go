package main

import (
	"bytes"
	"fmt"

	"borewright/store"
)

// writeListing writes what is lost and what was set aside beside the new database,
// to be read at the bench, and returns where; nowhere when nothing is.
func writeListing(w World, s store.Salvaged) (string, error) {
	lines := listingLines(s)
	if len(lines) == 0 {
		return "", nil
	}
	var text bytes.Buffer
	if err := printLines(&text, lines); err != nil {
		return "", err
	}
	path := s.Out + listingSuffix
	return path, w.WriteNew(path, text.Bytes())
}

// byPosition is said of a session of which no layout is known.
const byPosition = "its layout is not known: places are named by their position from the front, whatever the shop calls them"

// listingLines lists every session with an event that is lost, was set aside or is
// of a newer program.
func listingLines(s store.Salvaged) []string {
	var lines []string
	for i := range s.Streams {
		if x := &s.Streams[i]; len(x.Gaps)+len(x.Strays)+len(x.Newer) > 0 {
			lines = append(lines, "", savedLine(x))
			if x.ByPosition {
				lines = append(lines, byPosition)
			}
			lines = append(lines, gapsListed(x)...)
			lines = append(lines, straysListed(x)...)
			lines = append(lines, newerListed(x)...)
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return append([]string{
		"What was lost of " + s.Path + " and what was set aside.",
		"All else is in " + s.Out + ".",
		"Behind \"perhaps\" stands what can be read of a damaged event: any part of it may be wrong.",
	}, lines...)
}

// gapsListed lists the lost events of a session.
func gapsListed(s *store.Saved) []string {
	if len(s.Gaps) == 0 {
		return nil
	}
	lines := []string{"lost, to be measured or set again:"}
	for i := range s.Gaps {
		g := &s.Gaps[i]
		lines = append(lines, "  "+eventRange(g.First, g.Last))
		if g.After != nil {
			lines = append(lines, "    came after "+toldLine(g.After))
		}
		for _, r := range g.Remains {
			lines = append(lines, fmt.Sprintf("    event %d: %s", r.N, r.Text))
		}
		if g.Before != nil {
			lines = append(lines, "    came before "+toldLine(g.Before))
		}
	}
	return lines
}

// straysListed lists the events of a session that were set aside.
func straysListed(s *store.Saved) []string {
	if len(s.Strays) == 0 {
		return nil
	}
	lines := []string{"set aside, intact, but no part of the session, because they rest on what is missing:"}
	for i := range s.Strays {
		e := &s.Strays[i]
		lines = append(lines, "  "+toldLine(e), "    "+e.Why)
	}
	return lines
}

// newerListed lists the events of a session that a newer program wrote.
func newerListed(s *store.Saved) []string {
	if len(s.Newer) == 0 {
		return nil
	}
	lines := []string{"of a newer borewright, intact, and for that one to salvage:"}
	for i := range s.Newer {
		lines = append(lines, "  "+toldLine(&s.Newer[i]))
	}
	return lines
}

// toldLine says which event says what, when it was kept and by whom.
func toldLine(e *store.Told) string {
	by := ""
	if e.By != "" {
		by = ", " + e.By
	}
	return fmt.Sprintf("event %d, %s%s: %s", e.N, benchClock(e.At), by, e.Text)
}
