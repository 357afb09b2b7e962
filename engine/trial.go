package engine

import (
	"fmt"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Trial returns the session as it would be with the changes made one after
// another and everything they touch measured again at what is predicted, and
// its assessment. The session itself is as it was: nothing is an event until
// it happened. The error names the change that cannot be made.
func (s *Session) Trial(changes ...Change) (*Session, *Assessment, error) {
	trial, err := Replay(s.events)
	if err != nil {
		return nil, nil, err
	}
	for _, c := range changes {
		if err := trial.make(c); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", s.Tell(c), err)
		}
	}
	return trial, Assess(trial), nil
}

// make makes a change in the session.
func (s *Session) make(c Change) error {
	bodies, err := s.Predict(c)
	if err != nil {
		return err
	}
	for _, b := range bodies {
		if err := (record.Event{At: time.Unix(0, 0).UTC(), Body: b}).Validate(); err != nil {
			return err
		}
		n := s.Head().N + 1
		if _, err := s.Apply(record.Sealed{Event: record.Event{N: n, Body: b}, Head: record.Head{N: n}}); err != nil {
			return err
		}
	}
	return nil
}

// Predict returns what would be recorded when a change is made and what it
// touches is read again just as predicted: the work, and the readings. The
// error says why the change cannot be made.
func (s *Session) Predict(c Change) ([]record.Body, error) {
	if err := s.layout.Has(c.Of); err != nil {
		return nil, err
	}
	if c.Did == Seat {
		return []record.Body{record.Fitted{Part: c.Of, At: c.At}}, nil
	}
	if err := s.mayBe(c); err != nil {
		return nil, err
	}
	after := s.after(c)
	work := s.WorkOf(c)
	out := []record.Body{work}
	for _, f := range work.Changes {
		out = append(out, s.rereadings(f, after)...)
	}
	return out, nil
}

// mayBe says why a change is of something that cannot be changed so, or nil.
func (s *Session) mayBe(c Change) error {
	t, _ := c.Of.Family.Traits()
	is := map[string]bool{
		Hone: c.Of.Family == plan.Bore, File: c.Of.Family == plan.RingGap, Bring: t.Figure != "",
		Grind:    c.Of.Family == plan.MainJournal || c.Of.Family == plan.RodJournal || c.Of.Family == plan.CamJournal,
		FitShell: len(t.Parts) > 0 && t.Seat != "", FitWall: len(t.Parts) > 0 && t.Seat != "",
	}
	if !is[c.Did] {
		return fmt.Errorf("it is not done to %s", t.Plural)
	}
	if c.Did == FitShell {
		return nil
	}
	return c.Of.Family.CheckSize(c.Size)
}

// WorkOf returns the work that carries a change out: what was done, and what
// it changes the readings of.
func (s *Session) WorkOf(c Change) record.Work {
	return record.Work{
		Did: did[c.Did], To: []plan.Feature{c.Of}, Amount: c.Size.String(),
		Changes: s.changedBy(c), Metal: c.Did == Hone || c.Did == Grind || c.Did == File,
	}
}

// changedBy returns what a change changes the readings of: what is made to a
// size, the gaps of the rings in a bore, the bearing that a shell is in.
func (s *Session) changedBy(c Change) []plan.Feature {
	out := []plan.Feature{c.Of}
	switch c.Did {
	case Hone:
		for _, part := range []string{plan.Top, plan.Second, plan.Oil} {
			if f := s.FeatureAt(plan.RingGap, part, c.Of.At); s.isRead(f) {
				out = append(out, f)
			}
		}
	case FitShell, FitWall:
		if f := s.bearingOf(c.Of); !f.IsZero() {
			out = append(out, f)
		}
	}
	return out
}

// isRead reports whether any place of a feature has a reading now.
func (s *Session) isRead(f plan.Feature) bool {
	for p := range s.plan.Each(f) {
		if len(s.Now(p)) > 0 {
			return true
		}
	}
	return false
}

// bearingOf returns the bearing that the half of a shell makes, or none.
func (s *Session) bearingOf(shell plan.Feature) plan.Feature {
	if shell.Family == plan.ShellMain {
		return plan.Feature{Family: plan.MainBearing, At: s.Seat(shell)}
	}
	return plan.Feature{Family: plan.RodBearing, At: s.Seat(shell)}
}

// after returns what every place reads once a change is made; places that are
// not named read nothing new.
func (s *Session) after(c Change) map[plan.Place]length.Exact {
	out := map[plan.Place]length.Exact{}
	switch size := c.Size.Exact(); c.Did {
	case Hone:
		s.makes(out, c.Of, size)
		s.opensGaps(out, c.Of, size)
	case FitShell, FitWall:
		thicker := s.thicknessOf(c).Sub(s.Thickness(c.Of, c.Did == FitWall))
		s.shifts(out, c.Of, thicker)
		s.shifts(out, s.bearingOf(c.Of), thicker.Neg())
	default:
		s.makes(out, c.Of, size)
	}
	return out
}

// makes reads a size at every place of a feature that is not left out.
func (s *Session) makes(out map[plan.Place]length.Exact, f plan.Feature, size length.Exact) {
	for p := range s.plan.Each(f) {
		if !s.IsLeftOut(p) {
			out[p] = size
		}
	}
}

// shifts reads so much more wherever a feature is read now.
func (s *Session) shifts(out map[plan.Place]length.Exact, f plan.Feature, by length.Exact) {
	for p := range s.plan.Each(f) {
		if now := s.Figure(p, s.Stage(f)).Add(by); now.Measured() {
			out[p] = now
		}
	}
}

// rereadings returns the readings of a feature, as predicted.
func (s *Session) rereadings(f plan.Feature, after map[plan.Place]length.Exact) []record.Body {
	var out []record.Body
	for p := range s.plan.Each(f) {
		e, ok := after[p]
		if !ok {
			continue
		}
		w := s.Written(e)
		out = append(out, record.Reading{
			Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: w.Number(), Via: record.ViaFile, Size: w, As: record.First,
		})
	}
	return out
}
