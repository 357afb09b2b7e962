package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// take records a reading at the place and goes on to the next one.
func (m *measure) take(e keying.Take) {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		m.refuse(err.Error())
		return
	}
	r := record.Reading{
		Of: m.place.Of, Level: m.place.Level, Dir: m.place.Dir, Set: h.Set.ID, Keyed: e.Text, Via: record.ViaKeypad,
		Size: e.Result.Meaning.Size, Dev: e.Result.Meaning.Dev, As: string(e.As), Despite: e.Despite,
	}
	if e.Cable && h.Instrument.Sends != "" {
		r.Via = record.ViaCable
	}
	if m.blind() {
		r.As, r.Blind = record.Repeat, true
	}
	open := m.open()
	if !m.record(r) {
		return
	}
	m.st.Hush()
	m.awaiting = append(m.awaiting, m.desk.Session.Head().N)
	if r.Blind {
		m.endBlind()
		return
	}
	m.justTaken = m.place
	if led := !m.returnTo.IsZero() || len(m.again) > 0 || m.clearing; open && !led && !m.open() {
		m.allRead()
	} else {
		m.goOn()
	}
	m.ledTo = m.place
	m.wonder(r.Of)
}

// open reports whether a place of the plan is neither read nor left out.
func (m *measure) open() bool {
	settled, planned := m.desk.progress()
	return settled < planned
}

// everyPlace says that nothing of the plan is left to be read, and what then.
const everyPlace = "every place is read or left out: w shows what is worst, e writes the sheet"

// allRead stays where the last reading of all was taken: a number keyed by habit
// would replace what stands at the first place.
func (m *measure) allRead() {
	m.move(m.place)
	m.st.Say(draw.Good, everyPlace)
}

// move goes to a place, and leaves what was to be read again. With another
// family comes another gauge, whose zero may be too old.
func (m *measure) move(p plan.Place) {
	other := p.Of.Family != m.place.Of.Family
	m.place, m.returnTo, m.again, m.clearing, m.blindFrom = p, plan.Place{}, nil, false, plan.Place{}
	if other {
		m.askStale(m.st.look())
	}
}

// record takes what happened to the desk, or says why it is refused.
func (m *measure) record(bodies ...record.Body) bool {
	if err := m.desk.Record(bodies...); err != nil {
		m.refuse(err.Error())
		return false
	}
	return true
}

func (m *measure) refuse(why string) {
	m.st.Say(draw.Warn, why)
	m.st.Ring(2)
}

// repeatLast goes back to the place just taken to add a repeat to it.
func (m *measure) repeatLast() {
	here, again, clearing := m.place, m.again, m.clearing
	m.move(m.justTaken)
	m.returnTo, m.again, m.clearing = here, again, clearing
}

func (m *measure) leaveOut() {
	if m.blind() {
		m.endBlind()
		return
	}
	p, open := m.place, m.open()
	switch {
	case !m.record(record.LeftOut{Of: p.Of, Level: p.Level, Dir: p.Dir}):
	case open && !m.open():
		m.allRead()
	default:
		m.st.Say(draw.Plain, m.desk.Session.PlaceName(p)+" is left out")
		m.move(m.desk.Session.Next(p))
	}
}

// withdraw takes back the last thing done and goes to where it happened.
func (m *measure) withdraw() {
	n := m.desk.Session.LastAct()
	if n == 0 {
		m.refuse("there is nothing to withdraw")
		return
	}
	e := m.desk.Session.Events()[n-1]
	if !m.record(record.Withdrawn{Event: n}) {
		return
	}
	m.st.Say(draw.Plain, m.desk.Session.Log()[m.desk.Session.Head().N-1].Text)
	if p := engine.PlaceOf(e.Body); !p.IsZero() {
		m.move(p)
	}
}

// goTo takes what the bench calls a feature of this family, or, with a point,
// first the family by its number in the plan: 3.2.
func (m *measure) goTo(text string) {
	s := m.desk.Session
	family, label := m.place.Of.Family, text
	f, ok := labelled(s.Layout(), family, label)
	if group, rest, pointed := strings.Cut(strings.ReplaceAll(text, ",", "."), "."); pointed && !ok {
		n, err := strconv.Atoi(group)
		if err != nil || n < 1 || n > len(s.Plan().Families) {
			m.refuse(fmt.Sprintf("the plan has families 1 to %d, not %s", len(s.Plan().Families), group))
			return
		}
		family, label = s.Plan().Families[n-1].Family, rest
		f, ok = labelled(s.Layout(), family, label)
	}
	if !ok {
		m.refuse(fmt.Sprintf("there is no %s %s", family.Noun(), label))
		return
	}
	m.move(s.Enter(f))
}

// zeroCheck records what the gauge reads on its master.
func (m *measure) zeroCheck(text string, r gauge.Result) {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		m.refuse(err.Error())
		return
	}
	if !m.record(record.Zero{Set: h.Set.ID, Keyed: text, Deviation: r.Meaning.Dev}) {
		return
	}
	m.st.Say(draw.Plain, "zero check: "+h.Instrument.Name+" reads "+text+" on its master")
	if m.desk.Session.Doubtful(h.Setting.ID) {
		m.askRezero(h)
	}
}

// temperature amends the open set with a temperature.
func (m *measure) temperature(text string, put func(*gauge.Temperatures, string)) bool {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		m.refuse(err.Error())
		return false
	}
	set := h.Set
	if before := set.At; m.desk.Session.SetUsed(set.ID) && !before.IsZero() {
		// What was read at other temperatures keeps them: this opens a new set.
		set.ID, set.At = freshID("t", len(m.desk.Session.Sets())), gauge.Temperatures{Doubt: before.Doubt}
	}
	put(&set.At, text)
	return m.record(record.Set{Set: set})
}

// works are what the menu's "work done here" offers, by number.
var works = []struct {
	did   string
	metal bool
}{
	{"honed", true}, {"ground", true}, {"polished", true}, {"deburred", true}, {"shell changed", false},
}

func (m *measure) work(text string) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > len(works) {
		m.refuse(fmt.Sprintf("work is a number from 1 to %d, not %s", len(works), text))
		return
	}
	w := works[n-1]
	fs := []plan.Feature{m.place.Of}
	if m.record(record.Work{Did: w.did, To: fs, Changes: fs, Metal: w.metal}) {
		m.st.Say(draw.Plain, m.desk.Session.Name(m.place.Of)+" "+w.did+": what was read before is as found now")
		m.move(m.desk.Session.Enter(m.place.Of))
	}
}

// takeUp takes up an instrument for the family with the setting that it has;
// ok is false where it has none for this family, or is in the hand already.
func (m *measure) takeUp(i gauge.Instrument) (ok bool) {
	f := m.place.Of.Family
	if h, err := m.desk.Session.Hand(f); err == nil && h.Instrument.ID == i.ID {
		return false
	}
	h, err := m.desk.Session.HandWith(f, i.ID)
	if err != nil || !m.record(m.withGauge(i)...) {
		return false
	}
	m.st.Say(draw.Plain, i.Name+" is in the hand for "+f.Plural()+", as zeroed on "+masterWords(m.desk.Session, h.Setting)+"; /5 again zeroes it anew")
	if m.desk.Session.Doubtful(h.Setting.ID) {
		m.askRezero(h)
	}
	return true
}

// withGauge is the plan with an instrument chosen for the family in the hand,
// or nothing where it is chosen already.
func (m *measure) withGauge(i gauge.Instrument) []record.Body {
	return choosing(m.desk.Session, m.place.Of.Family, i.ID)
}

// choosing is the plan with an instrument chosen for a family, or nothing where
// it is chosen already.
func choosing(s *engine.Session, f plan.Family, instrument string) []record.Body {
	p := s.Plan()
	p.Families = slices.Clone(p.Families)
	k := slices.IndexFunc(p.Families, func(g plan.Group) bool { return g.Family == f })
	if k < 0 || p.Families[k].Instrument == instrument {
		return nil
	}
	p.Families[k].Instrument = instrument
	return []record.Body{record.Plan{Plan: p}}
}

// chooseGauge takes up an instrument for the family, zeroed anew; size is the
// master's for a comparator.
func (m *measure) chooseGauge(i gauge.Instrument, size length.Written) {
	s := m.desk.Session
	x := gauge.Setting{ID: freshID("s", len(s.Settings())), Instrument: i.ID, On: gauge.OnScale}
	if i.Kind == gauge.Comparator {
		x.On, x.Size = gauge.OnRing, size
	}
	bodies := append(m.withGauge(i), record.Setting{Setting: x}, record.Set{Set: gauge.Set{ID: freshID("t", len(s.Sets())), Setting: x.ID}})
	if m.record(bodies...) {
		m.st.Say(draw.Plain, i.Name+" is in the hand for "+m.place.Of.Family.Plural())
	}
}

func freshID(prefix string, have int) string { return prefix + strconv.Itoa(have+1) }
