package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// noteRows returns the rows of the n-th event of a stream, and what deletes one.
func noteRows(tb testing.TB, n int64) []row {
	tb.Helper()
	var before record.Head
	if n > 1 {
		before = record.Head{N: n - 1, Hash: record.SumOf([]byte("the one before"))}
	}
	s, err := record.Seal(record.Event{At: time.Unix(1e9, 0), Body: record.Note{Text: fmt.Sprintf("note %d", n)}}, before)
	if err != nil {
		tb.Fatal(err)
	}
	k := eventKey(0, n)
	return []row{
		{bucket: eventsBucket, key: k, value: frame(k, s.Bytes), prev: s.Prev},
		{bucket: headingsBucket, key: number(0), value: frame(number(0), []byte("{}"))},
		{bucket: recentBucket, key: number(uint64(n))},
	}
}

// filledRoom returns a room with so many frames of a round over what was there, and
// the tail that they make.
func filledRoom(tb testing.TB, was []byte, round uint64, frames int) ([]byte, *tail) {
	tb.Helper()
	data := make([]byte, roomSize)
	copy(data, was)
	tl := &tail{size: roomSize, round: round, rooms: [2]int64{1, 1 + roomSize}}
	for n := range frames {
		rows := noteRows(tb, int64(n)+1)
		next := tl.frame(rows)
		if !tl.takes(next) {
			tb.Fatalf("no room for frame %d", n)
		}
		copy(data[len(tl.held[room(round)]):], next)
		tl = tl.with(next, rows)
	}
	return data, tl
}

func sameRow(a, b row) bool {
	return bytes.Equal(a.bucket, b.bucket) && bytes.Equal(a.key, b.key) && bytes.Equal(a.value, b.value) &&
		(a.value == nil) == (b.value == nil) && a.prev == b.prev
}

// TestRoomReadsBack: what frames hold comes back as it was written, over what a
// round before left there.
func TestRoomReadsBack(t *testing.T) {
	old, _ := filledRoom(t, nil, 5, 60)
	for frames := range 61 {
		data, tl := filledRoom(t, old, 7, frames)
		c, err := readRoom(data, 7)
		if err != nil || c.torn || int(c.n) != frames || !bytes.Equal(c.held, tl.held[room(7)]) || !slices.EqualFunc(c.rows, tl.rows, sameRow) {
			t.Fatalf("%d frames: %d read, torn %v, %v", frames, c.n, c.torn, err)
		}
		for _, round := range []uint64{0, 3, 6, 9} {
			if c, _ := readRoom(data, round); c.n > 0 {
				t.Errorf("%d frames of round %d in round %d's room", c.n, round, 7)
			}
		}
	}
}

// TestFlippedFrame flips every byte of a room: no row is another, none is missing
// without a word, and what is no frame of the round is no matter.
func TestFlippedFrame(t *testing.T) {
	old, _ := filledRoom(t, nil, 5, 20)
	data, tl := filledRoom(t, old, 7, 6)
	held := len(tl.held[room(7)])
	last := held - len(tl.frame(noteRows(t, 6)))
	for at := 0; at < len(data); at++ {
		if at > held+500 {
			at = min(at+40, len(data)-1) // stale frames, one like the other
		}
		data[at] ^= 1 << (at % 8)
		c, err := readRoom(data, 7)
		for i, r := range c.rows {
			if !sameRow(r, tl.rows[i]) {
				t.Fatalf("byte %d: row %d is another", at, i)
			}
		}
		whole := len(c.rows) == len(tl.rows)
		switch {
		case at >= held && (err != nil || !whole):
			t.Errorf("byte %d behind the last frame: %d rows, %v", at, len(c.rows), err)
		case at < last && !whole && !errors.Is(err, errTail):
			t.Errorf("byte %d before the last frame: %d rows, %v", at, len(c.rows), err)
		case at >= last && at < held && !whole && !c.torn:
			t.Errorf("byte %d of the last frame: %d rows without a word", at, len(c.rows))
		}
		data[at] ^= 1 << (at % 8)
	}
}

// TestCutFrame cuts the writing of a frame short at every byte: the frames before it
// are there.
func TestCutFrame(t *testing.T) {
	old, _ := filledRoom(t, nil, 5, 20)
	before, tl := filledRoom(t, old, 7, 3)
	next := tl.frame(noteRows(t, 4))
	for cut := range len(next) {
		data := bytes.Clone(before)
		copy(data[len(tl.held[room(7)]):], next[:cut])
		if c, err := readRoom(data, 7); err != nil || c.n != 3 || cut >= frameHead != c.torn {
			t.Errorf("cut at %d: %d frames, torn %v, %v", cut, c.n, c.torn, err)
		}
	}
}

// TestOlderTailStays: what is added to a tail changes none that somebody holds.
func TestOlderTailStays(t *testing.T) {
	_, tl := filledRoom(t, nil, 7, 0)
	var held []*tail
	var rows, bytesOf []string
	note := func() {
		held = append(held, tl)
		rows, bytesOf = append(rows, fmt.Sprint(tl.rows)), append(bytesOf, string(tl.held[room(7)]))
	}
	for n := range 40 {
		note()
		lost := noteRows(t, int64(n)+100) // one that failed after it was added
		_ = tl.with(tl.frame(lost), lost)
		next := noteRows(t, int64(n)+1)
		tl = tl.with(tl.frame(next), next)
	}
	for i, h := range held {
		if fmt.Sprint(h.rows) != rows[i] || string(h.held[room(7)]) != bytesOf[i] || int(h.n) != i {
			t.Errorf("tail %d has changed", i)
		}
	}
}

// TestLaterRound: the other room counts where it goes on, whatever the beginning of
// the file says, and not when it does not.
func TestLaterRound(t *testing.T) {
	a, ta := filledRoom(t, nil, 6, 3)
	for _, try := range []struct {
		round uint64
		later bool
	}{{7, true}, {5, false}, {9, false}} {
		b, tb := filledRoom(t, nil, try.round, 4)
		for _, doubtful := range []bool{false, true} {
			got, torn, err := readTail([2][]byte{a, b}, 6, doubtful)
			want := slices.Clone(ta.rows)
			if try.later {
				want = append(want, tb.rows...)
			}
			if err != nil || torn || got.later != try.later || !got.full || !slices.EqualFunc(got.rows, want, sameRow) {
				t.Errorf("round %d behind 6: %d rows, later %v, full %v, %v", try.round, len(got.rows), got.later, got.full, err)
			}
		}
	}
	b, _ := filledRoom(t, nil, 7, 4)
	a[len(ta.held[0])-1] ^= 1
	if _, _, err := readTail([2][]byte{a, b}, 6, true); !errors.Is(err, errTail) {
		t.Errorf("a frame is damaged and the round after it is there: %v", err)
	}
}

// TestForgedRooms reads rooms that somebody made to take long or to lead astray.
func TestForgedRooms(t *testing.T) {
	be := binary.BigEndian
	for name, forge := range map[string]func(data []byte){
		"all ones": func(data []byte) {
			for i := range data {
				data[i] = 0xFF
			}
		},
		"heads everywhere": func(data []byte) {
			for at := 0; at+4 <= len(data); at += 4 {
				be.PutUint32(data[at:], 0x700)
			}
		},
		"long frames everywhere": func(data []byte) {
			for at := 0; at+8 <= len(data); at += 8 {
				be.PutUint32(data[at:], uint32(roomSize-at))
				be.PutUint32(data[at+4:], 1)
			}
		},
		"frames of nothing": func(data []byte) {
			for at, n := 0, uint32(0); at+frameHead+4 <= len(data); at, n = at+frameHead+4, n+1 {
				be.PutUint32(data[at:], frameHead+4)
				be.PutUint32(data[at+4:], n)
				be.PutUint64(data[at+8:], 7)
				be.PutUint32(data[at+16:], checksum(nil, data[at:at+frameHead]))
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			data := make([]byte, roomSize)
			forge(data)
			done := make(chan struct{})
			go func() {
				defer close(done)
				_, _ = readRoom(data, 7)
				_, _, _ = readTail([2][]byte{data, data}, 7, true)
			}()
			select {
			case <-done:
			case <-time.After(20 * time.Second):
				t.Fatal("it does not end")
			}
		})
	}
}

// FuzzRoom: whatever lies in a room is read without a panic, and what is read of it
// makes the same frames again.
func FuzzRoom(f *testing.F) {
	old, _ := filledRoom(f, nil, 5, 9)
	data, tl := filledRoom(f, old, 7, 4)
	f.Add(data, uint64(7), uint16(0), uint16(0))
	f.Add(data[:len(tl.held[room(7)])+3], uint64(5), uint16(9), uint16(0x700))
	f.Fuzz(func(t *testing.T, data []byte, round uint64, at, by uint16) {
		data = bytes.Clone(data[:min(len(data), roomSize)])
		if len(data) > 0 {
			data[int(at)%len(data)] ^= byte(by)
		}
		c, _ := readRoom(data, round)
		if !bytes.HasPrefix(data, c.held) {
			t.Error("it holds what is not there")
		}
		again := &tail{size: roomSize, round: round}
		for size := 0; again.n < c.n; again.n++ {
			rows, n, ok := frameAt(c.held[size:], round, again.n)
			if !ok {
				t.Fatal("a frame is not read again")
			}
			made := again.frame(rows)
			if back, _, ok := frameAt(made, round, again.n); !ok || !slices.EqualFunc(back, rows, sameRow) {
				t.Errorf("%d rows are not written as they were read", len(rows))
			}
			size += n
		}
	})
}

// TestRoomsOnPagesOfAnySize: both rooms lie in one leaf that bbolt never writes again,
// whatever the size of a page.
func TestRoomsOnPagesOfAnySize(t *testing.T) {
	for _, size := range []int{1 << 12, 1 << 13, 1 << 14, 1 << 16} {
		path := filepath.Join(t.TempDir(), "x.db")
		if err := MakeWithPages(path, size); err != nil {
			t.Fatal(err)
		}
		at := roomsOf(t, path)
		d, err := Open(path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range 120 {
			if _, err := d.Keep(record.ShopUID, record.Event{At: time.Unix(1e9, 0), Body: record.Note{Text: fmt.Sprint(i)}}); err != nil {
				t.Fatal(err)
			}
			if err := d.Wait(t.Context()); err != nil {
				t.Fatal(err)
			}
		}
		if d.file.tailNow().rooms != at || roomsOf(t, path) != at {
			t.Errorf("with pages of %d bytes the rooms move", size)
		}
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
		if r, err := Verify(path); err != nil || !r.Sound || r.Events != 120 {
			t.Errorf("with pages of %d bytes: %v, %v", size, r, err)
		}
	}
}

// roomsOf returns where in a file the rooms begin.
func roomsOf(t *testing.T, path string) [2]int64 {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	u, ok := unwalkedOf(t, data)
	_, at, err := u.rooms()
	if !ok || err != nil {
		t.Fatalf("no rooms: %v", err)
	}
	return at
}

// TestOlderThanTheRooms: a transaction that began before the file had rooms does not
// see what is in them.
func TestOlderThanTheRooms(t *testing.T) {
	db, err := Open(copied(t, filepath.Join(keptFolder, "v1.db")), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	_ = db.file.bolt.View(func(tx *bolt.Tx) error {
		if _, err := db.file.tailOver(tx); err != nil {
			t.Errorf("before there are rooms: %v", err)
		}
		db.file.tail.Store(&tail{round: 3, rooms: [2]int64{1, 2}, rows: noteRows(t, 1)})
		if _, err := db.file.tailOver(tx); !errors.Is(err, errOlder) {
			t.Errorf("once there are: %v", err)
		}
		db.file.tail.Store(&tail{})
		return nil
	})
}

// TestOverlay: rows read over the buckets are what they are in the buckets.
func TestOverlay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.db")
	db, err := bolt.Open(path, 0o600, &bolt.Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	r := rand.New(rand.NewPCG(7, 8))
	over, under := []byte("over"), []byte("under")
	errDone := errors.New("done")
	for range 150 {
		err := db.Update(func(tx *bolt.Tx) error {
			rows := scattered(t, tx, r, over, under)
			if err := compareOverlay(t, tx, r, rows, over, under); err != nil {
				return err
			}
			return errDone
		})
		if !errors.Is(err, errDone) {
			t.Fatal(err)
		}
	}
}

// scattered fills two buckets alike, and one with the rows that it returns besides.
func scattered(t *testing.T, tx *bolt.Tx, r *rand.Rand, over, under []byte) overlay {
	t.Helper()
	var rows overlay
	full, err := tx.CreateBucket(over)
	if err != nil {
		t.Fatal(err)
	}
	bare, err := tx.CreateBucket(under)
	if err != nil {
		t.Fatal(err)
	}
	put := func(b *bolt.Bucket, k, v []byte) {
		if v == nil {
			err = b.Delete(k)
		} else {
			err = b.Put(k, v)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for range r.IntN(30) {
		k, v := scatteredKey(r), []byte{byte(r.Uint32())}
		put(full, k, v)
		put(bare, k, v)
	}
	for range r.IntN(20) {
		k, v := scatteredKey(r), []byte{byte(r.Uint32()), 1}
		if r.IntN(3) == 0 {
			v = nil
		}
		put(full, k, v)
		rows = append(rows, row{bucket: under, key: k, value: v}, row{bucket: []byte("elsewhere"), key: k, value: []byte("no")})
	}
	return rows
}

func scatteredKey(r *rand.Rand) []byte { return fmt.Appendf(nil, "%0*d", 1+r.IntN(2), r.IntN(30)) }

// compareOverlay reads both buckets from everywhere, both ways, as a whole and in
// part.
func compareOverlay(t *testing.T, tx *bolt.Tx, r *rand.Rand, rows overlay, over, under []byte) error {
	t.Helper()
	folded, woven := &readTx{tx: tx}, &readTx{tx: tx, tail: &tail{rows: rows}}
	keys := [][]byte{nil, {}, {0}, {0xFF}}
	for range 30 {
		keys = append(keys, scatteredKey(r))
	}
	for _, key := range keys {
		same(t, "from", key, woven.from(under, key), folded.from(over, key))
		same(t, "before", key, woven.before(under, key), folded.before(over, key))
		n := r.IntN(6)
		same(t, "the first from", key, firstOf(woven.from(under, key), n), firstOf(folded.from(over, key), n))
		same(t, "the first before", key, firstOf(woven.before(under, key), n), firstOf(folded.before(over, key), n))
		if len(key) > 0 && !bytes.Equal(woven.get(under, key), folded.get(over, key)) {
			t.Errorf("%q is %q, not %q", key, woven.get(under, key), folded.get(over, key))
		}
	}
	if !bytes.Equal(woven.last(under), folded.last(over)) {
		t.Errorf("the last key is %q, not %q", woven.last(under), folded.last(over))
	}
	if t.Failed() {
		return fmt.Errorf("with %d rows", len(rows))
	}
	return nil
}

// firstOf returns the first n of the pairs.
func firstOf(p pairs, n int) pairs {
	return func(yield func(k, v []byte) bool) {
		i := 0
		for k, v := range p {
			if i++; i > n || !yield(k, v) {
				return
			}
		}
	}
}
