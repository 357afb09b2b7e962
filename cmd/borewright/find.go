package main

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// leastID is how many characters a short ID has at least.
const leastID = 6

// shortIDs returns, for the uid of each session, the beginning of it that
// [find] takes for that session alone. Large and small letters are the same.
func shortIDs(hs []record.Heading) map[string]string {
	folded := make([]string, len(hs))
	for i, h := range hs {
		folded[i] = strings.ToLower(h.UID)
	}
	slices.Sort(folded)
	short := make(map[string]string, len(hs))
	for _, h := range hs {
		i, _ := slices.BinarySearch(folded, strings.ToLower(h.UID))
		n := leastID
		if i > 0 {
			n = max(n, 1+common(folded[i-1], folded[i]))
		}
		if i+1 < len(folded) {
			n = max(n, 1+common(folded[i], folded[i+1]))
		}
		short[h.UID] = h.UID[:min(n, len(h.UID))]
	}
	return short
}

// common returns how many bytes a and b begin with in common.
func common(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// find returns the session that id names: its uid, a beginning of its uid that
// no other has, or its exact title as it is or as the list shows it.
func find(hs []record.Heading, id string) (record.Heading, error) {
	var found []record.Heading
	for _, h := range hs {
		begins := len(id) <= len(h.UID) && strings.EqualFold(h.UID[:len(id)], id)
		switch {
		case h.UID == id:
			return h, nil
		case id != "" && (begins || h.Title == id || draw.Clean(h.Title) == id):
			found = append(found, h)
		}
	}
	switch len(found) {
	case 0:
		return record.Heading{}, fmt.Errorf(`no session has the title %q or an ID that begins so; "borewright list" shows them`, id)
	case 1:
		return found[0], nil
	default:
		return record.Heading{}, ambiguous(hs, found, id)
	}
}

// mostNamed is how many sessions one sentence names.
const mostNamed = 5

func ambiguous(all, found []record.Heading, id string) error {
	short := shortIDs(all)
	var names []string
	for _, h := range found[:min(len(found), mostNamed)] {
		names = append(names, short[h.UID]+" "+called(h.Title))
	}
	if more := len(found) - mostNamed; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return fmt.Errorf("%q names %d sessions (%s); give the ID of one", draw.Clean(id), len(found), strings.Join(names, ", "))
}
