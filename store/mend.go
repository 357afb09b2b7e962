package store

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"borewright/engine"
	"borewright/engine/record"
)

// Saved is what salvage made of one session, or of the shop.
type Saved struct {
	UID   string `json:"uid"`
	Title string `json:"title,omitempty"`
	// Events is how many intact events were recovered, Lost the numbers of those
	// that were not.
	Events int64   `json:"events"`
	Lost   []int64 `json:"lost,omitempty"`
	// Restored are those of the recovered events in which one changed byte was set
	// right, as the hash of the event proves.
	Restored []int64 `json:"restored,omitempty"`
	// Aside are the intact events that cannot stand because they rest on a lost
	// one: they are in the file beside the new database.
	Aside []int64 `json:"aside,omitempty"`
	// Newer are the intact events of a newer vocabulary, which this program cannot
	// read: they are in the file beside the new database too.
	Newer []Told `json:"newer,omitempty"`
	// Gaps are the rows of lost events, Strays the events that were set aside.
	Gaps   []Gap  `json:"gaps,omitempty"`
	Strays []Told `json:"strays,omitempty"`
	// ByPosition says that no layout is known by which Gaps and Strays could name
	// places as the shop does: they name them by their position.
	ByPosition bool `json:"by_position,omitempty"`
	// Broken are the events that do not hold the hash of the intact event before.
	Broken []int64 `json:"broken,omitempty"`
	// EndUnknown says that nothing tells whether more events followed the last one.
	EndUnknown bool `json:"end_unknown,omitempty"`
	// Whole is where the chain ends that is as it was: up to it all is verbatim.
	Whole record.Head `json:"whole"`
	// Now is the digest of the session in the new database.
	Now record.Head `json:"now"`

	lines [][]byte
	aside [][]byte
	touch uint64
	last  time.Time
}

// Complete reports whether the session is as it was, event for event.
func (s *Saved) Complete() bool {
	return len(s.Lost)+len(s.Aside)+len(s.Newer)+len(s.Broken) == 0 && !s.EndUnknown
}

// What a mended session says in the place of what is missing.
const (
	lostText  = "This event was lost: the database file was damaged and no intact copy of it was found"
	asideText = "An intact event was here that cannot stand, because it rests on one that was lost: "
	newerText = "An intact event was here that a newer borewright wrote and this one cannot read: "
)

// mender makes a stream again out of what was chosen.
type mender struct {
	Saved
	heading record.Heading
	head    record.Head
	// session is the replayed state once something is missing; nil before, and
	// where the intact events before do not replay either.
	session *engine.Session
	sealed  []record.Sealed
	mended  bool
	at      time.Time
	details record.Details
	// earlier is what an earlier salvage missed.
	earlier misses
	// id is that of the stream in the file, and remains is what can be read of
	// its damaged events; bench is what the intact ones call its places.
	id       uint64
	doubtful []int64
	remains  map[eventID]remains
	bench    bench
	// open says that the last gap has no end yet, and before is the intact event
	// before it.
	open   bool
	before record.Event
}

// mend returns the stream: verbatim up to what is missing, and from there on
// sealed anew, every event with its number, its time and its hand, and a note
// in the place of each that is lost. The heading is that of the list of
// sessions; sure says that it is the last one that was kept. Of what is lost, what
// remains tells.
func mend(uid string, h record.Heading, sure bool, c choice, left map[eventID]remains) (Saved, error) {
	m := &mender{Saved: Saved{UID: uid, Broken: c.breaks, EndUnknown: !sure}, heading: h, id: c.id, doubtful: c.doubtful, remains: left}
	broken := map[int64]bool{}
	for _, n := range c.breaks {
		broken[n] = true
	}
	for i, l := range c.events {
		n := int64(i) + 1
		if broken[n] {
			m.begin()
		}
		var err error
		switch {
		case l.line == nil:
			err = m.lose(n, c.events[i+1:])
		case l.newer:
			err = m.setNewer(l)
		default:
			err = m.take(l)
		}
		if err != nil {
			return Saved{}, fmt.Errorf("session %s, event %d: %w", uid, n, err)
		}
	}
	err := m.end()
	return m.Saved, err
}

// begin notes that the chain cannot go on as it was.
func (m *mender) begin() {
	if m.mended {
		return
	}
	m.mended, m.Whole = true, m.head
	if m.UID != record.ShopUID && m.head.N > 0 {
		m.session, _ = engine.Replay(m.sealed)
	}
}

// take adds an intact event.
func (m *mender) take(l leaf) error {
	e, err := record.Decode(l.line)
	if err != nil {
		return err
	}
	m.at = e.At
	m.meet(e)
	m.earlier = m.earlier.plus(missesIn(e))
	d, details := e.Body.(record.Details)
	if details && d.UID != m.UID {
		m.begin()
		d.UID = m.UID
		e.Body = d
	}
	if details {
		m.details = d
	}
	if !m.mended {
		m.Events++
		m.push(record.Sealed{Event: e, Bytes: l.line, Head: record.Head{N: l.n, Hash: l.sum}})
		return nil
	}
	if err := m.seal(e); err != nil {
		return m.setAside(e, l.line, err)
	}
	m.Events++
	return nil
}

// quoteLine puts a stored event behind words, as much as a text holds.
func quoteLine(words string, line []byte) string {
	const most = 4 << 10
	text := words + strings.Map(plainly, strings.ToValidUTF8(string(line), "\uFFFD"))
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most-3], "") + "..."
	}
	return text
}

// plainly puts a sign in the place of a character that no note may hold.
func plainly(r rune) rune {
	if unicode.IsControl(r) && r != '\t' {
		return utf8.RuneError
	}
	return r
}

// lose puts a note in the place of a lost event, or details of what is known
// when it was the first of a session.
func (m *mender) lose(n int64, rest []leaf) error {
	m.begin()
	m.Lost = append(m.Lost, n)
	m.miss(n)
	if m.at.IsZero() {
		m.at = m.firstTime(rest)
	}
	text := lostText + m.remains[eventID{m.id, n}].said(m.bench) + "."
	return m.stand(record.Event{N: n, At: m.at}, text, misses{lost: 1})
}

// stand puts a note in the place of an event, at its time and by its hand, or
// details of what is known, marked, when it was the first of a session.
func (m *mender) stand(e record.Event, text string, missed misses) error {
	e.Body = record.Note{Text: text}
	if e.N == 1 && m.UID != record.ShopUID {
		m.details = detailsOf(m.heading)
		m.details.UID = m.UID
		m.session = &engine.Session{}
		d := m.details
		d.Title = marked(d.Title, missed, "")
		e.Body = d
	}
	return m.seal(e)
}

// firstTime returns when the stream began, as far as anything tells.
func (m *mender) firstTime(rest []leaf) time.Time {
	if !m.heading.Started.IsZero() {
		return m.heading.Started
	}
	for _, l := range rest {
		if e, err := record.Decode(l.line); l.line != nil && err == nil {
			return e.At
		}
	}
	return time.Unix(0, 0).UTC()
}

// seal adds an event behind what is there. It fails, and nothing has changed,
// when the event cannot stand there.
func (m *mender) seal(e record.Event) error {
	s, err := record.Seal(record.Event{At: e.At, By: e.By, Body: e.Body}, m.head)
	if err != nil {
		return err
	}
	if m.session != nil {
		if _, err := m.session.Apply(s); err != nil {
			return err
		}
	}
	m.push(s)
	return nil
}

func (m *mender) push(s record.Sealed) {
	m.head = s.Head
	m.lines = append(m.lines, s.Bytes)
	if !m.mended {
		m.sealed = append(m.sealed, s)
	}
}

// end marks a session that is not complete in its title, so that nobody takes
// it for what it was.
func (m *mender) end() error {
	if !m.mended {
		m.Whole = m.head
	}
	m.Title, m.last = m.details.Title, m.at
	m.ByPosition = len(m.Gaps)+len(m.Strays) > 0 && m.session != nil && m.session.Layout().Cylinders == 0
	if !m.Complete() && m.UID != record.ShopUID {
		m.begin()
		d := m.details
		d.Title = m.mark(d.Title)
		if err := m.seal(record.Event{At: m.at, Body: d}); err != nil {
			return err
		}
	}
	m.Now = m.head
	return nil
}

// mark returns a title with a mark of all that is missing of the session, now and
// since an earlier salvage.
func (m *mender) mark(title string) string {
	all := m.earlier.plus(misses{len(m.Lost), len(m.Aside), len(m.Newer)})
	_, said := unmarked(title)
	all.lost = max(all.lost, said.lost)
	if len(m.Broken) > 0 {
		return marked(title, all, "altered")
	}
	return marked(title, all, "end unknown")
}

// byTouch orders sessions by when they were touched, the newest last.
func byTouch(a, b Saved) int {
	return cmp.Or(cmp.Compare(a.touch, b.touch), a.last.Compare(b.last), cmp.Compare(a.UID, b.UID))
}
