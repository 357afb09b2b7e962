package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// askRezero is the question that follows a bad zero check: nothing that is read
// before the gauge is zeroed anew would be believed.
const askRezero = "zeroed anew"

// askRezero says what a bad zero check puts in doubt and asks for a new zero.
func (m *measure) askRezero(h engine.Hand) {
	n := m.desk.Session.SuspectReadings(h.Setting.ID)
	m.st.Say(draw.Warn, fmt.Sprintf("bad zero: %s since the last good one %s suspect; a measures again",
		counted(n, "reading", "readings"), plural2(n, "is", "are")))
	m.st.Ring(2)
	m.keys = keying.Ask(m.keys, keying.Asking{
		What:  askRezero,
		Title: h.Instrument.Name + " lost its zero: " + counted(n, "reading is", "readings are") + " suspect. Set it to zero on " + masterWords(m.desk.Session, h.Setting) + " again, then:",
		Options: []string{
			"zeroed anew: measure again what is suspect",
			"zeroed anew: go on here, measure again later",
		},
	})
}

// counted is a number with its word.
func counted(n int, one, many string) string { return fmt.Sprintf("%d %s", n, plural2(n, one, many)) }

func plural2(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// settleRezero records the new zero, and begins to measure again.
func (m *measure) settleRezero(text string) {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		m.refuse(err.Error())
		return
	}
	if !m.record(newZero(m.desk.Session, h)...) {
		return
	}
	m.st.Say(draw.Plain, h.Instrument.Name+" is zeroed anew on "+masterWords(m.desk.Session, h.Setting))
	if text == "1" {
		m.clearDoubt()
	}
}

// newZero is the gauge in the hand zeroed anew on the same master, for a set in
// the same condition. Temperatures are not carried over: they are another
// moment's.
func newZero(s *engine.Session, h engine.Hand) []record.Body {
	x, set := h.Setting, h.Set
	x.ID, x.At = freshID("s", len(s.Settings())), gauge.Temperatures{}
	set.ID, set.Setting, set.At = freshID("t", len(s.Sets())), x.ID, gauge.Temperatures{}
	return []record.Body{record.Setting{Setting: x}, record.Set{Set: set}}
}

// masterWords names what a setting is zeroed on.
func masterWords(s *engine.Session, x gauge.Setting) string {
	switch x.On {
	case gauge.OnFeature:
		return s.NameOf(x.Feature)
	case gauge.OnScale:
		return "its own scale"
	case gauge.OnBlocks:
		return "the blocks of " + x.Size.String()
	case gauge.OnMicrometer:
		return "the micrometer at " + x.Size.String()
	default:
		return "the ring of " + x.Size.String()
	}
}

// doubtKeys are the letters for the gauges and for what is in doubt.
func (m *measure) doubtKeys() []Action {
	none := ""
	if len(m.desk.Session.MeasureAgain()) == 0 {
		none = "no reading is suspect"
	}
	return append(m.chainKeys(),
		m.st.gaugesKey(m.desk, func() plan.Family { return m.place.Of.Family }),
		quiet(on("a", "measure again", func() tea.Cmd {
			m.clearDoubt()
			return nil
		}).unless(none)).because("takes the hand through every place whose reading is suspect, one by one, until the doubt is gone"),
	)
}

// clearDoubt leads the hand to the first place that is in doubt.
func (m *measure) clearDoubt() {
	all := m.desk.Session.MeasureAgain()
	if len(all) == 0 {
		m.refuse("no reading is suspect: there is nothing to measure again")
		return
	}
	m.toDoubted(all, all[0])
}

// clearNext leads on to the next place that is in doubt behind this one, else
// to the first, until nothing is.
func (m *measure) clearNext() {
	s := m.desk.Session
	all := s.MeasureAgain()
	if len(all) == 0 {
		m.move(s.Next(m.place))
		m.st.Say(draw.Good, "the doubt is gone: every suspect reading is measured again")
		return
	}
	m.toDoubted(all, behind(s.Places(), all, m.place))
}

// behind returns the first of some places that comes after one, else the first.
func behind(order, some []plan.Place, after plan.Place) plan.Place {
	at := slices.Index(order, after)
	for _, p := range some {
		if slices.Index(order, p) > at {
			return p
		}
	}
	return some[0]
}

// toDoubted goes to a place that is in doubt. While its gauge's zero is bad it
// first asks for a new one.
func (m *measure) toDoubted(all []plan.Place, p plan.Place) {
	m.move(p)
	m.clearing = true
	h, err := m.desk.Session.Hand(p.Of.Family)
	if err == nil && m.desk.Session.Doubtful(h.Setting.ID) {
		m.askRezero(h)
		return
	}
	m.st.Say(draw.Marked, fmt.Sprintf("measuring again: %d suspect; a new number replaces what stands here", len(all)))
}

// suspectAt reports whether what stands at a place is in doubt.
func (m *measure) suspectAt(p plan.Place) bool {
	return slices.ContainsFunc(m.desk.Session.Now(p), m.desk.Session.Drifted)
}

// levelID is the id of a level of the feature in the hand, by its place in the
// plan.
func (m *measure) levelID(i int) string {
	g, _ := m.desk.Session.Plan().Group(m.place.Of.Family)
	if i < 0 || i >= len(g.Levels) {
		return ""
	}
	return g.Levels[i].ID
}
