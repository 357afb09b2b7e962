package engine

import (
	"fmt"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Hand is the gauge in the hand: the instrument chosen for a family, and its
// newest setting and set.
type Hand struct {
	Instrument gauge.Instrument
	Setting    gauge.Setting
	Set        gauge.Set
}

// Hand returns what a family is read with. The error says what is missing
// before a reading can be taken.
func (s *Session) Hand(f plan.Family) (Hand, error) {
	g, ok := s.plan.Group(f)
	if !ok {
		return Hand{}, fmt.Errorf("%s are not in the plan", f.Plural())
	}
	if g.Instrument == "" {
		return Hand{}, fmt.Errorf("no gauge is chosen for %s", f.Plural())
	}
	return s.HandWith(f, g.Instrument)
}

// HandWith returns what a family would be read with if an instrument were
// chosen for it. The error says what is missing, as Hand's does.
func (s *Session) HandWith(f plan.Family, instrument string) (Hand, error) {
	var h Hand
	g, ok := s.plan.Group(f)
	if !ok {
		return h, fmt.Errorf("%s are not in the plan", f.Plural())
	}
	if h.Instrument, ok = s.Instrument(instrument); !ok {
		return h, fmt.Errorf("the gauge %q chosen for %s is not in this session", instrument, f.Plural())
	}
	for _, set := range s.sets {
		if x, _ := s.Setting(set.Setting); x.Instrument == h.Instrument.ID {
			h.Set, h.Setting = set, x
		}
	}
	if h.Set.ID == "" {
		return h, fmt.Errorf("%s has no setting yet", h.Instrument.Name)
	}
	return h, h.reaches(g)
}

// reach is how far from its master a comparator is believed to read: common
// practice, no source.
const reach = 25 * length.Millimetre / 10

// reaches says when the gauge was last zeroed on a master of another size, as
// when one gauge serves bores and bearings.
func (h Hand) reaches(g plan.Group) error {
	x := h.Setting.Size
	if h.Instrument.Kind != gauge.Comparator || x.IsZero() || g.Nominal.IsZero() {
		return nil
	}
	if d := x.Length - g.Nominal.Length; d > reach || d < -reach {
		return fmt.Errorf("%s was last zeroed on %s, too far from the %s nominal of %s", h.Instrument.Name, x, g.Nominal, g.Family.Plural())
	}
	return nil
}

// SetUsed reports whether anything was read in a set, live or not.
func (s *Session) SetUsed(id string) bool {
	for _, e := range s.events {
		if r, ok := e.Body.(record.Reading); ok && r.Set == id {
			return true
		}
	}
	return false
}

// Reads returns what a text keyed at a place is read against. The error is
// Hand's.
func (s *Session) Reads(p plan.Place) (gauge.Context, error) {
	h, err := s.Hand(p.Of.Family)
	if err != nil {
		return gauge.Context{}, err
	}
	g, _ := s.plan.Group(p.Of.Family)
	c := gauge.Context{
		Instrument: h.Instrument,
		Zero:       s.zeroSize(h.Setting.ID).Round(),
		HasZero:    s.zeroSize(h.Setting.ID).Measured(),
		Nominal:    g.Nominal,
		Ladder:     s.ladder(p.Of.Family),
		FullSeen:   s.full[h.Set.ID],
		Neighbours: s.neighbours(p),
		Like:       s.sisters(p),
		Shape:      p.Of.Family.Shape(),
	}
	t, _ := p.Of.Family.Traits()
	c.Signed = t.Signed
	if l, ok := limit.Find(s.limits, limit.Size, p.Of); ok {
		c.Low, c.High = bounds(l.Effective().New)
	}
	return c, nil
}

func bounds(r limit.Range) (low, high *length.Length) {
	if !r.Low.IsZero() {
		low = &r.Low.Length
	}
	if !r.High.IsZero() {
		high = &r.High.Length
	}
	return low, high
}

// neighbours returns the figures of the feature's other places at its present
// stage, those at the place's own level first.
func (s *Session) neighbours(p plan.Place) []length.Exact {
	var near, far []length.Exact
	for q := range s.plan.Each(p.Of) {
		x := s.Figure(q, s.Stage(p.Of))
		switch {
		case !x.Measured():
		case q.Level == p.Level:
			near = append(near, x)
		default:
			far = append(far, x)
		}
	}
	return append(near, far...)
}

// sisters returns the figures of the same place of the family's other features.
func (s *Session) sisters(p plan.Place) []length.Exact {
	var out []length.Exact
	for _, f := range s.plan.Features(s.layout) {
		if f.Family != p.Of.Family || f == p.Of {
			continue
		}
		q := p
		q.Of = f
		if x := s.Figure(q, s.Stage(f)); x.Measured() {
			out = append(out, x)
		}
	}
	return out
}

// ladder returns the sizes a family may also have, from its ladder table.
func (s *Session) ladder(f plan.Family) []length.Length {
	g, _ := s.plan.Group(f)
	var out []length.Length
	for _, row := range s.tables[tableKey{"ladder", string(f)}].Rows {
		if step, err := length.Parse(row["step"], g.Nominal.Unit); err == nil {
			out = append(out, g.Nominal.Length+step.Length)
		}
	}
	return out
}
