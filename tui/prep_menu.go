package tui

import "borewright/engine/prep"

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
