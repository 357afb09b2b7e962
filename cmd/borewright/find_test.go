package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"borewright/engine/record"
)

func titled(pairs ...string) []record.Heading {
	var hs []record.Heading
	for i := 0; i < len(pairs); i += 2 {
		hs = append(hs, record.Heading{UID: pairs[i], Title: pairs[i+1]})
	}
	return hs
}

func TestFind(t *testing.T) {
	t.Parallel()
	hs := titled("QRST2345", "Launch", "QRSU2345", "Launch", "demo", "A", "demo-2", "B", "xyz", "QRST", "w", "wide \u200bname")
	for id, want := range map[string]string{
		"QRST2345":        "QRST2345",
		"qrst23":          "QRST2345",
		"QRSU":            "QRSU2345",
		"demo":            "demo", // whole, though another begins so
		"demo-":           "demo-2",
		"A":               "demo",
		"wide name":       "w",
		"wide \u200bname": "w",
		"QRST2345X":       `no session has the title "QRST2345X" or an ID that begins so; "borewright list" shows them`,
		"launch":          `no session has the title "launch" or an ID that begins so; "borewright list" shows them`,
		"":                `no session has the title "" or an ID that begins so; "borewright list" shows them`,
		"Launch":          `"Launch" names 2 sessions (QRST23 "Launch", QRSU23 "Launch"); give the ID of one`,
		"QRST":            `"QRST" names 2 sessions (QRST23 "Launch", xyz "QRST"); give the ID of one`,
	} {
		h, err := find(hs, id)
		if err != nil && err.Error() != want || err == nil && h.UID != want {
			t.Errorf("%q found %q, %v, want %s", id, h.UID, err, want)
		}
	}
}

func TestFindNamesFew(t *testing.T) {
	t.Parallel()
	var pairs []string
	for i := range 20 {
		pairs = append(pairs, fmt.Sprintf("abcdef%02d", i), "T")
	}
	_, err := find(titled(pairs...), "abc")
	if err == nil || !strings.HasSuffix(err.Error(), `abcdef04 "T", 15 more); give the ID of one`) {
		t.Errorf("said %v", err)
	}
}

// A short ID finds its own session, and is no longer than it must be. The lists are
// drawn by hand: the tables of a library that draws would be made at the start of
// every program of a story.
func TestShortIDsProperty(t *testing.T) {
	t.Parallel()
	seed := rand.Uint64()
	chance := rand.New(rand.NewPCG(seed, 0))
	for range 1000 {
		if uids := drawnIDs(chance); !shortEnough(t, uids) {
			t.Fatalf("with %q, of seed %d", uids, seed)
		}
	}
}

// drawnIDs draws up to a dozen IDs of few letters, of which no two differ in case alone.
func drawnIDs(chance *rand.Rand) []string {
	const letters = "aAbB-"
	var uids []string
	for range 1 + chance.IntN(12) {
		id := make([]byte, 1+chance.IntN(9))
		for i := range id {
			id[i] = letters[chance.IntN(len(letters))]
		}
		if !slices.ContainsFunc(uids, func(u string) bool { return strings.EqualFold(u, string(id)) }) {
			uids = append(uids, string(id))
		}
	}
	return uids
}

func shortEnough(t *testing.T, uids []string) bool {
	t.Helper()
	var hs []record.Heading
	for _, u := range uids {
		hs = append(hs, record.Heading{UID: u})
	}
	short := shortIDs(hs)
	for _, h := range hs {
		id := short[h.UID]
		if got, err := find(hs, id); err != nil || got.UID != h.UID {
			t.Errorf("%q of %q finds %q, %v", id, h.UID, got.UID, err)
		}
		if len(id) <= leastID {
			continue
		}
		begin := strings.ToLower(id[:len(id)-1])
		if !slices.ContainsFunc(uids, func(u string) bool { return u != h.UID && strings.HasPrefix(strings.ToLower(u), begin) }) {
			t.Errorf("%q of %q could be shorter", id, h.UID)
		}
	}
	return !t.Failed()
}
