package tui

import (
	"errors"
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// shelf is a book in memory whose keeping a test can hold up or let fail.
type shelf struct {
	t        *testing.T
	sessions map[string][]record.Sealed
	order    []string
	inbox    *Inbox
	// hold keeps outcomes back until let; err is what keeping fails with.
	hold bool
	err  error
	kept map[string]int64
	// yard are further sessions, of which there is nothing but their headings;
	// broken is what no session can be loaded for.
	yard   []record.Heading
	broken error
	// intact is how many of its events are loaded all the same.
	intact int
}

func newShelf(t *testing.T) *shelf {
	t.Helper()
	return &shelf{t: t, sessions: map[string][]record.Sealed{}, inbox: NewInbox(), kept: map[string]int64{}}
}

// put lays a demo session on the shelf.
func (b *shelf) put(name string) string {
	b.t.Helper()
	events := demo(b.t, name)
	uid := events[0].Body.(record.Details).UID
	b.sessions[uid] = slices.Clip(events)
	b.order = append(b.order, uid)
	b.kept[uid] = int64(len(events))
	return uid
}

func (b *shelf) Headings(limit int) ([]record.Heading, error) {
	var out []record.Heading
	for _, uid := range slices.Backward(b.order) {
		if uid == record.ShopUID {
			continue
		}
		var h record.Heading
		for _, e := range b.sessions[uid] {
			h = h.Apply(e)
		}
		out = append(out, h)
	}
	out = append(out, b.yard...)
	if limit > 0 {
		out = out[:min(limit, len(out))]
	}
	return out, nil
}

func (b *shelf) Load(uid string) ([]record.Sealed, error) {
	if b.broken != nil {
		return slices.Clone(b.sessions[uid][:b.intact]), b.broken
	}
	if events, ok := b.sessions[uid]; ok {
		return slices.Clone(events), nil
	}
	if uid == record.ShopUID {
		return nil, nil
	}
	return nil, errors.New("no such session")
}

func (b *shelf) Keep(uid string, events ...record.Event) ([]record.Sealed, error) {
	var out []record.Sealed
	have := b.sessions[uid]
	if have == nil {
		b.order = append(b.order, uid)
	}
	var head record.Head
	if n := len(have); n > 0 {
		head = have[n-1].Head
	}
	for _, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			return nil, err
		}
		out, head = append(out, s), s.Head
	}
	b.sessions[uid] = append(have, out...) // its own: put clips, Load clones
	if !b.hold {
		b.settle(uid)
	}
	return out, nil
}

// settle reports what became of a session's events.
func (b *shelf) settle(uid string) {
	o := Outcome{UID: uid, First: b.kept[uid] + 1, Last: int64(len(b.sessions[uid])), Err: b.err}
	if o.Err == nil {
		b.kept[uid] = o.Last
	}
	b.inbox.Post(o)
}

func (b *shelf) Retry() {
	for uid := range b.sessions {
		b.settle(uid)
	}
}

func (b *shelf) Warnings() []string { return nil }

// bench is a station without a program: messages go in, the screen comes out.
type station struct {
	t    *testing.T
	book *shelf
	st   *Station
	r    *router
	// morning lets the station ask for a zero check after a night; else a test
	// goes on as if no time had passed.
	morning bool
}

// sameDay takes the question for a zero check after a night away unanswered.
func (s *station) sameDay() {
	if m, ok := s.r.top().(*measure); ok && !s.morning && m.keys.Asking.What == askStale {
		m.keys = keying.State{}
	}
}

var noon = time.Date(2026, 3, 11, 7, 30, 0, 0, time.FixedZone("", 3600))

func newStation(t *testing.T, w, h int, sessions ...string) *station {
	t.Helper()
	b := newShelf(t)
	for _, name := range sessions {
		b.put(name)
	}
	clock := noon
	st := &Station{Options: Options{
		Book: b, By: "ek", UID: func() string { return "uid-of-this-test" },
		Now:     func() time.Time { clock = clock.Add(time.Second); return clock },
		Folder:  &drawer{files: map[string][]byte{}},
		Palette: draw.NewPalette(true, termenv.Ascii), Signs: draw.NewSigns(false),
	}}
	s := &station{t: t, book: b, st: st, r: newRouter(st, newBench(st))}
	s.send(tea.WindowSizeMsg{Width: w, Height: h})
	s.run(s.r.Init())
	return s
}

// send gives a message to the router and runs what it asks for to rest.
func (s *station) send(msg tea.Msg) {
	s.t.Helper()
	_, cmd := s.r.Update(msg)
	s.run(cmd)
	s.mail()
	s.sameDay()
}

// mail delivers the outcomes that wait.
func (s *station) mail() {
	for {
		select {
		case o := <-s.book.inbox.mail:
			_, cmd := s.r.Update(o)
			s.run(cmd)
		default:
			return
		}
	}
}

func (s *station) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil, tea.QuitMsg:
	case tea.BatchMsg:
		for _, c := range msg {
			s.run(c)
		}
	default:
		if _, later := msg.(calm); !later {
			_, next := s.r.Update(msg)
			s.run(next)
		}
	}
}

// keys types: characters as they are, and names in angle brackets.
func (s *station) keys(what ...string) {
	s.t.Helper()
	named := map[string]tea.KeyType{
		"<enter>": tea.KeyEnter, "<esc>": tea.KeyEscape, "<up>": tea.KeyUp, "<down>": tea.KeyDown,
		"<f2>": tea.KeyF2, "<left>": tea.KeyLeft, "<right>": tea.KeyRight, "<tab>": tea.KeyTab, "<home>": tea.KeyHome,
	}
	for _, k := range what {
		if t, ok := named[k]; ok {
			s.send(tea.KeyMsg{Type: t})
			continue
		}
		s.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)})
	}
}

// last returns the newest event of a session.
func (s *station) last(uid string) record.Sealed {
	s.t.Helper()
	events := s.book.sessions[uid]
	if len(events) == 0 {
		s.t.Fatal("nothing was recorded")
	}
	return events[len(events)-1]
}

// top returns the screen on top as what it is.
func top[T Screen](s *station) T {
	s.t.Helper()
	x, ok := s.r.top().(T)
	if !ok {
		s.t.Fatalf("the screen on top is %T (%s)", s.r.top(), s.st.status.text)
	}
	return x
}

// key gives one token to the router, as the decoder would.
func (s *station) key(name string) {
	s.t.Helper()
	s.run(s.r.key(term.Token{Kind: term.Control, Name: name, At: noon}))
	s.run(s.r.settle())
	s.mail()
	s.sameDay()
}
