package main

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"borewright/engine/record"
)

// The bore was worked on on 2 March 2026, the notes the day before.
func TestListFinds(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	for _, c := range []struct {
		args  string
		found string
	}{
		{"", "NOTES01B BENCH0 NOTES01A"},
		{"BARREL", "BENCH0"},
		{"bore nobody test", "BENCH0"},
		{"notes", "NOTES01A"},
		{"notes bore", ""},
		{"--since 2026-03-02", "BENCH0"},
		{"--since 2026-03-01 --until 2026-03-01", "NOTES01B NOTES01A"},
		{"--until 2026-02-28", ""},
		{"--since 2026-03-03", ""},
		{"first --until 2026-03-01", "NOTES01A"},
		{"--until 2026-03-01 first", "NOTES01A"},
		{"bore --until 2026-03-01", ""},
	} {
		args := append([]string{"list"}, strings.Fields(c.args)...)
		text := s.must(t, args...)
		var got []listedSession
		if err := json.Unmarshal([]byte(s.must(t, append(args, "--json")...)), &got); err != nil {
			t.Fatal(err)
		}
		var ids []string
		for _, x := range got {
			ids = append(ids, x.ID)
			if !strings.Contains(text, x.ID+" ") {
				t.Errorf("%q lacks %s:\n%s", c.args, x.ID, text)
			}
		}
		if strings.Join(ids, " ") != c.found {
			t.Errorf("%q found %q, want %q", c.args, ids, c.found)
		}
		if c.found == "" && text != "None of 3 sessions is found so.\n" {
			t.Errorf("%q printed %q", c.args, text)
		}
	}
}

func TestListRefusesDays(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	for _, c := range []struct{ args, says string }{
		{"--since yesterday", `--since "yesterday" is no day such as 2026-03-10`},
		{"--until 2026-13-01", `--until "2026-13-01" is no day`},
		{"--since 2026-03-02 --until 2026-03-01", "--since 2026-03-02 is later than --until 2026-03-01"},
	} {
		out, errs, code := s.run(append([]string{"list"}, strings.Fields(c.args)...)...)
		if code != 2 || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%q ended with %d and said %q, want %q", c.args, code, errs, c.says)
		}
	}
}

// A session on which the clock was put back is of all the days between.
func TestListFindsWhereTheClockWasPutBack(t *testing.T) {
	t.Parallel()
	on := func(day int) time.Time { return time.Date(2026, 3, day, 12, 0, 0, 0, time.UTC) }
	h := record.Heading{Started: on(10), Last: on(4)}
	for _, c := range []struct {
		since, before int
		want          bool
	}{{1, 3, false}, {1, 5, true}, {6, 8, true}, {9, 12, true}, {11, 12, false}} {
		if got := (want{since: on(c.since), before: on(c.before)}).has(h); got != c.want {
			t.Errorf("from March %d to %d: found %v, want %v", c.since, c.before, got, c.want)
		}
	}
}
