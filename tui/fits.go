package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// fits is what to do about what was measured: the remedies, which part where,
// which shells, how much to hone and to file. What is tried here is no event;
// it becomes one, as intended, when it is decided.
type fits struct {
	st   *Station
	desk *Desk
	// page is the one in view, lists the cursor of each.
	page  int
	lists map[string]*list
	keyed numberText
	// changes are tried, target is tried as the size that bores are honed to.
	changes []engine.Change
	target  length.Exact
	tried   *trial
	pages   []fitsPage
	n       int64 // events that the pages were made of, −1 to make them anew
	w, h    int
}

// trial is the session as it would be with what is tried.
type trial struct {
	s *engine.Session
	a *engine.Assessment
}

// newFits opens the fits at a feature, or at what is to be done.
func newFits(st *Station, d *Desk, at plan.Feature) *fits {
	s := &fits{st: st, desk: d, lists: map[string]*list{}, n: -1}
	for i, p := range slices.Backward(s.all()) {
		row := slices.IndexFunc(p.rows, func(r fitsRow) bool { return r.of == at })
		if at.IsZero() || row < 0 || p.long {
			continue
		}
		s.page = i
		s.list().at = row
		break
	}
	return s
}

// fitsKey is the key that opens the fits.
func (st *Station) fitsKey(d *Desk, at func() plan.Feature) Action {
	return on("v", "fits", func() tea.Cmd {
		st.Push(newFits(st, d, at()))
		return nil
	}).because("what to do about what was measured: which part where, which shells, how much to hone and to file; try it before it is done")
}

// Init needs nothing.
func (s *fits) Init() tea.Cmd { return nil }

// Update takes what is keyed.
func (s *fits) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case decided:
		s.clear()
		s.st.Say(draw.Plain, "decided: what comes of it stands under to do, once it is measured again")
	case goTo:
		s.st.Pop(msg)
	case term.Token:
		s.key(msg)
	}
	return nil
}

// Resize sets the size of the body: the pages are made for its width.
func (s *fits) Resize(w, h int) {
	if w != s.w {
		s.n = -1
	}
	s.w, s.h = w, h
}

// Title names the screen.
func (s *fits) Title() string { return "fits of " + s.desk.Title() }

// Typing takes digits, point and signs.
func (s *fits) Typing() Typing { return Numbers }

// all returns the pages, made anew when something happened or is tried.
func (s *fits) all() []fitsPage {
	if n := s.desk.Session.Head().N; n != s.n {
		s.n = n
		s.pages = s.makePages()
		s.page = max(0, min(s.page, len(s.pages)-1))
	}
	return s.pages
}

// here is the page in view.
func (s *fits) here() fitsPage { return s.all()[s.page] }

// list is the cursor of the page in view.
func (s *fits) list() *list {
	name := s.here().name
	if s.lists[name] == nil {
		s.lists[name] = &list{}
	}
	return s.lists[name]
}

// marked is the marked row; ok is false on a page without rows.
func (s *fits) marked() (r fitsRow, ok bool) {
	rows := s.here().rows
	if len(rows) == 0 {
		return r, false
	}
	return rows[min(s.list().at, len(rows)-1)], true
}

func (s *fits) move(by int) tea.Cmd {
	s.list().move(by, len(s.here().rows))
	s.keyed = numberText{}
	return nil
}

func (s *fits) turn(by int) tea.Cmd {
	n := len(s.all())
	s.page = ((s.page+by)%n + n) % n
	s.keyed = numberText{}
	return nil
}

// now is what is shown as tried, or the session as it is while nothing is.
func (s *fits) now() trial {
	if s.tried != nil {
		return *s.tried
	}
	return trial{s.desk.Session, s.desk.Now}
}

// try tries changes beside those tried before; a later one takes the place of
// an earlier one about the same thing.
func (s *fits) try(changes ...engine.Change) {
	all := slices.Clone(s.changes)
	for _, c := range changes {
		all = slices.DeleteFunc(all, func(x engine.Change) bool { return x.Of == c.Of })
		all = append(all, c)
	}
	session, a, err := s.desk.Session.Trial(all...)
	if err != nil {
		s.refuse(err.Error())
		return
	}
	s.changes, s.tried, s.n = all, &trial{session, a}, -1
	s.keyed = numberText{}
}

// clear takes back all that is tried.
func (s *fits) clear() {
	s.changes, s.tried, s.target, s.n = nil, nil, length.Exact{}, -1
	s.keyed = numberText{}
}

func (s *fits) refuse(why string) {
	s.st.Say(draw.Warn, why)
	s.st.Ring(2)
}
