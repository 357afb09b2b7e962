package store

import (
	"cmp"
	"slices"

	"borewright/engine/record"
)

// choice is what was chosen of the events found for one stream.
type choice struct {
	// id is that of the stream.
	id uint64
	// events has an event for each number from 1 on; one that is lost has no line.
	events []leaf
	// doubtful are the numbers at which two different events were found and
	// nothing tells which of them was kept; both count as lost.
	doubtful []int64
	// breaks are the numbers of the events that do not hold the hash of the
	// intact one before: one of the two was altered.
	breaks []int64
}

// weight says how well an event goes on: how many of those that follow it in
// its chain the tree leads to, how many the file itself has, and how many there are.
type weight struct{ reached, own, all int64 }

func (w weight) over(x weight) bool {
	return cmp.Or(cmp.Compare(w.reached, x.reached), cmp.Compare(w.own, x.own), cmp.Compare(w.all, x.all)) > 0
}

// choose follows the chain of a stream from its first event on. Where two
// events have one number, which a commit that was cut off can leave behind, the
// one that the tree and the chain go on with is taken.
func (q *quarry) choose(id uint64) choice {
	found, last := q.events[id], q.last(id)
	weights, own := weigh(found, last), lastOwn(found)
	c := choice{id: id, events: make([]leaf, last)}
	known, before := true, record.Head{}
	for n := int64(1); n <= last; n++ {
		next, fits := linked(found[n], before.Hash)
		if !fits {
			next = found[n]
		}
		if !fits && (known || n < own) {
			next = ours(next, weights)
		}
		if !fits && known && len(next) > 0 {
			c.breaks = append(c.breaks, n)
		}
		l, sure := heaviest(next, weights)
		if len(next) > 0 && !sure {
			c.doubtful = append(c.doubtful, n)
		}
		if known = sure; sure {
			c.events[n-1], before = l, record.Head{N: n, Hash: l.sum}
		} else {
			before = record.Head{}
		}
	}
	return c
}

// weigh weighs every event by those that follow it, last to first.
func weigh(found map[int64][]leaf, last int64) map[string]weight {
	weights := map[string]weight{}
	for n := last; n > 0; n-- {
		best := map[string]weight{}
		for _, l := range found[n+1] {
			if w := weights[l.sum]; w.over(best[l.prev]) {
				best[l.prev] = w
			}
		}
		for _, l := range found[n] {
			w := best[l.sum]
			w.all++
			if !l.copied {
				w.own++
			}
			if l.reached {
				w.reached++
			}
			weights[l.sum] = w
		}
	}
	return weights
}

// ours returns the events that are the file's own, or that one of its own follows:
// a copy may have gone on otherwise, and what does not link has no place here.
func ours(list []leaf, weights map[string]weight) []leaf {
	return slices.DeleteFunc(slices.Clone(list), func(l leaf) bool { return weights[l.sum].own == 0 })
}

// lastOwn returns the number of the last event that is the file's own.
func lastOwn(found map[int64][]leaf) (n int64) {
	for at, list := range found {
		if slices.ContainsFunc(list, func(l leaf) bool { return !l.copied }) {
			n = max(n, at)
		}
	}
	return n
}

// linked returns the events that hold the hash; fits is false when none does.
func linked(list []leaf, hash string) (out []leaf, fits bool) {
	for _, l := range list {
		if l.prev == hash {
			out = append(out, l)
		}
	}
	return out, len(out) > 0
}

// heaviest returns the event that goes on best; sure is false when there is
// none, or two go on equally well.
func heaviest(list []leaf, weights map[string]weight) (best leaf, sure bool) {
	for _, l := range list {
		switch w := weights[l.sum]; {
		case best.line == nil || w.over(weights[best.sum]):
			best, sure = l, true
		case w == weights[best.sum]:
			sure = false
		}
	}
	return best, sure
}
