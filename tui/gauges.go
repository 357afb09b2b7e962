package tui

import (
	"cmp"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// gaugesScreen lists every instrument of a session with its settings, their
// zero checks and what of it is suspect.
type gaugesScreen struct {
	st   *Station
	desk *Desk
	// family is what the hand was reading: gauges are chosen for it.
	family plan.Family
	all    []engine.GaugeState
	n      int64 // events that all was made of
	list   list
	shop   shelved
	w, h   int
}

// gaugeRow is one line of the list: an instrument, or one of its settings.
type gaugeRow struct{ gauge, setting int } // setting is -1 for the instrument

// newGauges opens the gauges at the one in the hand for a family.
func newGauges(st *Station, d *Desk, f plan.Family) *gaugesScreen {
	s := &gaugesScreen{st: st, desk: d, family: f, n: -1, shop: newShelved(st)}
	if h, err := d.Session.Hand(f); err == nil {
		s.mark(h.Instrument.ID)
	}
	return s
}

// gaugesKey is the key that opens the gauges.
func (st *Station) gaugesKey(d *Desk, f func() plan.Family) Action {
	return quiet(on("g", "gauges", func() tea.Cmd {
		st.Push(newGauges(st, d, f()))
		return nil
	})).because("every gauge with its settings and zero checks: choose one, zero it anew, correct a setting, say the part's condition and temperatures")
}

// Init reads what the shop has.
func (s *gaugesScreen) Init() tea.Cmd { return s.st.loadShop() }

// Update takes in what the shop has, and takes up what was copied from it. The
// rows are made anew when something happened.
func (s *gaugesScreen) Update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case answer[engine.Shop]:
		s.shop.take(msg)
	case fetched:
		s.mark(msg.id)
		if s.family != "" {
			return s.choose()
		}
	}
	return nil
}

// mark marks an instrument.
func (s *gaugesScreen) mark(id string) {
	rows := s.rows()
	s.list.at = max(0, slices.IndexFunc(rows, func(r gaugeRow) bool { return r.setting < 0 && s.all[r.gauge].ID == id }))
}

// Resize sets the size of the body.
func (s *gaugesScreen) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *gaugesScreen) Title() string { return "gauges of " + s.desk.Title() }

// Typing takes no characters.
func (s *gaugesScreen) Typing() Typing { return NotTyping }

// gauges are the instruments, made anew when something happened.
func (s *gaugesScreen) gauges() []engine.GaugeState {
	if n := s.desk.Session.Head().N; n != s.n {
		s.all, s.n = s.desk.Session.Gauges(), n
	}
	return s.all
}

// rows are the lines of the list.
func (s *gaugesScreen) rows() []gaugeRow {
	var out []gaugeRow
	for i, g := range s.gauges() {
		out = append(out, gaugeRow{i, -1})
		for k := range g.Settings {
			out = append(out, gaugeRow{i, k})
		}
	}
	return out
}

// marked is the instrument of the marked line, and its setting: the marked one,
// or its newest; has is false where it has none.
func (s *gaugesScreen) marked() (g engine.GaugeState, x engine.SettingState, has bool) {
	rows := s.rows()
	if len(rows) == 0 {
		return g, x, false
	}
	r := rows[min(s.list.at, len(rows)-1)]
	g = s.all[r.gauge]
	k := r.setting
	if k < 0 {
		k = len(g.Settings) - 1
	}
	if k < 0 {
		return g, x, false
	}
	return g, g.Settings[k], true
}

// Actions are its keys.
func (s *gaugesScreen) Actions() []Action {
	none, unset := "", ""
	g, _, has := s.marked()
	if len(s.rows()) == 0 {
		none = "no gauge is set up: a adds one, t takes one from the shop"
	}
	if unset = none; unset == "" && !has {
		unset = g.Name + " has no setting yet"
	}
	family := ""
	if none == "" && s.family == "" {
		family = "nothing is planned"
	}
	return []Action{
		on("enter", "use for "+s.plural(), s.choose).unless(none + family).
			because("takes the marked gauge up for what the hand is reading, with the setting that it has"),
		on("n", "new zero", s.zero).unless(none).
			because("a ring, blocks, a micrometer at a size, or the measured part itself: then the dial reads clearance"),
		on("c", "correct", s.correct).unless(unset).
			because("puts right what a setting was made on; everything read from it is read again"),
		on("o", "condition", s.condition).unless(unset).
			because("deck plate, caps and torque, fastener, lubricant, oil, and the temperatures of part and gauge"),
		on("e", "edit", s.edit).unless(none).
			because("its scale, range, contacts, needle, cable, material and when its calibration is due"),
		on("a", "add", s.add).because("a gauge that the shop does not have yet; it is kept there too"),
		on("t", "shop", s.fromShop).unless(s.shop.off).
			because("the gauges that the shop has; one is copied into this session"),
		on("k", "keep in shop", s.intoShop).unless(cmp.Or(none, s.shop.off)).
			because("keeps the marked gauge, and how well it repeats, for the sessions to come"),
		on("p", "prove needle", s.prove).unless(s.noProof(g, none)).
			because("once with a known step: which way the needle goes, and that its marks are what they are said to be"),
		on("x", "expansion", s.expansion).unless(family).
			because("what the parts being read are made of, so that sizes are brought to 20 °C"),
		on("r", "rules", func() tea.Cmd {
			s.st.Push(newRulesForm(s.st, s.desk))
			return nil
		}).because("how far a zero may wander and how long it holds, blind repeats, guard bands"),
		quiet(on("up|-", "up", func() tea.Cmd { return s.move(-1) })),
		quiet(on("down|+", "down", func() tea.Cmd { return s.move(1) })),
		s.st.unitKey(s.desk),
	}
}

func (s *gaugesScreen) plural() string {
	if s.family == "" {
		return "nothing"
	}
	return s.family.Plural()
}

func (s *gaugesScreen) move(by int) tea.Cmd {
	s.list.move(by, len(s.rows()))
	return nil
}

// choose takes the marked gauge up for the family in the hand. One that has no
// setting for it is zeroed first.
func (s *gaugesScreen) choose() tea.Cmd {
	g, _, _ := s.marked()
	h, err := s.desk.Session.HandWith(s.family, g.ID)
	if bodies := choosing(s.desk.Session, s.family, g.ID); len(bodies) > 0 {
		if err := s.desk.Record(bodies...); err != nil {
			s.st.Say(draw.Bad, err.Error())
			s.st.Ring(2)
			return nil
		}
	}
	if err != nil {
		s.st.Say(draw.Warn, err.Error()+": zero it now")
		return s.zero()
	}
	if g.PastDue(s.st.look()) {
		s.st.Say(draw.Warn, "calibration was due "+g.Due+": "+g.Name+" is in the hand all the same")
		return nil
	}
	s.st.Say(draw.Plain, g.Name+" is in the hand for "+s.plural()+", as zeroed on "+masterWords(s.desk.Session, h.Setting))
	return nil
}

// fromShop lists what the shop has.
func (s *gaugesScreen) fromShop() tea.Cmd {
	s.st.Push(&shopScreen{st: s.st, desk: s.desk, shop: &s.shop})
	return nil
}

// intoShop keeps the marked gauge in the shop, with what was learned of it.
func (s *gaugesScreen) intoShop() tea.Cmd {
	g, _, _ := s.marked()
	if err := s.shop.keep(s.desk.Session.Learned(g.Instrument), g.Name); err != nil {
		s.st.Say(draw.Bad, err.Error())
		s.st.Ring(2)
		return nil
	}
	s.st.Say(draw.Good, g.Name+" is kept in the shop, as it is now")
	return nil
}

// add makes a gauge that the shop does not have yet.
func (s *gaugesScreen) add() tea.Cmd {
	u := s.desk.Session.Unit()
	i := s.desk.Session.Copying(gauge.Instrument{ID: "gauge", Kind: gauge.Comparator, Unit: u})
	s.st.Push(newInstrumentForm(s.st, s.desk, &s.shop, i, true))
	return nil
}

// prove leads through proving the needle of the marked gauge.
func (s *gaugesScreen) prove() tea.Cmd {
	g, _, _ := s.marked()
	s.st.Push(newProofForm(s.st, s.desk, &s.shop, g.Instrument))
	return nil
}

// noProof says why there is nothing to be proved, or "".
func (s *gaugesScreen) noProof(g engine.GaugeState, none string) string {
	switch {
	case none != "":
		return none
	case g.Kind != gauge.Comparator:
		return g.Name + " has no needle that counts from a zero"
	default:
		return ""
	}
}

// zero makes a new setting of the marked gauge.
func (s *gaugesScreen) zero() tea.Cmd {
	g, _, _ := s.marked()
	s.st.Push(newSettingForm(s.st, s.desk, g.Instrument, freshSetting(s.desk.Session, g.Instrument), true))
	return nil
}

// correct edits the marked setting.
func (s *gaugesScreen) correct() tea.Cmd {
	g, x, _ := s.marked()
	s.st.Push(newSettingForm(s.st, s.desk, g.Instrument, x.Setting, false))
	return nil
}

// condition opens a set on the marked setting.
func (s *gaugesScreen) condition() tea.Cmd {
	g, x, _ := s.marked()
	set := gauge.Set{ID: freshID("t", len(s.desk.Session.Sets())), Setting: x.ID}
	if n := len(x.Sets); n > 0 {
		set = x.Sets[n-1]
	}
	s.st.Push(newSetForm(s.st, s.desk, g.Instrument, set))
	return nil
}

func (s *gaugesScreen) edit() tea.Cmd {
	g, _, _ := s.marked()
	s.st.Push(newInstrumentForm(s.st, s.desk, &s.shop, g.Instrument, false))
	return nil
}

func (s *gaugesScreen) expansion() tea.Cmd {
	s.st.Push(newExpansionForm(s.st, s.desk, s.family))
	return nil
}
