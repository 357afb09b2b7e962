package tui

import (
	"fmt"
	"strconv"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/tui/keying"
)

// What the sign-off asks for.
const (
	askStep    = "step" // the number of the step in hand
	askTick    = "tick" // nothing: a tick that is held
	askAccount = "how many to account for"
	askReason  = "why they stay out"
	askGoStep  = "go to step"
	askBore    = "which bore"
	askDid     = "what was done"
)

// ask puts the question of the step in hand, where it takes a number.
func (p *prepScreen) ask() {
	s := p.step()
	p.keys = keying.State{}
	if s.Keyed() {
		p.keys.Asking = keying.Asking{What: askStep, Title: p.question(s), Signed: s.Signed(), Options: s.Choices}
	}
}

// question says what a step wants keyed.
func (p *prepScreen) question(s prep.Step) string {
	switch {
	case s.Kind == prep.Choice:
		return "choose by number, then Enter"
	case s.Way != "":
		return "key how many are " + s.Way + ", then Enter"
	case s.Kind == prep.Counted:
		return "key how many, then Enter"
	case s.Match:
		return "key the number on it, then Enter"
	default:
		return "key the figure, " + s.Unit + ", then Enter"
	}
}

// askFor puts a question of the menu.
func (p *prepScreen) askFor(what string) {
	a := keying.Asking{What: what}
	switch what {
	case askAccount:
		t, _ := p.state().Tally(p.step().Tally)
		a.Title = fmt.Sprintf("of %d %s not back, how many are accounted for?", t.Open(), t.Name)
	case askReason:
		a.Title, a.Options = fmt.Sprintf("why do %d stay out?", p.accounted), prep.Reasons()
	case askGoStep:
		a.Title = fmt.Sprintf("go to which step, 1 to %d?", len(p.steps()))
	case askBore:
		a.Title = "which bore was worked on?"
	case askDid:
		a.Title = "what was done to " + p.desk.Session.Name(p.worked) + "?"
		for _, w := range metalWorks() {
			a.Options = append(a.Options, w.did)
		}
	}
	p.keys = keying.State{Asking: a}
}

// byCable says why what a cable sends ticks nothing but a figure.
const byCable = "a value arrived by itself: steps are ticked and counted by hand"

// read says what a text means as the answer to what is asked; cable says that
// it came by itself.
func (p *prepScreen) read(text string, cable bool) gauge.Result {
	if cable && (p.asks() || p.step().Kind != prep.Value) {
		return refusedTick(byCable)
	}
	switch p.keys.Asking.What {
	case askStep:
		return p.readTick(text)
	case askAccount:
		t, _ := p.state().Tally(p.step().Tally)
		return p.oneOf(text, t.Open())
	case askReason:
		return p.oneOf(text, len(prep.Reasons()))
	case askGoStep:
		return p.oneOf(text, len(p.steps()))
	case askDid:
		return p.oneOf(text, len(metalWorks()))
	case askBore:
		if _, ok := p.desk.Session.Layout().ByLabel(plan.Bore, text); !ok {
			return refusedTick("there is no bore " + text)
		}
	}
	return gauge.Result{Kind: gauge.Taken}
}

func (p *prepScreen) oneOf(text string, most int) gauge.Result {
	if n, err := strconv.Atoi(text); err != nil || n < 1 || n > most {
		return refusedTick(fmt.Sprintf("a number from 1 to %d, not %s", most, text))
	}
	return gauge.Result{Kind: gauge.Taken}
}

// readTick says whether a keyed text ticks the step, is held or refused.
func (p *prepScreen) readTick(text string) gauge.Result {
	t, err := p.step().Read(p.place, text)
	if err != nil {
		return refusedTick(err.Error())
	}
	if held := p.hold(t); held != "" {
		return gauge.Result{Kind: gauge.Held, Reason: held}
	}
	return gauge.Result{Kind: gauge.Taken}
}

func (p *prepScreen) hold(t prep.Tick) string { return p.state().Hold(t, p.desk.Session.Layout()) }
