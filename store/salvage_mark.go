package store

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"borewright/engine/record"
)

// misses counts the events of a session in whose place something else stands.
type misses struct{ lost, aside, newer int }

func (m misses) plus(n misses) misses {
	return misses{m.lost + n.lost, m.aside + n.aside, m.newer + n.newer}
}

// missesIn returns what an intact event says that an earlier salvage missed: the
// note in the place of an event, or the mark of details in the place of the first.
func missesIn(e record.Event) misses {
	switch body := e.Body.(type) {
	case record.Details:
		if _, m := unmarked(body.Title); e.N == 1 {
			return m
		}
	case record.Note:
		switch {
		case strings.HasPrefix(body.Text, lostText):
			return misses{lost: 1}
		case strings.HasPrefix(body.Text, asideText):
			return misses{aside: 1}
		case strings.HasPrefix(body.Text, newerText):
			return misses{newer: 1}
		}
	}
	return misses{}
}

// markPattern is the mark that the title of a session ends in of which something is
// missing.
var markPattern = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\s*\(SALVAGED(?:, (\d+) lost)?(?:, (\d+) set aside)?(?:, (\d+) newer)?(?:, altered|, end unknown)?\)$`)
})

// unmarked returns a title without the marks that it ends in, and what they count.
// Each counts all that is missing, so the largest counts hold.
func unmarked(title string) (bare string, m misses) {
	for {
		found := markPattern().FindStringSubmatch(title)
		if found == nil {
			return title, m
		}
		for i, n := range []*int{&m.lost, &m.aside, &m.newer} {
			counted, _ := strconv.Atoi(found[i+1])
			*n = max(*n, counted)
		}
		title = title[:len(title)-len(found[0])]
	}
}

// titleRoom is how many bytes the mark may take of a title.
const titleRoom = 64

// marked returns a title with one mark of what is missing; whatever is the reason
// when nothing is.
func marked(title string, m misses, reason string) string {
	mark := "SALVAGED"
	if m.lost > 0 {
		mark += ", " + strconv.Itoa(m.lost) + " lost"
	}
	if m.aside > 0 {
		mark += ", " + strconv.Itoa(m.aside) + " set aside"
	}
	if m.newer > 0 {
		mark += ", " + strconv.Itoa(m.newer) + " newer"
	}
	if m == (misses{}) {
		mark += ", " + reason
	}
	const most = 200
	title, _ = unmarked(title)
	if room := most - titleRoom; len(title) > room {
		title = strings.ToValidUTF8(title[:room], "")
	}
	return strings.TrimSpace(title + " (" + mark + ")")
}
