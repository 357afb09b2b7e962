package tui

import (
	"errors"
	"fmt"

	"borewright/engine"
)

// makeTodo lists the remedies, what was decided, and what is worked out.
func (s *fits) makeTodo() fitsPage {
	session, now := s.desk.Session, s.desk.Now
	p := fitsPage{
		name: todoPage, long: true, best: s.allRemedies(),
		asks: func(r fitsRow) string {
			if len(r.best) == 0 {
				return "this is done at the bench: there is nothing to try here"
			}
			return "Enter tries it"
		},
		read: func(fitsRow, string) ([]engine.Change, error) {
			return nil, errors.New("nothing is keyed here: Enter tries the marked line, * all of them")
		},
	}
	for i, r := range now.Remedies(session) {
		row := fitsRow{name: fmt.Sprintf("%d", i+1), of: r.For[0].Of, best: r.Changes, finding: r.For[0], about: []string{r.Text}}
		for _, f := range r.For {
			row.about = append(row.about, "for "+f.Text)
		}
		p.rows = append(p.rows, row)
	}
	for _, x := range now.Intentions(session) {
		row := fitsRow{name: "decided", about: []string{x.Text}}
		if len(x.Action.To) > 0 {
			row.of = x.Action.To[0]
		}
		p.rows = append(p.rows, row)
	}
	for _, x := range session.WorkedOut(now) {
		p.rows = append(p.rows, fitsRow{name: "worked", about: []string{x.Text()}, outside: x.Outside})
	}
	if len(p.rows) == 0 {
		p.notes = []string{"nothing is outside its limits: there is nothing to do"}
	}
	return p
}
