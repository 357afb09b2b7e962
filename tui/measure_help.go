package tui

import (
	"strings"

	"borewright/engine/gauge"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// Explain says on the help page what every key of the keypad does.
func (m *measure) Explain() []string { return keypadLines(m.st, m.w) }

// keypadLines say what every key of the keypad does in every state, from the
// table that the machine steps by, in lines of at most w cells.
func keypadLines(st *Station, w int) []string {
	p := &st.Palette
	out := []string{"  " + p.Paint(draw.Title, "The keypad, state by state")}
	for _, x := range keypadStates {
		var does []string
		for _, k := range keying.Keys(x.state, x.view) {
			if k.Off == "" {
				does = append(does, k.Key+" "+k.Does)
			}
		}
		for i, line := range draw.Wrap(strings.Join(does, "; "), max(20, w-16)) {
			name := ""
			if i == 0 {
				name = x.name
			}
			out = append(out, "  "+p.Paint(draw.Key, draw.Fit(name, 11))+" "+line)
		}
	}
	return append(out, "",
		"  One bell: the reading is taken and kept. Two: it is held or refused.",
		"  With a bore gauge, key graduations from zero: + is larger than the master,",
		"  whichever way the needle goes. With a micrometer, the size with its point;",
		"  after the first one in a set its last digits are enough.",
		"  Nothing needs saving. If the light goes out, it resumes at this place.")
}

// keypadStates are the states that the help page explains.
var keypadStates = []struct {
	name  string
	state keying.State
	view  keying.View
}{
	{"empty", keying.State{}, keying.View{Signed: true, JustTaken: true}},
	{"typing", keying.State{At: keying.Typing, Text: "3"}, keying.View{Signed: true}},
	{"held", keying.State{At: keying.Held, Text: "3", Held: gauge.Result{Kind: gauge.Held}}, keying.View{}},
	{"menu", keying.State{At: keying.Menu}, keying.View{}},
	{"has one", keying.State{}, keying.View{Signed: true, HasReading: true, Reading: "it"}},
}
