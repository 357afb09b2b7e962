package tui

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/gauge"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// setupForm is the second step: every field of a session's setup. It begins a
// new session, or records what was changed of one that lies open.
type setupForm struct {
	filling
	// desk is the session that is edited, nil for a new one.
	desk  *Desk
	draft setup.Draft
	// was is the draft as the form was opened with it.
	was setup.Draft
	// free are the lists of positions whose labels are shown one by one.
	free map[string]bool
	// held are doubtful values that were shown once: Enter again keeps them.
	held map[string]string
	// shop are the shop's gauges, once they are read.
	shop []gauge.Instrument
}

func newSetupForm(st *Station, desk *Desk, d setup.Draft) *setupForm {
	s := &setupForm{filling: filling{st: st}, desk: desk, draft: d, free: map[string]bool{}, held: map[string]string{}}
	s.was = s.draft
	s.was.Families = slices.Clone(d.Families)
	s.form = newForm(s.rows)
	if id, wrong := s.firstWrong(); wrong && desk == nil {
		s.form.jump(id)
	}
	return s
}

// Title names the session, or says that it is a new one.
func (s *setupForm) Title() string {
	if s.desk == nil {
		return "new session"
	}
	return "setup of " + s.desk.Title()
}

// Actions are its keys. Those that change a choice are there on a choice only.
func (s *setupForm) Actions() []Action {
	enter := s.entering()
	if s.form.here().kind == buttonField {
		enter = s.finishing()
	}
	out := []Action{
		on("enter", enter, s.enter),
		on("f2|ctrl+s", s.finishing(), s.finish).unless(s.off()).because("from any field"),
	}
	out = append(out, s.form.changeKeys()...)
	out = append(out,
		on("f3", "what is missing", s.mend).unless(s.nothingToMend()).because("goes to the next field that something is to be said of"))
	out = append(out, s.form.moveKeys(s.room())...)
	return append(out, s.backKey(s.leave))
}

// finishing is what leaving the form by its end does.
func (s *setupForm) finishing() string {
	if s.desk == nil {
		return "begin measuring"
	}
	return "keep the changes"
}

// off says why measuring cannot begin yet. While something is keyed that has
// not been taken in it may.
func (s *setupForm) off() string {
	return s.standing(func() string {
		id, _ := s.firstWrong()
		return s.says(id).text
	})
}

func (s *setupForm) nothingToMend() string {
	if len(s.toSay()) == 0 {
		return "nothing is missing"
	}
	return ""
}

// enter takes the field in and goes on, or presses the button. What cannot be
// taken stays; what is doubtful is held once.
func (s *setupForm) enter() tea.Cmd {
	x := s.form.here()
	if cmd, taken := s.takeIn(); !taken {
		return cmd
	}
	if doubt := s.says(x.id); doubt.tone == draw.Warn && s.held[x.id] != s.form.here().get() {
		s.held[x.id] = s.form.here().get()
		s.refuse("looks like a slip: Enter again keeps it")
		return nil
	}
	s.form.move(1)
	return nil
}

// mend goes to the next field that something is to be said of.
func (s *setupForm) mend() tea.Cmd {
	s.form.commit()
	ids := s.toSay()
	if len(ids) == 0 {
		return nil
	}
	after := slices.Index(ids, s.form.focus) + 1
	id := ids[after%len(ids)]
	s.form.jump(id)
	s.st.Say(s.says(id).tone, s.says(id).text)
	return nil
}

// leave takes back what is keyed, else leaves the form: at the second press
// when something would be lost.
func (s *setupForm) leave() tea.Cmd {
	return s.filling.leave(reflect.DeepEqual(s.draft, s.was), "leaves the setup; what was changed here is dropped")
}

// finish begins measuring, or records the changes.
func (s *setupForm) finish() tea.Cmd {
	s.form.armed = false
	s.form.commit()
	if id, wrong := s.firstWrong(); wrong {
		s.form.jump(id)
		s.refuse(s.says(id).text)
		return nil
	}
	s.st.By = s.draft.Initials
	end := s.begin
	if s.desk != nil {
		end = s.change
	}
	if err := end(); err != nil {
		s.fail(err)
	}
	return nil
}

// begin begins the new session; the bench goes to its first place.
func (s *setupForm) begin() error {
	bodies, err := s.draft.Events(s.st.UID())
	if err != nil {
		return err
	}
	d, err := s.st.begin(bodies)
	if err != nil {
		return err
	}
	s.st.Pop(begun{d})
	return nil
}

// change records what was changed of the session.
func (s *setupForm) change() error {
	bodies, err := s.draft.Changes(s.desk.Session)
	if err != nil {
		return err
	}
	if err := s.desk.Record(bodies...); err != nil {
		return err
	}
	text := "nothing was changed"
	if n := len(bodies); n > 0 {
		text = fmt.Sprintf("the setup is changed: %d events", n)
	}
	s.st.Say(draw.Plain, text)
	s.st.Pop(nil)
	return nil
}

// toSay returns the fields that something is to be said of, in their order.
func (s *setupForm) toSay() []string {
	about := s.about()
	var ids []string
	for _, r := range s.form.rows {
		for _, x := range r.fields {
			if _, ok := about[x.id]; ok {
				ids = append(ids, x.id)
			}
		}
	}
	return ids
}

// firstWrong returns the first field that keeps measuring from beginning.
func (s *setupForm) firstWrong() (id string, ok bool) {
	about := s.about()
	for _, id := range s.toSay() {
		if about[id].tone == draw.Bad {
			return id, true
		}
	}
	return "", false
}

// says returns what is to be said of a field.
func (s *setupForm) says(id string) said { return s.about()[id] }

// about returns what is to be said, by field: what could not be taken in, then
// what the draft's own check finds.
func (s *setupForm) about() map[string]said {
	out := map[string]said{}
	for id, b := range s.form.bad {
		out[id] = said{b.why, draw.Bad}
	}
	for _, p := range s.draft.Check() {
		id := s.fieldOf(p.Field)
		if _, taken := out[id]; taken {
			continue
		}
		out[id] = said{p.Text, draw.Bad}
		if p.Doubt {
			out[id] = said{p.Text, draw.Warn}
		}
	}
	return out
}

// fieldOf returns the first field that a problem is about.
func (s *setupForm) fieldOf(name string) string {
	for _, match := range []func(id string) bool{
		func(id string) bool { return id == name || strings.HasPrefix(id, name+".") },
		func(id string) bool { return strings.HasSuffix(id, "."+name) },
	} {
		for _, r := range s.form.rows {
			for _, x := range r.fields {
				if match(x.id) {
					return x.id
				}
			}
		}
	}
	return name
}
