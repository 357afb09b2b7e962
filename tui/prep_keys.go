package tui

import (
	"strconv"

	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/tui/draw"
	"borewright/tui/keying"
	"borewright/tui/term"
)

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
		if t.Burst {
			p.refuse(byCable)
			return
		}
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
	default: // keys without a use here
	}
}

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
