package store

import (
	"bytes"
	"errors"
	"testing"

	"pgregory.net/rapid"
)

func TestFrameComesBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		bytesOf := rapid.SliceOfN(rapid.Byte(), 0, 300)
		key, payload := bytesOf.Draw(r, "key"), bytesOf.Draw(r, "payload")
		v := frame(key, payload)
		got, err := unframe(key, v)
		if err != nil || !bytes.Equal(got, payload) || len(v) != len(payload)+frameExtra {
			r.Fatalf("got %x %v", got, err)
		}
		at, bit := rapid.IntRange(0, len(v)-1).Draw(r, "at"), rapid.IntRange(0, 7).Draw(r, "bit")
		v[at] ^= 1 << bit
		if _, err := unframe(key, v); err == nil {
			r.Fatalf("bit %d of byte %d is not missed", bit, at)
		}
		v[at] ^= 1 << bit
		if _, err := unframe(append(key, 0), v); err == nil {
			r.Fatal("the value passes under another key")
		}
	})
}

func TestUnframeRefuses(t *testing.T) {
	newer := append([]byte{frameVersion + 1}, 'x')
	newer = append(newer, frame(nil, nil)[1:]...)
	for name, try := range map[string]struct {
		value []byte
		want  error
	}{
		"nothing":  {nil, errShort},
		"short":    {make([]byte, frameExtra-1), errShort},
		"too long": {make([]byte, maxFrame+1), errShort},
		"zeros":    {make([]byte, 40), errChecksum},
		"another":  {newer, errChecksum},
	} {
		if _, err := unframe([]byte("k"), try.value); !errors.Is(err, try.want) {
			t.Errorf("%s: %v, want %v", name, err, try.want)
		}
	}
	if _, err := unframeNumber(nil, frame(nil, []byte("1234567"))); !errors.Is(err, errShort) {
		t.Errorf("a number of 7 bytes: %v", err)
	}
}

// TestUnframeVersion: a form that is not known is told from damage.
func TestUnframeVersion(t *testing.T) {
	key := []byte("k")
	body := []byte{frameVersion + 1, 'x'}
	sum := checksum(key, body)
	v := append(body, byte(sum>>24), byte(sum>>16), byte(sum>>8), byte(sum))
	if _, err := unframe(key, v); !errors.Is(err, errVersion) {
		t.Errorf("got %v", err)
	}
}

// TestEventKeysSort: keys sort by stream, then by number.
func TestEventKeysSort(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		ids, ns := rapid.Uint64(), rapid.Int64Range(1, maxN)
		a, b := ids.Draw(r, "a"), ids.Draw(r, "b")
		n, m := ns.Draw(r, "n"), ns.Draw(r, "m")
		want := a < b || a == b && n < m
		if got := bytes.Compare(eventKey(a, n), eventKey(b, m)) < 0; got != want {
			r.Fatalf("%d/%d before %d/%d: %v", a, n, b, m, got)
		}
		if id, num, ok := parseEventKey(eventKey(a, n)); id != a || num != n || !ok {
			r.Fatalf("came back as %d/%d", id, num)
		}
	})
	if _, _, ok := parseEventKey([]byte("short")); ok {
		t.Error("five bytes are no key")
	}
}
