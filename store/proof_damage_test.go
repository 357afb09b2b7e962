package store_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// usualDamage is how many damaged files the usual tests make.
const usualDamage = 70

var damaged = flag.Int("damaged", usualDamage, "how many damaged files TestDamagedFiles makes; with 1,000 other tests of damage try all there is")

// everyDamage says that all is tried, and not a part that takes a minute less.
func everyDamage() bool { return *damaged >= 1000 }

// wreck is one way to spoil a file, drawn by chance.
type wreck struct {
	name string
	make func(r *rand.Rand, good []byte) []byte
}

// wrecks are the ways; each kind of page has its own.
func wrecks(good []byte) []wreck {
	in := func(kind string, pages []int, bytes int) wreck {
		return wreck{kind, func(r *rand.Rand, good []byte) []byte {
			out := slices.Clone(good)
			page := pages[r.IntN(len(pages))] * pageSize
			for range bytes {
				// The head and the table of entries are hit as often as the rest.
				at := r.IntN(pageSize)
				if r.IntN(2) == 0 {
					at = r.IntN(400)
				}
				out[page+at] ^= byte(1 + r.IntN(255))
			}
			return out
		}}
	}
	leaves := pagesOf(good, leaf)
	return []wreck{
		in("meta", []int{0, 1}, 1), in("meta, 8 bytes", []int{0, 1}, 8),
		in("branch", pagesOf(good, branch), 1), in("branch, 8 bytes", pagesOf(good, branch), 8),
		in("leaf", leaves, 1), in("leaf, 8 bytes", leaves, 8),
		in("freelist", pagesOf(good, freelist), 1), in("freelist, 8 bytes", pagesOf(good, freelist), 8),
		{"cut", func(r *rand.Rand, good []byte) []byte { return slices.Clone(good[:r.IntN(len(good))]) }},
		{"a page zeroed", func(r *rand.Rand, good []byte) []byte {
			out, page := slices.Clone(good), r.IntN(len(good)/pageSize)*pageSize
			clear(out[page : page+pageSize])
			return out
		}},
		{"two pages swapped", func(r *rand.Rand, good []byte) []byte {
			out, a, b := slices.Clone(good), r.IntN(len(good)/pageSize)*pageSize, r.IntN(len(good)/pageSize)*pageSize
			copy(out[a:a+pageSize], good[b:b+pageSize])
			copy(out[b:b+pageSize], good[a:a+pageSize])
			return out
		}},
		{"a stretch of noise", func(r *rand.Rand, good []byte) []byte {
			out, at := slices.Clone(good), r.IntN(len(good)-1)
			for i := at; i < min(len(out), at+1+r.IntN(3*pageSize)); i++ {
				out[i] = byte(r.Uint32())
			}
			return out
		}},
		{"foreign", func(r *rand.Rand, _ []byte) []byte {
			out := make([]byte, r.IntN(9*pageSize))
			for i := range out {
				out[i] = byte(r.Uint32())
			}
			return out
		}},
		{"foreign with our beginning", func(r *rand.Rand, good []byte) []byte {
			out := slices.Clone(good)
			for i := (2 + r.IntN(4)) * pageSize; i < len(out); i++ {
				out[i] = byte(r.Uint32())
			}
			return out
		}},
	}
}

// tried counts what came of the damaged files.
type tried struct {
	sync.Mutex
	files, opened, refused, rescued, named, intact, recovered, restored, lost, aside int
	kinds                                                                            map[string]int
}

// TestDamagedFiles spoils a database in -damaged ways. Whatever is wrong, the
// process lives and ends, nothing is said that is not so, the check names what
// is wrong, and salvage finds every event of which no byte is changed.
func TestDamagedFiles(t *testing.T) {
	dir := fastDir(t)
	kept, order := demo(t, filepath.Join(dir, "good.db"))
	good := read(t, filepath.Join(dir, "good.db"))
	ways := wrecks(good)
	sum := &tried{kinds: map[string]int{}}
	t.Run("files", func(t *testing.T) {
		for i := range *damaged {
			w := ways[i%len(ways)]
			t.Run(fmt.Sprintf("%d %s", i, w.name), func(t *testing.T) {
				t.Parallel()
				data := w.make(rand.New(rand.NewPCG(uint64(i), 9)), good)
				path := write(t, filepath.Join(dir, fmt.Sprintf("%d.db", i)), data)
				inTime(t, func() { (&patient{t, path, data, kept, order, sum}).examine() })
				removed(t, path)
				sum.Lock()
				sum.kinds[w.name]++
				sum.Unlock()
			})
		}
	})
	t.Logf("%d damaged files: %d opened and read true, %d refused with a sentence, of these %d read all the same; %d named by the check",
		sum.files, sum.opened, sum.refused, sum.rescued, sum.named)
	t.Logf("of %d intact events %d recovered in place and %d beside; %d damaged ones set right, %d lost and named; 0 wrong", sum.intact, sum.recovered, sum.aside, sum.restored, sum.lost)
	storetest.Proof(t, "damaged files: bytes in every kind of page, cut, swapped, noise, foreign", sum.files, max(0, sum.intact-sum.recovered-sum.aside),
		fmt.Sprintf("%d open and read true, %d are refused with a sentence; salvage recovers all %d intact events", sum.opened, sum.refused, sum.intact))
	for _, name := range slices.Sorted(maps.Keys(sum.kinds)) {
		t.Logf("%5d %s", sum.kinds[name], name)
	}
}

// inTime fails when something does not come to an end.
func inTime(t *testing.T, do func()) {
	t.Helper()
	done := make(chan struct{})
	go func() { defer close(done); do() }()
	select {
	case <-done:
	case <-time.After(2 * time.Minute):
		t.Fatal("it does not end")
	}
}

// patient is one damaged file under examination.
type patient struct {
	t     *testing.T
	path  string
	data  []byte
	kept  truth
	order []string
	sum   *tried
}

func (p *patient) examine() {
	sound := p.check()
	out := p.path + ".out"
	s, err := store.Salvage(p.path, out, nil)
	if err == nil {
		p.salvaged(s)
		removed(p.t, out, s.Beside)
	} else {
		typed(p.t, "salvage", err)
		if n := len(p.intact()); n > 0 {
			p.t.Errorf("%d events are intact and salvage says %v", n, err)
		}
	}
	if !bytes.Equal(read(p.t, p.path), p.data) {
		p.t.Error("looking at the file changed it")
	}
	p.opened(sound)
}

// check verifies the file and reports whether it is said to be sound.
func (p *patient) check() bool {
	r, err := store.Verify(p.path)
	p.sum.Lock()
	defer p.sum.Unlock()
	p.sum.files++
	if err != nil {
		typed(p.t, "verify", err)
		p.sum.named++
		return false
	}
	if !r.Sound {
		p.sum.named++
	}
	return r.Sound
}

// opened opens the file, compares what it says with the truth, and reads it the
// other way when it does not open.
func (p *patient) opened(sound bool) {
	db, err := store.Open(p.path, quick(store.Options{}))
	p.sum.Lock()
	defer p.sum.Unlock()
	if err == nil {
		p.sum.opened++
		faithful(p.t, db, p.kept, 0)
		if sound {
			p.complete(db)
		}
		if err := db.Close(); err != nil {
			typed(p.t, "close", err)
		}
		return
	}
	typed(p.t, "open", err)
	p.sum.refused++
	if sound {
		p.t.Errorf("the check finds it sound and it does not open: %v", err)
	}
	if r, err := store.Rescue(p.path, err); err == nil {
		p.sum.rescued++
		if hs, err := r.Headings(0); err != nil || len(hs) == 0 && len(p.intact()) > 2 {
			p.t.Errorf("nothing is read: %v", err)
		}
	}
}

// complete fails unless a file that is said to be sound holds everything.
func (p *patient) complete(db *store.DB) {
	for uid, lines := range p.kept {
		if events, err := db.Load(uid); err != nil || len(events) != len(lines) {
			p.t.Errorf("the check finds it sound, and of %s there are %d events of %d: %v", uid, len(events), len(lines), err)
		}
	}
}

// place names an event.
type place struct {
	uid string
	n   int64
}

// intact returns the events of which no byte is changed, key and value. It goes
// through the file once: looking for one after another took thirty times as long.
func (p *patient) intact() map[place]bool {
	stored, of := map[string][]byte{}, map[string]place{}
	for uid, lines := range p.kept {
		id := uint64(slices.Index(p.order, uid) + 1) // the shop's is 0
		for i, line := range lines {
			n := int64(i) + 1
			key := store.EventKey(id, n)
			stored[string(key)], of[string(key)] = store.Frame(key, line), place{uid, n}
		}
	}
	out := map[place]bool{}
	size := len(store.EventKey(0, 0))
	for at := range max(0, len(p.data)-size) {
		key := p.data[at : at+size]
		if value := stored[string(key)]; value != nil && bytes.HasPrefix(p.data[at+size:], value) {
			out[of[string(key)]] = true
		}
	}
	return out
}

// salvaged compares the new database with the truth.
func (p *patient) salvaged(s store.Salvaged) {
	t := p.t
	if r := verified(t, s.Out); !r.Sound {
		t.Errorf("the new database is not sound: %v", r.Faults)
	}
	db, err := store.Open(s.Out, quick(store.Options{}))
	if err != nil {
		t.Errorf("the new database does not open: %v", err)
		return
	}
	intact := p.intact()
	for _, x := range s.Streams {
		uid := p.named(x.UID)
		events, err := db.Load(x.UID)
		if err != nil || uid == "" {
			t.Errorf("session %q: %v", x.UID, err)
			continue
		}
		mended(t, events, p.kept[uid], x)
		if uid != record.ShopUID {
			replays(t, events)
		}
		p.accounted(uid, x, intact)
	}
	if len(intact) > 0 {
		t.Errorf("%d intact events are in no session", len(intact))
	}
	if err := db.Close(); err != nil || len(db.Warnings()) > 0 {
		t.Errorf("the new database says %v, %q", err, db.Warnings())
	}
}

// named returns the session that a recovered one was; one of which nothing but
// its events is left is named by its number.
func (p *patient) named(uid string) string {
	if _, ok := p.kept[uid]; ok {
		return uid
	}
	var id int
	if _, err := fmt.Sscanf(uid, "stream-%d", &id); err == nil && id >= 1 && id <= len(p.order) {
		return p.order[id-1]
	}
	return ""
}

// accounted takes what salvage says of a session off the intact events: lost is
// what is not intact and nothing else.
func (p *patient) accounted(uid string, x store.Saved, intact map[place]bool) {
	for _, n := range x.Lost {
		if intact[place{uid, n}] {
			p.t.Errorf("event %d of %s is intact and called lost", n, uid)
		}
	}
	here := int64(0)
	for at := range maps.Clone(intact) {
		if at.uid == uid {
			here++
			delete(intact, at)
		}
	}
	restored := int64(len(x.Restored))
	if here+restored != x.Events+int64(len(x.Aside)) {
		p.t.Errorf("of %d intact events of %s, and %d set right, %d are recovered and %d set aside", here, uid, restored, x.Events, len(x.Aside))
	}
	p.sum.Lock()
	defer p.sum.Unlock()
	p.sum.intact += int(here)
	p.sum.recovered += int(x.Events - restored)
	p.sum.restored += int(restored)
	p.sum.aside += len(x.Aside)
	p.sum.lost += len(x.Lost)
}

// TestRefusalsAreSentences: what does not open says what is wrong in one line.
func TestRefusalsAreSentences(t *testing.T) {
	path := temp(t)
	demo(t, path)
	good := read(t, path)
	for _, page := range []int{0, 1} {
		bad := flipped(good, page*pageSize+20, 1)
		if page == 1 {
			bad = flipped(bad, 20, 1)
		}
		_, err := store.Open(write(t, path, bad), quick(store.Options{}))
		if page == 1 && (!errors.Is(err, store.ErrNotOurs) || strings.Contains(err.Error(), "\n")) {
			t.Errorf("both beginnings: %v", err)
		}
	}
}
