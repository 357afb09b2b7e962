package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// prepScreen is the sign-off: the prep list, one step of it large, and what was
// counted out and is not back.
type prepScreen struct {
	st   *Station
	desk *Desk
	// at is the step in hand, by its place in the list, and place where on it.
	at    int
	place string
	keys  keying.State
	// menu says that the menu is open.
	menu bool
	// accounted is how many are being accounted for, worked what is being
	// worked on, until the next question is answered.
	accounted int
	worked    plan.Feature
	// awaiting are the ticks for which the bell has not rung yet.
	awaiting []int64
	list     list
	w, h     int
}

// newPrep returns the sign-off of a session: the choice of a preset while it
// has no list.
func newPrep(st *Station, d *Desk) Screen {
	if len(d.Session.Prep().List()) == 0 {
		return newPrepPresets(st, d)
	}
	p := &prepScreen{st: st, desk: d}
	p.goOpen("")
	return p
}

// prepKey is the key that opens the sign-off of a session.
func (st *Station) prepKey(d *Desk) Action {
	return on("p", "prep", func() tea.Cmd {
		st.Push(newPrep(st, d))
		return nil
	}).because("the sign-off: plugs counted out and in, burrs, wash, and what is not ready yet")
}

// Init needs nothing.
func (p *prepScreen) Init() tea.Cmd { return nil }

// Resize sets the size of the body.
func (p *prepScreen) Resize(w, h int) { p.w, p.h = w, h }

// Title names the screen.
func (p *prepScreen) Title() string { return "prep, " + p.desk.Title() }

func (p *prepScreen) session() *Desk { return p.desk }

// Typing takes digits, point and signs while a number is keyed or may have a
// sign.
func (p *prepScreen) Typing() Typing {
	if p.menu || p.keys.Text != "" || p.keys.At == keying.Held || p.keys.Asking.Signed || p.asks() {
		return Numbers
	}
	return NotTyping
}

// asks reports whether a question of the menu is open.
func (p *prepScreen) asks() bool {
	return p.keys.Asking.What != "" && p.keys.Asking.What != askStep && p.keys.Asking.What != askTick
}

// Update takes a token of the keypad or an outcome.
func (p *prepScreen) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case term.Token:
		p.token(msg)
	case Outcome:
		p.hear(msg)
	case returned:
		p.stay()
	}
	return nil
}

// stay keeps to the step after another screen was on top, unless the list has
// changed; without a list there is nothing to stay at.
func (p *prepScreen) stay() {
	if len(p.steps()) == 0 {
		p.st.Pop(nil)
		return
	}
	p.at = min(p.at, len(p.steps())-1)
	if !slices.Contains(p.step().Places, p.place) {
		p.place = p.firstOpen(p.step())
	}
	p.ask()
}

// hear rings the bell for ticks that are kept, and says when keeping fails.
func (p *prepScreen) hear(o Outcome) {
	if o.UID != p.desk.UID() || len(p.awaiting) == 0 {
		return
	}
	if o.Err != nil {
		p.st.Say(draw.Bad, fmt.Sprintf("NOT KEPT, still on screen: %v", o.Err))
		return
	}
	left := slices.DeleteFunc(p.awaiting, func(n int64) bool { return n <= p.desk.Kept })
	if len(left) < len(p.awaiting) {
		p.st.Ring(1)
	}
	p.awaiting = left
}

func (p *prepScreen) state() prep.State { return p.desk.Session.Prep() }

func (p *prepScreen) steps() prep.List { return p.state().List() }

// step is the step in hand.
func (p *prepScreen) step() prep.Step {
	if p.at < len(p.steps()) {
		return p.steps()[p.at]
	}
	return prep.Step{}
}

// goStep takes up a step, at a place of it.
func (p *prepScreen) goStep(at int, place string) {
	p.at, p.place, p.menu = at, place, false
	p.ask()
}

// goOpen takes up the next step that does not stand, else the same one.
func (p *prepScreen) goOpen(after string) {
	at := p.at
	if next, ok := p.state().Next(after); ok {
		_, at, _ = p.steps().Find(next.ID)
	}
	p.goStep(at, p.firstOpen(p.steps()[at]))
}

// firstOpen is the first place of a step that is not ticked, else its first;
// none for a step without places.
func (p *prepScreen) firstOpen(s prep.Step) string {
	for _, place := range s.Places {
		if _, ok := p.state().At(s, place); !ok {
			return place
		}
	}
	if len(s.Places) > 0 {
		return s.Places[0]
	}
	return ""
}

// walk goes so many places on, into the steps that follow or come before.
func (p *prepScreen) walk(by int) {
	s := p.step()
	if i := slices.Index(s.Places, p.place) + by; len(s.Places) > 0 && i >= 0 && i < len(s.Places) {
		p.goStep(p.at, s.Places[i])
		return
	}
	at := max(0, min(p.at+by, len(p.steps())-1))
	place := ""
	if places := p.steps()[at].Places; at != p.at && len(places) > 0 {
		place = places[0]
		if by < 0 {
			place = places[len(places)-1]
		}
	} else if at == p.at {
		place = p.place
	}
	p.goStep(at, place)
}

// moveStep goes so many steps on.
func (p *prepScreen) moveStep(by int) tea.Cmd {
	p.st.Hush()
	at := max(0, min(p.at+by, len(p.steps())-1))
	p.goStep(at, p.firstOpen(p.steps()[at]))
	return nil
}

// advance goes on after a tick: to the next open place of the step, or the next
// open step; a count that is not whole stays where it is.
func (p *prepScreen) advance() {
	s := p.step()
	switch i := slices.Index(s.Places, p.place); {
	case p.state().Done(s.ID):
		p.goOpen(s.ID)
	case i < 0:
		p.ask()
	default:
		for k := range s.Places {
			place := s.Places[(i+1+k)%len(s.Places)]
			if _, ok := p.state().At(s, place); !ok {
				p.goStep(p.at, place)
				return
			}
		}
	}
}

func (p *prepScreen) refuse(why string) {
	p.st.Say(draw.Warn, why)
	p.st.Ring(2)
}

// placeName is the place in hand in words, or nothing.
func (p *prepScreen) placeName() string {
	return draw.Clean(prep.SpotOf(p.place).Name(p.desk.Session.Layout()))
}

func refusedTick(why string) gauge.Result { return gauge.Result{Kind: gauge.Refused, Reason: why} }
