package tui

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// router is the only tea.Model: a stack of screens, the decoder of keys and
// the frame around the top screen.
type router struct {
	st      *Station
	stack   []Screen
	decoder term.Decoder
	w, h    int
	asked   bool // Ctrl+C was pressed and may be pressed again to quit
	fault   error
	crash   crash
	// retryAfter is how long after keeping failed it is tried again, without end;
	// never when zero. retrying means that a try is due.
	retryAfter time.Duration
	retrying   bool
}

// retryAfter is the router's in a running station.
const retryAfter = 2 * time.Second

// fatal is sent when a goroutine of ours panicked.
type fatal struct{ err error }

// warning is sent when something is to be said that no key asked for.
type warning struct{ text string }

// hangup is sent when the window is closed or the system ends the program.
type hangup struct{}

// leave ends the program: everything is kept, or the hand said to leave.
type leave struct{}

// calm takes back what was offered for one second.
type calm struct{}

// retry is sent when it is time to try again to keep what is not kept.
type retry struct{}

func newRouter(st *Station, first Screen) *router {
	return &router{st: st, stack: []Screen{first}}
}

// Init starts the first screen and listens for outcomes.
func (r *router) Init() tea.Cmd { return r.noting(tea.Batch(r.top().Init(), r.listen())) }

func (r *router) top() Screen { return r.stack[len(r.stack)-1] }

// listen waits for the book's next outcome.
func (r *router) listen() tea.Cmd {
	if r.st.Inbox == nil {
		return nil
	}
	mail := r.st.Inbox.mail
	return func() tea.Msg { return <-mail }
}

// Update hands a message to where it belongs.
func (r *router) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	defer r.note()
	_, cmd := r.update(msg)
	return r, r.noting(cmd)
}

func (r *router) update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		r.resize(msg.Width, msg.Height)
		return r, tea.ClearScreen
	case tea.KeyMsg:
		return r, r.keys(msg)
	case calm:
		r.asked = false
		return r, nil
	case warning:
		r.st.Say(draw.Warn, msg.text)
		return r, nil
	case hangup:
		return r, tea.Quit
	case leave:
		return r, tea.Quit
	case cableLine:
		if !r.tooSmall() {
			r.st.hearLine(msg, r.top())
		}
		return r, r.settle()
	case cableState:
		r.st.hearState(msg)
		return r, nil
	case fatal:
		r.fault = msg.err
		return r, tea.Quit
	case Outcome:
		for _, d := range r.st.desks {
			d.Hear(msg)
		}
		if msg.UID == record.ShopUID && msg.Err != nil {
			r.st.Say(draw.Bad, "not kept in the shop: "+msg.Err.Error())
		}
		return r, tea.Batch(r.all(msg), r.listen(), r.tryAgain(msg.Err))
	case retry:
		r.retrying = false
		r.st.Book.Retry()
		return r, nil
	default:
		return r, r.all(msg)
	}
}

// tryAgain has keeping tried again in a while, when it failed: what is on the
// screen is kept as soon as the cause is gone, whether or not a key is pressed.
func (r *router) tryAgain(failed error) tea.Cmd {
	if failed == nil || r.retrying || r.retryAfter == 0 {
		return nil
	}
	r.retrying = true
	return tea.Tick(r.retryAfter, func(time.Time) tea.Msg { return retry{} })
}

// all gives a message to every screen.
func (r *router) all(msg tea.Msg) tea.Cmd {
	var cmds []tea.Cmd
	for _, s := range r.stack {
		cmds = append(cmds, s.Update(msg))
	}
	return tea.Batch(append(cmds, r.settle())...)
}

// keys takes what came in one read, one token after another, so that each is
// dealt with before the next.
func (r *router) keys(msg tea.KeyMsg) tea.Cmd {
	if r.st.Keyed != nil {
		r.st.Keyed()
	}
	var cmds []tea.Cmd
	for _, t := range r.decoder.Decode(msg, r.st.look()) {
		cmds = append(cmds, r.key(t), r.settle())
	}
	return tea.Batch(cmds...)
}

func (r *router) key(t term.Token) tea.Cmd {
	if t.Kind == term.Control && t.Name == "ctrl+c" {
		return r.interrupt(t)
	}
	if t.Kind.Character() {
		r.asked = false // what frames its values in Ctrl+C has no wish to leave
	}
	if r.tooSmall() {
		return nil
	}
	top := r.top()
	if !top.Typing().takes(t.Kind) {
		if a, ok := r.action(keyName(t)); ok && a.Do != nil {
			return r.act(a)
		}
	}
	return top.Update(t)
}

func (r *router) action(key string) (Action, bool) {
	for _, a := range r.actions() {
		if slices.Contains(a.Keys, key) {
			return a, true
		}
	}
	return Action{}, false
}

func (r *router) act(a Action) tea.Cmd {
	if a.Off != "" {
		r.st.Say(draw.Warn, a.Help+": "+a.Off)
		r.st.Ring(2)
		return nil
	}
	r.st.Hush()
	return a.Do()
}

// actions are the top screen's keys and the ones every screen has.
func (r *router) actions() []Action {
	own := r.top().Actions()
	if _, isHelp := r.top().(*help); !isHelp {
		keys := "?|f1"
		if r.top().Typing() == Words {
			keys = "f1" // ? is a character of the field
		}
		own = append(own, on(keys, helpWord, func() tea.Cmd {
			r.st.Push(newHelp(r.st, r.top()))
			return nil
		}))
	}
	return r.back(own)
}

// back puts the key that leaves the top screen last: its own where it has one,
// else the one that pops it.
func (r *router) back(own []Action) []Action {
	if len(r.stack) < 2 {
		return own
	}
	i := slices.IndexFunc(own, func(a Action) bool { return slices.Contains(a.Keys, "esc") })
	switch {
	case i < 0:
		return append(own, on("esc", "back", func() tea.Cmd {
			r.st.Pop(nil)
			return nil
		}))
	case own[i].Quiet && len(own[i].Keys) == 1:
		last := own[i]
		last.Quiet = false
		return append(slices.Delete(own, i, i+1), last)
	}
	return own
}

// settle makes the moves that were asked for.
func (r *router) settle() tea.Cmd {
	var cmds []tea.Cmd
	for len(r.st.moves) > 0 {
		m := r.st.moves[0]
		r.st.moves = r.st.moves[1:]
		cmds = append(cmds, r.make(m))
	}
	return tea.Batch(cmds...)
}

func (r *router) make(m move) tea.Cmd {
	switch {
	case m.quit:
		return r.leave()
	case m.push != nil:
		r.stack = append(r.stack, m.push)
		m.push.Resize(r.body())
		return m.push.Init()
	case len(r.stack) > 1:
		r.stack = r.stack[:len(r.stack)-1]
		if yes, ok := m.result.(confirmed); ok {
			return tea.Batch(yes.do(), r.top().Update(returned{}))
		}
		if m.result != nil {
			return r.top().Update(m.result)
		}
		return r.top().Update(returned{})
	default:
		return r.leave()
	}
}

// returned tells a screen that it is on top again.
type returned struct{}
