package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/term"
)

// form is rows of fields, one of them in focus. What is keyed into a field is
// taken in when the field is left; what cannot be taken in stays as keyed.
type form struct {
	build func() []row
	rows  []row
	// focus is the id of the field in focus, at its row and col its column.
	focus   string
	at, col int
	number  numberText
	words   words
	// keyed is a number keyed on a choice, one digit after another.
	keyed string
	bad   map[string]badText
	// armed says that the next escape leaves.
	armed bool
	list  list
	// last is where the rows that were drawn last end.
	last int
}

func newForm(build func() []row) *form {
	f := &form{build: build, bad: map[string]badText{}}
	f.rows = build()
	f.enter(f.step(0, -1, 1))
	return f
}

// here returns the field in focus.
func (f *form) here() field {
	if f.at < len(f.rows) && f.col < len(f.rows[f.at].fields) {
		return f.rows[f.at].fields[f.col]
	}
	return field{kind: buttonField, press: func() tea.Cmd { return nil }}
}

// rebuild makes the rows anew and finds the field in focus again.
func (f *form) rebuild() {
	f.rows = f.build()
	for id := range f.bad {
		if _, _, ok := f.find(id); !ok {
			delete(f.bad, id)
		}
	}
	if at, col, ok := f.find(f.focus); ok {
		f.at, f.col = at, col
		return
	}
	f.at = min(f.at, len(f.rows)-1)
	f.enter(f.step(f.at, -1, 1))
}

// find returns where a field stands.
func (f *form) find(id string) (at, col int, ok bool) {
	for at, r := range f.rows {
		if col := slices.IndexFunc(r.fields, func(x field) bool { return x.id == id }); col >= 0 {
			return at, col, true
		}
	}
	return 0, 0, false
}

// step returns the field that comes after one (by 1) or before it (by -1), or
// the same one at either end.
func (f *form) step(at, col, by int) (nextAt, nextCol int) {
	for a, c := at, col+by; a >= 0 && a < len(f.rows); {
		if c >= 0 && c < len(f.rows[a].fields) {
			return a, c
		}
		a += by
		if c = 0; by < 0 && a >= 0 {
			c = len(f.rows[a].fields) - 1
		}
	}
	return at, max(col, 0)
}

// enter puts the focus on a field.
func (f *form) enter(at, col int) {
	f.at, f.col = at, col
	x := f.here()
	f.focus, f.keyed = x.id, ""
	f.number, f.words = numberText{}, words{}
	if x.kind == numberField {
		f.number.text = f.text(x)
	}
	if x.kind == wordsField {
		f.words = newWords(f.text(x))
	}
}

// text is what stands in a field that is not being keyed.
func (f *form) text(x field) string {
	if b, bad := f.bad[x.id]; bad {
		return b.text
	}
	return x.get()
}

// pending reports whether something is keyed that has not been taken in.
func (f *form) pending() bool { return f.number.typed || f.words.typed }

// commit takes what is keyed into the field in focus; ok is false when it
// cannot be taken, and then stays as keyed.
func (f *form) commit() (ok bool) {
	x := f.here()
	if !f.pending() {
		_, bad := f.bad[x.id]
		return !bad
	}
	text := f.number.text
	if x.kind == wordsField {
		text = x.taken(f.words.text())
	}
	delete(f.bad, x.id)
	if err := x.set(text); err != nil {
		f.bad[x.id] = badText{text, err.Error()}
	}
	_, bad := f.bad[x.id]
	f.rebuild()
	f.enter(f.at, f.col)
	return !bad
}

// undo drops what is keyed into the field in focus.
func (f *form) undo() {
	delete(f.bad, f.focus)
	f.enter(f.at, f.col)
}

// move takes in what is keyed and goes to another field, in reading order.
func (f *form) move(by int) {
	f.commit()
	f.enter(f.step(f.at, f.col, by))
}

// moveRow takes in what is keyed and goes so many rows on, to the same column
// where there is one. It stops at the first and the last row.
func (f *form) moveRow(by int) {
	f.commit()
	var stops []int
	for i, r := range f.rows {
		if len(r.fields) > 0 {
			stops = append(stops, i)
		}
	}
	if len(stops) == 0 {
		return
	}
	i := max(0, min(slices.Index(stops, f.at)+by, len(stops)-1))
	if at := stops[i]; at != f.at {
		f.enter(at, min(f.col, len(f.rows[at].fields)-1))
	}
}

// jump takes in what is keyed and goes to a field; ok is false when there is
// no such field.
func (f *form) jump(id string) (ok bool) {
	f.commit()
	at, col, ok := f.find(id)
	if ok {
		f.enter(at, col)
	}
	return ok
}

// change steps the choice in focus.
func (f *form) change(by int) {
	f.here().step(by)
	f.keyed = ""
	f.rebuild()
}

// key takes a key that no action took; refused says why it does nothing.
func (f *form) key(t term.Token) (refused string) {
	f.armed = false
	switch x := f.here(); x.kind {
	case numberField:
		if t.Kind == term.Navigation {
			return f.sideways(t.Name)
		}
		f.number, refused = f.number.key(t)
	case wordsField:
		if t.Kind == term.Digit && !f.words.typed && x.byDigits() {
			f.words = newWords("")
		}
		f.words, refused = f.words.key(t, x.most)
	case choiceField:
		return f.choose(x, t)
	case buttonField:
		return "Enter presses this one"
	}
	return refused
}

// sideways moves within the row of a number.
func (f *form) sideways(name string) (refused string) {
	by := map[string]int{term.NavLeft: -1, term.NavRight: 1}[name]
	if col := f.col + by; by != 0 && col >= 0 && col < len(f.rows[f.at].fields) {
		f.commit()
		f.enter(f.at, min(col, len(f.rows[f.at].fields)-1))
	}
	return ""
}

// choose takes a digit on a choice whose choices begin with numbers: first
// behind the digits keyed before, else on its own.
func (f *form) choose(x field, t term.Token) (refused string) {
	if t.Kind != term.Digit {
		return "left and right, or + and -, change this one"
	}
	for _, keyed := range []string{f.keyed + string(t.Rune), string(t.Rune)} {
		if x.choose(keyed) {
			f.keyed = keyed
			f.rebuild()
			return ""
		}
		if x.begins(keyed) {
			f.keyed = keyed
			return ""
		}
	}
	f.keyed = ""
	return "there is no choice " + string(t.Rune) + " here"
}
