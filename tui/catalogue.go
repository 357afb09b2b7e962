package tui

import (
	"slices"
	"strings"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// catalogue is the sessions that the bench knows of, newest touched first, and
// which of them it shows.
type catalogue struct {
	all []listed
	// whole says that there are no others.
	whole bool
	// archived says that archived sessions are shown too, words what is found in
	// all that is shown.
	archived bool
	words    string
	shown    []*record.Heading
}

// listed is a session with the text that it is found by.
type listed struct {
	record.Heading
	text string
}

// listedOf makes the texts that sessions are found by, which takes a while for
// thousands.
func listedOf(hs []record.Heading) []listed {
	out := make([]listed, len(hs))
	for i, h := range hs {
		out[i] = listed{h, draw.Folded(h.Title + "\n" + h.Customer + "\n" + h.Engine)}
	}
	return out
}

// take adds the newest sessions, or all there are. Those known already that
// are not among the newest stay behind them.
func (c *catalogue) take(newest []listed, whole bool) {
	if !whole {
		have := map[string]bool{}
		for _, x := range newest {
			have[x.UID] = true
		}
		for _, x := range c.all {
			if !have[x.UID] {
				newest = append(newest, x)
			}
		}
	}
	c.all, c.whole = newest, c.whole || whole
	c.show()
}

// find shows only sessions in whose title, customer or engine every word is
// found, in any order.
func (c *catalogue) find(text string) {
	c.words = text
	c.show()
}

// showArchived shows the archived sessions too, or leaves them out.
func (c *catalogue) showArchived(yes bool) {
	c.archived = yes
	c.show()
}

func (c *catalogue) show() {
	words := strings.Fields(draw.Folded(c.words))
	c.shown = c.shown[:0]
	for i := range c.all {
		if x := &c.all[i]; (c.archived || x.State != record.Archived) && draw.HasWords(x.text, words) {
			c.shown = append(c.shown, &x.Heading)
		}
	}
}

// counts returns how many sessions there are outside and inside the archive.
func (c *catalogue) counts() (out, in int) {
	for i := range c.all {
		if c.all[i].State == record.Archived {
			in++
		}
	}
	return len(c.all) - in, in
}

// index returns where a session is shown, -1 where it is not.
func (c *catalogue) index(uid string) int {
	return slices.IndexFunc(c.shown, func(h *record.Heading) bool { return h.UID == uid })
}
