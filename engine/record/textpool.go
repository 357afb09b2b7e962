package record

import "strings"

const (
	// mostTexts is how many texts are looked up: levels, directions, sets and
	// initials of a session are some dozens, and what is keyed comes again.
	mostTexts = 256
	// textRoom is how many bytes of texts share one piece of memory at most.
	textRoom = 4096
)

// textPool holds the texts of the events of one stream: what comes again once, and
// all of them some hundred to a piece of memory. A session of 100,000 events took
// six objects an event without it and one with it. Where it is nil every text
// stands alone.
type textPool struct {
	seen map[string]string
	room strings.Builder
}

func newTextPool() *textPool { return &textPool{seen: map[string]string{}} }

// of returns a text that may come again.
func (t *textPool) of(b []byte) string {
	switch {
	case len(b) == 0:
		return ""
	case t == nil:
		return string(b)
	}
	if s, ok := t.seen[string(b)]; ok {
		return s
	}
	s := t.once(b)
	if len(t.seen) < mostTexts {
		t.seen[s] = s
	}
	return s
}

// once returns a text that does not come again.
func (t *textPool) once(b []byte) string {
	if t == nil {
		return string(b)
	}
	if t.room.Cap()-t.room.Len() < len(b) {
		next := min(max(2*t.room.Cap(), 8*len(b)), textRoom) // few texts take little room
		t.room = strings.Builder{}
		t.room.Grow(max(next, len(b)))
	}
	at := t.room.Len()
	t.room.Write(b)
	return t.room.String()[at:]
}
