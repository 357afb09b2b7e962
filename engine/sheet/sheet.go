package sheet

import (
	"errors"
	"time"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/record"
)

// Units says in which units the figures of a sheet are shown.
type Units string

// The units of a sheet. The zero value is the session's own unit.
const (
	Inch Units = "in"
	MM   Units = "mm"
	Both Units = "both" // the session's own unit first
)

// ErrUnits says that no units are called so.
var ErrUnits = errors.New("units are in, mm or both")

// ParseUnits reads the name of units; "" is the session's own.
func ParseUnits(text string) (Units, error) {
	switch u := Units(text); u {
	case "", Inch, MM, Both:
		return u, nil
	default:
		return "", ErrUnits
	}
}

// Options say how a sheet is made.
type Options struct {
	Units Units
}

// Sheet is a build sheet as a plain value. Its texts are clean: they hold no
// control or bidirectional characters.
type Sheet struct {
	Mark                    Mark
	Title, Customer, Engine string
	// Verdict is the verdict in one line, Tone how it is.
	Verdict string
	Tone    Tone
	// At is when the last event happened.
	At       time.Time
	Sections []Section
}

// Section is a part of a sheet under a heading.
type Section struct {
	Heading  string
	Notes    []string
	Pictures []Picture
	Tables   []Table
}

// Table has a heading row and rows below it.
type Table struct {
	Caption string
	Columns []string
	Rows    [][]Cell
}

// Cell is one cell of a table.
type Cell struct {
	Text string
	// Below is the same figure in the sheet's other unit, where it has one.
	Below string
	Tone  Tone
	// Number says that it stands with the figures, to the right.
	Number bool
}

// Tone is how something is. It is said in words too: no reader needs colours.
type Tone uint8

// The tones.
const (
	Plain Tone = iota
	Good
	Doubtful
	Bad
)

// name is the tone as a class of styles.
func (t Tone) name() string { return [...]string{"plain", "good", "doubtful", "bad"}[t] }

// Build makes the sheet of a session and its assessment. The error says why
// the session cannot be shown in the units asked for.
func Build(s *engine.Session, a *engine.Assessment, o Options) (Sheet, error) {
	views, err := viewsOf(s, a, o.Units)
	if err != nil {
		return Sheet{}, err
	}
	v := views[0]
	d := s.Details()
	out := Sheet{
		Mark: Mark{UID: d.UID, Head: s.Head(), Units: o.Units}, Title: clean(d.Title),
		Customer: clean(d.Customer), Engine: clean(d.Engine), At: lastAt(s),
	}
	out.Verdict, out.Tone = v.verdict()
	for _, part := range []func([]view) Section{
		head, worst, judged, done, diametral, clearances, ringsAndPoints, readings, warnings,
		signOff, notes, gauges, conditions, rules, words,
	} {
		if x := part(views); len(x.Notes)+len(x.Tables)+len(x.Pictures) > 0 {
			out.Sections = append(out.Sections, x.clean())
		}
	}
	return out, nil
}

// view is a session in one unit.
type view struct {
	s *engine.Session
	a *engine.Assessment
	r engine.Report
	u length.Unit
}

// viewsOf returns the session in each unit asked for, at least one.
func viewsOf(s *engine.Session, a *engine.Assessment, units Units) ([]view, error) {
	own := view{s, a, a.Report(s), s.Unit()}
	if units == "" || units == Units(own.u.String()) {
		return []view{own}, nil
	}
	other, err := own.in(s.OtherUnit())
	if units == Both {
		return []view{own, other}, err
	}
	return []view{other}, err
}

// in returns the same session as it is shown in another unit.
func (v view) in(u length.Unit) (view, error) {
	next, err := record.Seal(record.Event{At: lastAt(v.s), Body: v.s.RulesIn(u)}, v.s.Head())
	if err != nil {
		return view{}, err
	}
	events := v.s.Events()
	s, err := engine.Replay(append(events[:len(events):len(events)], next))
	if err != nil {
		return view{}, err
	}
	a := engine.Assess(s)
	return view{s, a, a.Report(s), u}, nil
}

func lastAt(s *engine.Session) time.Time {
	events := s.Events()
	if len(events) == 0 {
		return time.Time{}
	}
	return events[len(events)-1].At
}

// figure writes a figure as a report does, without its unit.
func (v view) figure(e length.Exact) string { return engine.FigureText(e, v.u) }
