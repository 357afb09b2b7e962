package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/plan"
	"borewright/tui/keying"
)

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

// Explain says more on the help page.
func (p *prepScreen) Explain() []string {
	return []string{
		"  One bell: ticked and kept. Two: held or refused. What is held may be forced,",
		"  and the force stands in every record. Counts are how many in all.",
		"  Work on metal withdraws the wash and all that rests on it; /9 says it was done.",
		"  Nothing is ready while a plug is out that is neither back nor accounted for.",
	}
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
