package tui

import (
	"fmt"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
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

// prepItem is an item of the menu. The numbers are those of the measuring menu
// where they mean the same.
type prepItem struct {
	key, name string
	do        func(*prepScreen)
	// off says why it does nothing now.
	off func(*prepScreen) string
}

var prepMenu = []prepItem{
	{"1", "account for what stays out", func(p *prepScreen) { p.askFor(askAccount) }, (*prepScreen).nothingOut},
	{"2", "forward", func(p *prepScreen) { p.walk(1) }, nil},
	{"3", "next open step", func(p *prepScreen) { p.goOpen(p.step().ID) }, nil},
	{"4", "change the list", func(p *prepScreen) { p.edit() }, nil},
	{"7", "withdraw the last tick", (*prepScreen).withdraw, (*prepScreen).nothingTicked},
	{"8", "go to a step", func(p *prepScreen) { p.askFor(askGoStep) }, nil},
	{"9", "work on metal done", (*prepScreen).askWork, nil},
	{"/", "back", func(p *prepScreen) { p.walk(-1) }, nil},
	{"0", "close", func(*prepScreen) {}, nil},
}

// nothingOut says why nothing can be accounted for.
func (p *prepScreen) nothingOut() string {
	s := p.step()
	if t, counts := p.state().Tally(s.Tally); s.Way != prep.In || !counts || t.Open() <= 0 {
		return "it is for a step that counts in what is not all back"
	}
	return ""
}

func (p *prepScreen) nothingTicked() string {
	if p.desk.Session.LastDone() == 0 {
		return "nothing is ticked yet"
	}
	return ""
}

// token takes a key that no action took.
func (p *prepScreen) token(t term.Token) {
	if p.menu {
		p.choose(t)
		return
	}
	if p.keys.Asking.What == "" {
		p.plain(t)
		return
	}
	next, effects := keying.Step(p.keys, keying.Token{Kind: kinds[t.Kind], Rune: t.Rune, Burst: t.Burst}, keying.View{Read: p.read})
	p.keys = next
	for _, e := range effects {
		p.do(e)
	}
	if p.keys.At == keying.Empty && (p.keys.Asking.What == "" || p.keys.Asking.What == askTick) {
		p.ask()
	}
}

// choose takes a key of the menu.
func (p *prepScreen) choose(t term.Token) {
	key := string(t.Rune)
	if t.Kind == term.Enter {
		key = "0"
	}
	for _, i := range prepMenu {
		if i.key != key {
			continue
		}
		if i.off != nil && i.off(p) != "" {
			p.refuse(i.name + ": " + i.off(p))
			return
		}
		p.menu = false
		i.do(p)
		return
	}
	if t.Kind.Character() {
		p.refuse("the menu is open: choose one of its numbers, or / to go back")
	}
}

// plain takes a key at a step that is ticked without a number.
func (p *prepScreen) plain(t term.Token) {
	switch t.Kind {
	case term.Enter:
		if x, ok := p.state().At(p.step(), p.place); ok {
			p.refuse("ticked already, " + Ago(x.At, p.st.look()) + ": /2 goes on, /7 takes back what was ticked last")
			return
		}
		p.tick(prep.Tick{Step: p.step().ID, Place: p.place})
	case term.Slash:
		p.st.Hush()
		p.menu = true
	case term.Star:
		p.refuse("nothing is held: Enter ticks this step")
	case term.Digit, term.Point:
		p.refuse("Enter ticks this step; no number is keyed")
	}
}

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
		return "key the figure in " + s.Unit + ", then Enter"
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

// read says what a text means as the answer to what is asked.
func (p *prepScreen) read(text string, _ bool) gauge.Result {
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

// do does one effect of the machine.
func (p *prepScreen) do(e keying.Effect) {
	switch e := e.(type) {
	case keying.Answer:
		p.answer(e)
	case keying.Cancel:
		p.menu = e.What == askStep
		p.ask()
	case keying.Hold:
		p.st.Hush()
	case keying.Refuse:
		p.st.Say(draw.Warn, e.Reason)
	case keying.Bell:
		p.st.Ring(e.Times)
	}
}

// answer does what was asked for.
func (p *prepScreen) answer(a keying.Answer) {
	p.st.Hush()
	n, _ := strconv.Atoi(a.Text)
	switch a.What {
	case askStep:
		if t, err := p.step().Read(p.place, a.Text); err == nil {
			t.Forced = a.Despite
			p.record(t)
		}
	case askTick:
		p.record(prep.Tick{Step: p.step().ID, Place: p.place, Forced: a.Despite})
	case askAccount:
		p.accounted = n
		p.askFor(askReason)
	case askReason:
		p.account(prep.Reasons()[n-1])
	case askGoStep:
		p.goStep(n-1, p.firstOpen(p.steps()[n-1]))
	case askBore:
		p.worked, _ = p.desk.Session.Layout().ByLabel(plan.Bore, a.Text)
		p.askFor(askDid)
	case askDid:
		p.work(metalWorks()[n-1].did)
	}
}

// Actions are the keypad's keys as they stand just now, and the letters that
// lead elsewhere.
func (p *prepScreen) Actions() []Action {
	step := func(keys, help string, by int) Action {
		return quiet(on(keys, help, func() tea.Cmd { return p.moveStep(by) }))
	}
	place := func(key, help string, by int) Action {
		return quiet(on(key, help, func() tea.Cmd {
			p.walk(by)
			return nil
		}))
	}
	up, down := "up|-", "down|+"
	if p.Typing() == Numbers {
		up, down = "up", "down"
	}
	return append(p.keypad(),
		step(up, "step before", -1), step(down, "next step", 1),
		place("left", "place before", -1), place("right", "next place", 1),
		on("e", "edit", func() tea.Cmd {
			p.edit()
			return nil
		}).because("adds steps, takes them out, changes how many there are and their limits"),
		on("w", "worst", func() tea.Cmd {
			p.st.Push(newWorst(p.st, p.desk))
			return nil
		}),
		on("l", "log", func() tea.Cmd {
			p.st.Push(newLog(p.st, p.desk, plan.Feature{}))
			return nil
		}),
	)
}

// keypad lists what the keypad's keys do now.
func (p *prepScreen) keypad() []Action {
	list := func(key, help string) Action { return on(key, help, nil) }
	switch {
	case p.menu:
		var out []Action
		for _, i := range prepMenu {
			a := on(i.key, i.name, nil)
			if i.off != nil {
				a = a.unless(i.off(p))
			}
			out = append(out, a)
		}
		return append(out, quiet(list("enter", "close")))
	case p.keys.At == keying.Held:
		return []Action{list("*", "force it").because("it stands as forced, with the reason, in every record"), list("/", "leave it")}
	case p.keys.Text != "":
		return []Action{list("enter", "take it"), list("/", "clear")}
	case p.asks():
		return []Action{quiet(list("0-9", "answer")), list("/", "cancel")}
	case p.step().Keyed():
		return []Action{quiet(list("0-9", "key the number")), list("/", "menu")}
	default:
		return []Action{list("enter", "tick"), list("/", "menu")}
	}
}
