package record

import (
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// Kind is what an event says happened.
type Kind string

// The kinds of events.
const (
	IsDetails    Kind = "details"
	IsLayout     Kind = "layout"
	IsPlan       Kind = "plan"
	IsLimit      Kind = "limit"
	IsRules      Kind = "rules"
	IsGiven      Kind = "given"
	IsTable      Kind = "table"
	IsInstrument Kind = "instrument"
	IsSetting    Kind = "setting"
	IsSet        Kind = "set"
	IsZero       Kind = "zero"
	IsReading    Kind = "reading"
	IsLeftOut    Kind = "left out"
	IsMoved      Kind = "moved"
	IsWithdrawn  Kind = "withdrawn"
	IsWork       Kind = "work"
	IsFitted     Kind = "fitted"
	IsIntended   Kind = "intended"
	IsSteps      Kind = "steps"
	IsDone       Kind = "done"
	IsStudy      Kind = "study"
	IsNote       Kind = "note"
	IsState      Kind = "state"
)

// Body is the part of an event that its kind gives a form.
type Body interface{ Is() Kind }

// Details says what is on the bench. It is always the first event.
type Details struct {
	UID      string      `json:"uid"`
	Title    string      `json:"title"`
	Customer string      `json:"customer,omitempty"`
	Engine   string      `json:"engine,omitempty"`
	Unit     length.Unit `json:"unit"`
	// Earlier is the uid of the session of the same engine before, Copied the
	// digest of the session this one was copied from, Ran what it ran between.
	Earlier string `json:"earlier,omitempty"`
	Copied  string `json:"copied,omitempty"`
	Ran     string `json:"ran,omitempty"`
}

// Layout sets the layout.
type Layout struct {
	plan.Layout
}

// Plan sets the plan.
type Plan struct {
	plan.Plan
}

// Limit sets the limits of one characteristic of a family or feature. In its
// stored bytes By is called "definition", because "by" is who wrote the event.
type Limit struct {
	limit.Limits
}

// How a session decides near a limit: by the figure alone, its doubt shown
// beside it, or by guard bands.
const (
	Simple  = "simple"
	Guarded = "guarded"
)

// Rules say how this session judges. Each one replaces those before.
type Rules struct {
	Unit        length.Unit       `json:"unit,omitempty"`
	Definitions map[string]string `json:"definitions,omitempty"`
	Clearance   limit.Definition  `json:"clearance,omitempty"`
	// Judge is the limits judged by where a limit does not say: new or wear.
	Judge string `json:"judge,omitempty"`
	// Decision is Simple or Guarded; Coverage the factor k, as decimal text.
	Decision string `json:"decision,omitempty"`
	Coverage string `json:"coverage,omitempty"`
	// Drift is how far a zero may wander, StaleHours how old it may be.
	Drift      length.Written `json:"drift,omitzero"`
	StaleHours int            `json:"stale_hours,omitempty"`
	// DriftSpread spreads the drift between two good zero checks over what was
	// read between them, by time, instead of counting it as doubt.
	DriftSpread bool `json:"drift_spread,omitempty"`
	// StaleWarm is by how many °C part or gauge may differ from when the gauge
	// was zeroed before its zero is checked, as decimal text.
	StaleWarm string `json:"stale_warm,omitempty"`
	// BlindRate is the share of places read again unseen, 0 to 1, as text.
	BlindRate string `json:"blind_rate,omitempty"`
}

// Given is a figure that is stated, not measured here: a stroke, a skirt
// height, a chamber volume, an expansion. Value is text with its unit.
type Given struct {
	Name   string `json:"name"`
	Of     string `json:"of,omitempty"`
	Value  string `json:"value"`
	Doubt  string `json:"doubt,omitempty"`
	Source string `json:"source,omitempty"`
}

// The names of tables.
const (
	Shells = "shells"
	Ladder = "ladder"
	Costs  = "costs"
	Locks  = "locks"
)

// Table is stock on hand or a ladder: Shells, Ladder, Costs or Locks.
type Table struct {
	Name   string              `json:"name"`
	Of     string              `json:"of,omitempty"`
	Rows   []map[string]string `json:"rows,omitempty"`
	Source string              `json:"source,omitempty"`
}

// Instrument copies an instrument into the session.
type Instrument struct {
	gauge.Instrument
}

// Setting records that an instrument was zeroed.
type Setting struct {
	gauge.Setting
}

// Set opens a set of readings or amends the one with its id.
type Set struct {
	gauge.Set
}

// Zero is a zero check: what the instrument read on its master, or that the
// check was skipped and why.
type Zero struct {
	Set       string         `json:"set"`
	Keyed     string         `json:"keyed,omitempty"`
	Deviation length.Written `json:"deviation,omitzero"`
	Skipped   bool           `json:"skipped,omitempty"`
	Why       string         `json:"why,omitempty"`
}

// How a reading joins its place's list.
const (
	First   = "first"
	Repeat  = "repeat"
	Replace = "replace"
)

// How a reading came in.
const (
	ViaKeypad = "keypad"
	ViaCable  = "cable"
	ViaFile   = "file"
)

// Reading is what was keyed at a place and what it was taken to mean at its
// border: a size, or a deviation from zero; never both.
type Reading struct {
	Of    plan.Feature `json:"of"`
	Level string       `json:"level"`
	Dir   string       `json:"dir"`
	Set   string       `json:"set,omitempty"`
	Keyed string       `json:"keyed"`
	Via   string       `json:"via"`
	// Size is a size read; Dev a deviation from zero, + larger.
	Size length.Written `json:"size,omitzero"`
	Dev  length.Written `json:"dev,omitzero"`
	// As is First, Repeat or Replace.
	As    string `json:"as"`
	Blind bool   `json:"blind,omitempty"`
	// Despite is the reason for which it was held before it was kept.
	Despite string `json:"despite,omitempty"`
}

// Place returns where the reading was taken.
func (r Reading) Place() plan.Place { return plan.Place{Of: r.Of, Level: r.Level, Dir: r.Dir} }

// LeftOut says that a place will not be read.
type LeftOut struct {
	Of    plan.Feature `json:"of"`
	Level string       `json:"level"`
	Dir   string       `json:"dir"`
	Why   string       `json:"why,omitempty"`
}

// Place returns the place left out.
func (l LeftOut) Place() plan.Place { return plan.Place{Of: l.Of, Level: l.Level, Dir: l.Dir} }

// Moved puts readings, by their event numbers, to other places.
type Moved struct {
	Readings []int64      `json:"readings"`
	Places   []plan.Place `json:"places"`
}

// Withdrawn takes an event back. Withdrawing a withdrawal brings it back.
type Withdrawn struct {
	Event int64  `json:"event"`
	Why   string `json:"why,omitempty"`
}

// Work is something done to features between readings. It closes a stage of
// what it changes.
type Work struct {
	Did string         `json:"did"`
	To  []plan.Feature `json:"to"`
	// Amount is text with its unit.
	Amount  string         `json:"amount,omitempty"`
	Changes []plan.Feature `json:"changes,omitempty"`
	// Metal says that metal was taken off or worked.
	Metal bool `json:"metal,omitempty"`
	// After is the number of the event it really followed, when keyed late.
	After int64  `json:"after,omitempty"`
	Note  string `json:"note,omitempty"`
}

// Fitted says where a loose part sits. In its stored bytes At is called "to",
// because "at" is when the event was.
type Fitted struct {
	Part plan.Feature `json:"part"`
	At   plan.Feature `json:"to"`
}

// Action is one thing that is meant to be done.
type Action struct {
	Did    string         `json:"did"`
	To     []plan.Feature `json:"to"`
	Amount string         `json:"amount,omitempty"`
}

// Intended is what the builder decided to do.
type Intended struct {
	Actions []Action `json:"actions,omitempty"`
}

// Steps set the prep list; an empty one takes it away.
type Steps struct {
	List prep.List `json:"list,omitempty"`
}

// Done ticks a step of the prep list, or part of one.
type Done struct {
	prep.Tick
}

// StudyRow is one value of a study.
type StudyRow struct {
	Operator string `json:"operator"`
	Part     string `json:"part"`
	Trial    int    `json:"trial"`
	Value    string `json:"value"`
}

// Study is a study of an instrument's repeatability.
type Study struct {
	Instrument string     `json:"instrument"`
	Method     string     `json:"method"`
	Rows       []StudyRow `json:"rows"`
}

// Note is a remark on a feature, an event or the session.
type Note struct {
	On   string `json:"on,omitempty"`
	Text string `json:"text"`
}

// The states of a session.
const (
	Closed   = "closed"
	Reopened = "reopened"
	Archived = "archived"
	Restored = "restored"
)

// State closes, reopens, archives or restores the session.
type State struct {
	State string `json:"state"`
}
