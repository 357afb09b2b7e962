package tui

import tea "github.com/charmbracelet/bubbletea"

// quiet keeps a key out of the footer.
func quiet(a Action) Action {
	a.Quiet = true
	return a
}

// do is a movement: it takes back the offer to leave.
func (f *form) do(move func()) func() tea.Cmd {
	return func() tea.Cmd {
		f.armed = false
		move()
		return nil
	}
}

// changeKeys are the keys that change the field in focus, where it is a choice
// or a number.
func (f *form) changeKeys() []Action {
	switch f.here().kind {
	case choiceField:
		return []Action{
			on("right|+|space", "change", f.do(func() { f.change(1) })),
			on("left|-", "change back", f.do(func() { f.change(-1) })),
		}
	case numberField:
		return []Action{quiet(on("/", "clear", nil)).because("digits, a point or a comma, a sign; a unit may follow, such as mm")}
	default:
		return nil
	}
}

// moveKeys are the keys that go from field to field; page is how many rows are
// in view.
func (f *form) moveKeys(page int) []Action {
	return []Action{
		quiet(on("up", "up", f.do(func() { f.moveRow(-1) }))),
		quiet(on("down", "down", f.do(func() { f.moveRow(1) }))),
		quiet(on("tab", "next field", f.do(func() { f.move(1) }))),
		quiet(on("shift+tab", "field before", f.do(func() { f.move(-1) }))),
		quiet(on("pgup", "page up", f.do(func() { f.moveRow(-page) }))),
		quiet(on("pgdown", "page down", f.do(func() { f.moveRow(page) }))),
	}
}
