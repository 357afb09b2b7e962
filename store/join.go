package store

import (
	"slices"

	"borewright/engine/record"
)

// The same session may have another id in another file: salvage gives its streams
// new ones, and a copy may be of another database altogether.

// join takes in what was found in another file. A stream there is one of ours when
// it has its uid or, where the uid of one of the two is not known, when their chains
// meet; else it is one more. The shop is ours when the chains meet: every database
// has one.
func (q *quarry) join(o *quarry) {
	ours := map[string]uint64{}
	for _, id := range q.ids() {
		if uid := q.known(id); uid != "" {
			ours[uid] = id
		}
	}
	fresh := uint64(shopID)
	for _, id := range o.ids() {
		to, found := q.counterpart(o, id, ours)
		for !found && id != shopID {
			fresh++
			to, found = fresh, !q.holds(fresh)
		}
		if found {
			q.merge(to, o, id)
		}
	}
	q.strange += o.strange
}

// holds reports whether anything of a stream was found.
func (q *quarry) holds(id uint64) bool { return len(q.events[id]) > 0 || q.headings[id].Head.N > 0 }

// ids returns the streams of which an event or the heading was found, in order.
func (q *quarry) ids() []uint64 {
	all := map[uint64]bool{}
	for id := range q.events {
		all[id] = true
	}
	for id := range q.headings {
		all[id] = true
	}
	return sortedKeys(all)
}

// known returns the uid of a stream, "" when nothing tells it.
func (q *quarry) known(id uint64) string {
	if id == shopID {
		return record.ShopUID
	}
	for _, l := range q.events[id][1] {
		e, err := record.Decode(l.line)
		if d, ok := e.Body.(record.Details); ok && err == nil {
			return d.UID
		}
	}
	return q.headings[id].UID
}

// counterpart returns which of our streams one of the other file is.
func (q *quarry) counterpart(o *quarry, id uint64, ours map[string]uint64) (to uint64, found bool) {
	if id == shopID {
		return shopID, !q.holds(shopID) || q.meets(shopID, o, shopID)
	}
	uid := o.known(id)
	if to, found = ours[uid]; found {
		return to, true
	}
	for _, to := range q.ids() {
		if (uid == "" || q.known(to) == "") && q.meets(to, o, id) {
			return to, true
		}
	}
	return 0, false
}

// meets reports whether the chain of a stream and that of one in the other file
// have an event in common, or one goes on with the other: a hash stands for all
// that was before.
func (q *quarry) meets(to uint64, o *quarry, id uint64) bool {
	ours, theirs := q.events[to], o.events[id]
	for n, list := range theirs {
		for _, l := range list {
			_, before := linked(ours[n+1], l.sum)
			if before || has(ours[n], l) || n > 1 && hasSum(ours[n-1], l.prev) {
				return true
			}
		}
	}
	return false
}

// has reports whether an event is in the list.
func has(list []leaf, l leaf) bool { return hasSum(list, l.sum) }

func hasSum(list []leaf, sum string) bool {
	return slices.ContainsFunc(list, func(l leaf) bool { return l.sum == sum })
}

// merge takes in a stream of the other file as ours with the id.
func (q *quarry) merge(to uint64, o *quarry, id uint64) {
	copied := len(q.events[to]) > 0
	for _, list := range o.events[id] {
		for _, l := range list {
			l.id, l.copied = to, copied
			q.add(l)
		}
	}
	if h := o.headings[id]; h.Head.N > q.headings[to].Head.N {
		q.headings[to] = h
	}
	for _, r := range o.ruins {
		if r.id == id {
			r.id = to
			q.ruins = append(q.ruins, r)
		}
	}
	for at, r := range o.remains {
		if _, ours := q.remains[eventID{to, at.n}]; at.id == id && !ours {
			q.remains[eventID{to, at.n}] = r
		}
	}
}
