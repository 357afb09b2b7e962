package store

import (
	"sync"

	"borewright/engine/record"
)

// shopID is the id of the shop's stream.
const shopID = 0

// index is what the buckets uids and recent hold, in memory.
type index struct {
	mu sync.Mutex
	// ids gives a session's id, names the reverse.
	ids   map[string]uint64
	names map[uint64]string
	// touches gives when a session was touched, in numbers that only grow.
	touches map[uint64]uint64
	// last is the newest touch and newest whose it is.
	last, newest uint64
	// lastID is the highest id in use.
	lastID uint64
}

func newIndex() *index {
	x := &index{ids: map[string]uint64{}, names: map[uint64]string{}, touches: map[uint64]uint64{}}
	x.add(record.ShopUID, shopID)
	return x
}

// id returns the session's id; ok is false when it has none.
func (x *index) id(uid string) (id uint64, ok bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	id, ok = x.ids[uid]
	return id, ok
}

// name returns the session's uid, empty when it has none.
func (x *index) name(id uint64) string {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.names[id]
}

// add notes a session. Call it with mu, or before anybody else has the index.
func (x *index) add(uid string, id uint64) {
	x.ids[uid], x.names[id] = id, uid
	x.lastID = max(x.lastID, id)
}

// touch notes that a session was touched. Call it as add.
func (x *index) touch(id, at uint64) {
	x.touches[id] = at
	if at >= x.last {
		x.last, x.newest = at, id
	}
}

// whole reports whether every session has its touch and every touch its
// session.
func (x *index) whole() bool {
	for id := range x.touches {
		if _, ok := x.names[id]; !ok {
			return false
		}
	}
	return len(x.touches) == len(x.names)-1 // the shop is never touched
}

// become makes the index what another one is.
func (x *index) become(y *index) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.ids, x.names, x.touches = y.ids, y.names, y.touches
	x.last, x.newest, x.lastID = y.last, y.newest, y.lastID
}

// draft is what a transaction is going to change in the index.
type draft struct {
	*index
	newIDs               map[string]uint64
	newTouches           map[uint64]uint64
	last, newest, lastID uint64
}

// draft begins a change.
func (x *index) draft() *draft {
	x.mu.Lock()
	defer x.mu.Unlock()
	return &draft{
		index: x, newIDs: map[string]uint64{}, newTouches: map[uint64]uint64{},
		last: x.last, newest: x.newest, lastID: x.lastID,
	}
}

// idOf returns the session's id, a new one when it has none.
func (d *draft) idOf(uid string) uint64 {
	if id, ok := d.id(uid); ok {
		return id
	}
	if id, ok := d.newIDs[uid]; ok {
		return id
	}
	d.lastID++
	d.newIDs[uid] = d.lastID
	return d.lastID
}

// touch makes the session the newest, unless it is.
func (d *draft) touch(id uint64) {
	if id == shopID || id == d.newest {
		return
	}
	d.last++
	d.newest = id
	d.newTouches[id] = d.last
}

// apply makes the change.
func (d *draft) apply() {
	d.mu.Lock()
	defer d.mu.Unlock()
	for uid, id := range d.newIDs {
		d.add(uid, id)
	}
	for id, at := range d.newTouches {
		d.index.touch(id, at)
	}
}
