package engine

import (
	"fmt"
	"strings"

	"borewright/engine/gauge"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Entry is one event as the log tells it.
type Entry struct {
	record.Event
	// Live is false when it was withdrawn, by event WithdrawnBy.
	Live        bool
	WithdrawnBy int64
	// ReplacedBy is the live event that stands in its stead, such as a reading
	// keyed again; 0 while it counts, or is withdrawn.
	ReplacedBy int64
	// Of is the one feature it is about, or none. About names every feature and
	// family that it is about: see Concerns.
	Of    plan.Feature
	About []string
	// Text says it in words.
	Text string
}

// Log returns every event in words, oldest first.
func (s *Session) Log() []Entry {
	out := make([]Entry, len(s.events))
	replaced := s.replacements()
	for i, e := range s.events {
		out[i] = s.entry(e.Event)
		out[i].ReplacedBy = replaced[e.N]
	}
	return out
}

func (s *Session) entry(e record.Event) Entry {
	by := s.dead[e.N]
	of := PlaceOf(e.Body).Of
	if of.IsZero() {
		of = noteOn(e.Body)
	}
	return Entry{Event: e, Live: by == 0, WithdrawnBy: by, Of: of, About: s.about(e), Text: s.tell(e.Body)}
}

// Words says what an event says, by the session's names for features and levels.
// The event need not be one of the session's.
func (s *Session) Words(b record.Body) string { return s.tell(b) }

// tell says in words what an event says.
func (s *Session) tell(b record.Body) string {
	switch b := b.(type) {
	case record.Reading:
		return s.tellReading(b)
	case record.LeftOut:
		return s.PlaceName(b.Place()) + " left out" + because(b.Why)
	case record.Moved:
		return fmt.Sprintf("%d readings moved to other places", len(b.Readings))
	case record.Withdrawn:
		return s.tellWithdrawn(b)
	case record.Work:
		return s.names(b.To) + " " + b.Did + prefixed(" ", b.Amount) + because(b.Note)
	case record.Steps:
		return fmt.Sprintf("prep list of %d steps", len(b.List))
	case record.Done:
		return s.tellDone(b)
	case record.Zero:
		if b.Skipped {
			return "zero check skipped" + because(b.Why)
		}
		return "zero check: the gauge reads " + b.Keyed + " on its master"
	case record.Note:
		return "note" + prefixed(" on ", s.nameOf(b.On)) + ": " + b.Text
	case record.State:
		return "session " + b.State
	default:
		return s.tellSetup(b)
	}
}

func (s *Session) tellReading(r record.Reading) string {
	value := r.Size.String()
	if r.Size.IsZero() {
		value = r.Dev.Exact().FormatSigned(r.Dev.Unit, r.Dev.Places) + " " + r.Dev.Unit.String() + " from zero"
	}
	text := s.PlaceName(r.Place()) + ": " + value + ", keyed " + r.Keyed
	if r.As != record.First {
		text += " (" + r.As + ")"
	}
	if r.Blind {
		text += ", unseen: its figure stays"
	}
	if r.Via == record.ViaCable {
		text += ", by cable"
	}
	return text + prefixed(", kept although ", r.Despite)
}

func (s *Session) tellWithdrawn(w record.Withdrawn) string {
	if w.Event < 1 || w.Event > int64(len(s.events)) {
		return fmt.Sprintf("event %d withdrawn", w.Event)
	}
	target := s.events[w.Event-1]
	if target.Is() == record.IsWithdrawn {
		return fmt.Sprintf("brought back what event %d withdrew", w.Event)
	}
	return fmt.Sprintf("withdrawn: event %d, %s", w.Event, s.tell(target.Body)) + because(w.Why)
}

// tellSetup says the events that set something, and those kept for later.
func (s *Session) tellSetup(b record.Body) string {
	switch b := b.(type) {
	case record.Details:
		return "on the bench: " + b.Title + prefixed(", ", b.Engine)
	case record.Layout:
		return fmt.Sprintf("layout: %s, %d cylinders, %d mains", b.Form, b.Cylinders, b.Filled().Mains)
	case record.Plan:
		return "plan: " + planned(b.Plan)
	case record.Limit:
		return s.tellLimit(b.Limits)
	case record.Rules:
		return tellRules(b)
	case record.Instrument:
		return "gauge " + b.ID + ": " + b.Name
	case record.Setting:
		return "gauge " + b.Instrument + " set on " + settingOn(b.Setting)
	case record.Set:
		return "set " + b.ID + tellTemperatures(b.At)
	case record.Given:
		return "given" + prefixed(" for ", s.nameOf(b.Of)) + ": " + b.Name + " " + b.Value
	case record.Table:
		return fmt.Sprintf("table of %s%s, %s", b.Name, prefixed(" for ", s.nameOf(b.Of)), counted(len(b.Rows), "row"))
	case record.Fitted:
		return s.Name(b.Part) + " sits at " + s.Name(b.At)
	case record.Intended:
		return s.tellIntended(b)
	case record.Study:
		return fmt.Sprintf("study of gauge %s, %d values", b.Instrument, len(b.Rows))
	default:
		return string(b.Is())
	}
}

// tellLimit says what is limited, to what, and where that comes from.
func (s *Session) tellLimit(l limit.Limits) string {
	text := "limit on " + string(l.On) + prefixed(" by ", string(l.By)) + " of " + s.nameOf(l.Of)
	for _, by := range []string{limit.New, limit.Wear} {
		text += prefixed(", "+by+" ", rangeWords(l.Range(by)))
	}
	if !l.Per.IsZero() {
		text += fmt.Sprintf(" per %s over %s", l.Per, l.Travel)
	}
	return text + prefixed(", from: ", l.Source)
}

// rangeWords writes a range as it was written.
func rangeWords(r limit.Range) string {
	switch {
	case r.IsZero():
		return ""
	case r.Low.IsZero():
		return "at most " + r.High.String()
	case r.High.IsZero():
		return "at least " + r.Low.String()
	case r.Low.Unit == r.High.Unit:
		return r.Low.Number() + " to " + r.High.String()
	default:
		return r.Low.String() + " to " + r.High.String()
	}
}

// nameOf names what a limit or a note is on: a feature by its label, a family
// by its plural, anything else as it is.
func (s *Session) nameOf(name string) string {
	if f, err := plan.ParseFeature(name); err == nil {
		return s.Name(f)
	}
	if t, ok := plan.Family(name).Traits(); ok {
		return t.Plural
	}
	return name
}

func (s *Session) names(fs []plan.Feature) string {
	var out []string
	for _, f := range fs {
		out = append(out, s.Name(f))
	}
	return strings.Join(out, ", ")
}

func planned(p plan.Plan) string {
	var out []string
	for _, g := range p.Families {
		out = append(out, fmt.Sprintf("%s at %d levels, %d directions", g.Family.Plural(), len(g.Levels), len(g.Directions)))
	}
	return strings.Join(out, "; ")
}

func settingOn(x gauge.Setting) string {
	if x.On == gauge.OnScale {
		return "its own scale"
	}
	return x.On + prefixed(" ", x.Feature) + prefixed(" ", writtenText(x))
}

func writtenText(x gauge.Setting) string {
	if x.Size.IsZero() {
		return ""
	}
	return x.Size.String()
}

func tellTemperatures(t gauge.Temperatures) string {
	text := ""
	for _, x := range [][2]string{{"part", t.Part}, {"gauge", t.Gauge}, {"master", t.Master}} {
		if x[1] != "" {
			text += ", " + x[0] + " at " + x[1] + " °C"
		}
	}
	return text
}

// because adds a reason, when there is one.
func because(why string) string { return prefixed(": ", why) }

// prefixed puts something before a text, unless there is no text.
func prefixed(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}
