package tui

import (
	"errors"
	"strings"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// fitsPage is one page of the fits: a kind of thing that can be changed.
type fitsPage struct {
	name string
	// as heads the column of how it is, best that of what would be best.
	as, best2 string
	rows      []fitsRow
	// notes are said below when the row has nothing to say: what is missing.
	notes []string
	// best is what is best of all on the page.
	best []engine.Change
	// long says that its rows are sentences.
	long bool
	// asks says what a number means at a row, read what it would do.
	asks func(fitsRow) string
	read func(fitsRow, string) ([]engine.Change, error)
}

// fitsRow is one line: a position as it is, as it is tried, and as it is best.
type fitsRow struct {
	name               string
	of                 plan.Feature
	asIs, tried, finer fitsCell
	// about says more of the row, best is what is best for it alone.
	about []string
	best  []engine.Change
	// finding marks a sentence by its verdict, outside one that has no finding.
	finding engine.Finding
	outside bool
}

// fitsCell is what is at a position and what it makes there.
type fitsCell struct {
	part    string
	value   length.Exact
	finding engine.Finding
}

// The names of the pages, in their order.
const (
	todoPage  = "to do"
	boresPage = "bores"
	gapsPage  = "gaps"
)

// makePages makes every page that the session has something for.
func (s *fits) makePages() []fitsPage {
	out := []fitsPage{s.makeTodo()}
	session := s.desk.Session
	for _, part := range session.Arranged() {
		out = append(out, s.makeSeats(part))
	}
	for _, bearing := range []plan.Family{plan.MainBearing, plan.RodBearing} {
		if x := session.Shells(s.desk.Now, bearing); len(x.Rows) > 0 {
			out = append(out, s.makeShells(x))
		}
	}
	if _, planned := session.Plan().Group(plan.Bore); planned {
		out = append(out, s.makeBores())
	}
	if p := s.makeGaps(); len(p.rows) > 0 {
		out = append(out, p)
	}
	return out
}

// cellOf is a finding as a cell.
func cellOf(part string, f engine.Finding) fitsCell { return fitsCell{part, f.Value, f} }

// worstOf returns the worst finding about a feature of these characteristics,
// of any when none are named.
func worstOf(a *engine.Assessment, of plan.Feature, on ...limit.Characteristic) engine.Finding {
	for _, f := range a.Findings {
		if f.Of != of {
			continue
		}
		for _, c := range on {
			if f.On == c {
				return *f
			}
		}
		if len(on) == 0 {
			return *f
		}
	}
	return engine.Finding{}
}

// readSize reads a size that is keyed in full.
func (s *fits) readSize(f plan.Family, text string) (length.Written, error) {
	w, err := length.Parse(text, s.desk.Session.Unit())
	if err != nil {
		return w, err
	}
	if !strings.ContainsAny(text, ".,") {
		return w, errors.New("key it in full, with its point: " + text + " could be anything")
	}
	return w, f.CheckSize(w)
}

// remedyFor returns the changes to one feature that the remedies ask for.
func (s *fits) remedyFor(of plan.Feature) []engine.Change {
	var out []engine.Change
	for _, c := range s.allRemedies() {
		if c.Of == of {
			out = append(out, c)
		}
	}
	return out
}

// allRemedies are the changes of all remedies together.
func (s *fits) allRemedies() []engine.Change {
	var out []engine.Change
	for _, r := range s.desk.Now.Remedies(s.desk.Session) {
		out = append(out, r.Changes...)
	}
	return out
}
