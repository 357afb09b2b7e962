package engine

import (
	"fmt"
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// state is what the live events add up to.
type state struct {
	events      []record.Sealed // all there are, also those not folded in
	details     record.Details
	layout      plan.Layout
	plan        plan.Plan
	rules       record.Rules
	limits      []limit.Limits
	instruments []gauge.Instrument
	settings    []gauge.Setting
	sets        []gauge.Set
	zeros       []zeroCheck
	zeroings    map[string]zeroing
	spots       map[plan.Place]*spot
	works       map[plan.Feature][]workMark
	lastPlace   plan.Place // of the last reading or place left out
	tables      map[tableKey]record.Table
	givens      map[givenKey]record.Given
	fitted      map[plan.Feature]seated
	intended    []intendedMark
	full        map[string]bool // sets in which a size was read in full
	lifecycle   string
	closed      bool
	moved       map[int64]plan.Place // where each reading that was moved stands now
	prep        prepared
}

// tableKey names a table: what it is and what it is of.
type tableKey struct{ name, of string }

// givenKey names a given figure: what it is and what it is of.
type givenKey struct{ name, of string }

func (st *state) setGiven(g record.Given) {
	if st.givens == nil {
		st.givens = map[givenKey]record.Given{}
	}
	st.givens[givenKey{g.Name, g.Of}] = g
}

func (st *state) setTable(t record.Table) {
	if st.tables == nil {
		st.tables = map[tableKey]record.Table{}
	}
	st.tables[tableKey{t.Name, t.Of}] = t
}

// zeroCheck is a zero check and the event that recorded it.
type zeroCheck struct {
	n int64
	record.Zero
}

// apply folds one live event in. On an error nothing has changed.
func (st *state) apply(e record.Sealed) error {
	switch b := e.Body.(type) {
	case record.Details:
		return st.setDetails(e.N, b)
	case record.Layout:
		return st.setLayout(b.Layout)
	case record.Plan:
		return st.setPlan(b.Plan)
	case record.Limit:
		st.limits = replace(st.limits, b.Limits, limit.Limits.Same)
	case record.Rules:
		st.rules = b
	case record.Table:
		st.setTable(b)
	case record.Intended:
		st.intend(e.N, b)
	case record.Given:
		st.setGiven(b)
	case record.Instrument:
		st.instruments = replace(st.instruments, b.Instrument, func(a, b gauge.Instrument) bool { return a.ID == b.ID })
	case record.Setting:
		return st.setSetting(e.N, b.Setting)
	case record.Set:
		return st.setSet(b.Set)
	case record.Zero:
		return st.addZero(e.N, b)
	case record.Reading:
		return st.addReading(e, b)
	case record.LeftOut:
		return st.leaveOut(e.N, b)
	case record.Moved:
		return st.move(b)
	case record.Fitted:
		return st.setFitted(e.N, b)
	case record.Work:
		return st.addWork(e.Event, b)
	case record.Steps:
		st.prep.take(e.Event)
	case record.Done:
		return st.setDone(e.Event, b)
	case record.State:
		st.setLifecycle(b.State)
	}
	return nil
}

// setLifecycle folds in what became of the session. One that is put into the
// archive, or taken out of it, stays as closed or open as it was.
func (st *state) setLifecycle(to string) {
	st.lifecycle = to
	switch to {
	case record.Closed, record.Reopened:
		st.closed = to == record.Closed
	}
}

// replace replaces the item that is the same as x, in its place, or adds x. No item
// of the slice is changed, so that earlier readers keep theirs.
func replace[T any](list []T, x T, same func(a, b T) bool) []T {
	for i := range list {
		if same(list[i], x) {
			out := slices.Clone(list)
			out[i] = x
			return out
		}
	}
	return append(list, x)
}

func (st *state) setDetails(n int64, d record.Details) error {
	if n > 1 && d.UID != st.details.UID {
		return fmt.Errorf("uid %q is not this session's %q", d.UID, st.details.UID)
	}
	st.details = d
	return nil
}

func (st *state) setLayout(l plan.Layout) error {
	l = l.Filled()
	if err := l.Validate(); err != nil {
		return err
	}
	for place := range st.spots {
		if err := l.Has(place.Of); err != nil {
			return err
		}
	}
	st.layout = l
	return nil
}

func (st *state) setPlan(p plan.Plan) error {
	if err := p.Validate(); err != nil {
		return err
	}
	if st.layout.Form == "" {
		return fmt.Errorf("the plan comes before the layout")
	}
	st.plan = p
	return nil
}

// inPlan says why a place is not one of the plan's, or nil.
func (st *state) inPlan(p plan.Place) error {
	if err := st.layout.Has(p.Of); err != nil {
		return err
	}
	g, ok := st.plan.Group(p.Of.Family)
	if !ok {
		return fmt.Errorf("%s: %s are not in the plan", p.Of, p.Of.Family.Plural())
	}
	if _, ok := g.Level(p.Level); !ok {
		return fmt.Errorf("%s: the plan has no level %q", p.Of, p.Level)
	}
	for _, d := range g.Directions {
		if d == p.Dir {
			return nil
		}
	}
	return fmt.Errorf("%s: the plan has no direction %q", p.Of, p.Dir)
}

func (st *state) setSetting(n int64, x gauge.Setting) error {
	if _, ok := st.Instrument(x.Instrument); !ok {
		return fmt.Errorf("setting %q: no instrument %q", x.ID, x.Instrument)
	}
	st.settings = replace(st.settings, x, func(a, b gauge.Setting) bool { return a.ID == b.ID })
	st.zeroed(x.ID, n)
	return nil
}

func (st *state) setSet(x gauge.Set) error {
	if _, ok := st.Setting(x.Setting); !ok {
		return fmt.Errorf("set %q: no setting %q", x.ID, x.Setting)
	}
	st.sets = replace(st.sets, x, func(a, b gauge.Set) bool { return a.ID == b.ID })
	return nil
}

func (st *state) addZero(n int64, z record.Zero) error {
	set, ok := st.Set(z.Set)
	if !ok {
		return fmt.Errorf("zero check: no set %q", z.Set)
	}
	st.zeros = append(st.zeros[:len(st.zeros):len(st.zeros)], zeroCheck{n, z})
	if !z.Skipped {
		st.checked(set, n, z.Deviation.Length)
	}
	return nil
}

// entry returns the first of a list that is what is looked for, where it stands;
// nil when there is none.
func entry[T any](list []T, is func(*T) bool) *T {
	for i := range list {
		if is(&list[i]) {
			return &list[i]
		}
	}
	return nil
}

// find returns a copy of it.
func find[T any](list []T, is func(*T) bool) (x T, ok bool) {
	if p := entry(list, is); p != nil {
		return *p, true
	}
	return x, false
}

// entryOr is entry with an empty one where there is none.
func entryOr[T any](list []T, is func(*T) bool) *T {
	if p := entry(list, is); p != nil {
		return p
	}
	return new(T)
}

// setOf returns the set of that id, or an empty one; it is not to be changed. To
// hand copies out took a tenth of a full assessment.
func (st *state) setOf(id string) *gauge.Set {
	return entryOr(st.sets, func(x *gauge.Set) bool { return x.ID == id })
}

// setting returns the setting of that id, or an empty one.
func (st *state) setting(id string) *gauge.Setting {
	return entryOr(st.settings, func(x *gauge.Setting) bool { return x.ID == id })
}

// settingOf returns the setting of the set of that id, or an empty one.
func (st *state) settingOf(set string) *gauge.Setting { return st.setting(st.setOf(set).Setting) }

// instrumentOf returns what the set of that id is read with, or an empty one.
func (st *state) instrumentOf(set string) *gauge.Instrument {
	id := st.settingOf(set).Instrument
	return entryOr(st.instruments, func(x *gauge.Instrument) bool { return x.ID == id })
}

func (st *state) Instrument(id string) (gauge.Instrument, bool) {
	return find(st.instruments, func(x *gauge.Instrument) bool { return x.ID == id })
}

func (st *state) Setting(id string) (gauge.Setting, bool) {
	return find(st.settings, func(x *gauge.Setting) bool { return x.ID == id })
}

func (st *state) Set(id string) (gauge.Set, bool) {
	return find(st.sets, func(x *gauge.Set) bool { return x.ID == id })
}
