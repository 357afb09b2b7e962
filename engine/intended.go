package engine

import (
	"fmt"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// intendedMark is an action that was decided on and the event that said so.
type intendedMark struct {
	n int64
	record.Action
}

// intend folds in what was decided. An action stands until another one is about
// the same thing; deciding on nothing takes all back.
func (st *state) intend(n int64, b record.Intended) {
	if len(b.Actions) == 0 {
		st.intended = nil
		return
	}
	for _, a := range b.Actions {
		st.intended = replace(st.intended, intendedMark{n, a}, func(x, y intendedMark) bool {
			return len(x.To) > 0 && len(y.To) > 0 && x.To[0] == y.To[0]
		})
	}
}

// Intention is something that was decided, and what became of it.
type Intention struct {
	// N is the event that decided it.
	N      int64
	Action record.Action
	// Done says that it was done since, Measured that what it changed was read
	// again.
	Done, Measured bool
	// Predicted is what was expected of it, Found what came out: a size, or the
	// clearance that it makes. Either may be not measured.
	Predicted, Found length.Exact
	// Text says it in a sentence.
	Text string
}

// Intentions returns what was decided, in the order of its events, its
// prediction worked out again from the session as it was then and held against
// what is measured now.
func (s *Session) Intentions(a *Assessment) []Intention {
	predicted := map[int64]*Assessment{}
	var out []Intention
	for _, m := range s.intended {
		if _, have := predicted[m.n]; !have {
			predicted[m.n] = s.predictedAt(m.n)
		}
		out = append(out, s.intention(m, predicted[m.n], a))
	}
	return out
}

// predictedAt returns what was to be expected when event n decided on something,
// nil where that cannot be told.
func (s *Session) predictedAt(n int64) *Assessment {
	then, err := Replay(s.events[:n])
	if err != nil {
		return nil
	}
	var changes []Change
	for _, m := range then.intended {
		if c, ok := ChangeOf(m.Action); ok && m.n == n {
			changes = append(changes, c)
		}
	}
	_, a, err := then.Trial(changes...)
	if err != nil {
		return nil
	}
	return a
}

func (s *Session) intention(m intendedMark, then, now *Assessment) Intention {
	x := Intention{N: m.n, Action: m.Action}
	c, ok := ChangeOf(m.Action)
	if !ok {
		x.Text = "intended: " + m.Did + " " + s.names(m.To) + prefixed(", ", m.Amount)
		return x
	}
	x.Done = s.doneSince(m.n, c)
	x.Measured = x.Done && s.readSince(m.n, c)
	if then != nil {
		x.Predicted = s.outcome(then, c)
	}
	if x.Measured {
		x.Found = s.outcome(now, c)
	}
	x.Text = s.intentionText(x, c)
	return x
}

// doneSince reports whether a change was made after event n.
func (s *Session) doneSince(n int64, c Change) bool {
	if c.Did == Seat {
		return s.partAt(c.Of, c.At.At) == c.Of
	}
	for _, f := range s.changedBy(c) {
		for _, w := range s.works[f] {
			if w.n > n {
				return true
			}
		}
	}
	return false
}

// readSince reports whether what a change came out as was read after event n.
func (s *Session) readSince(n int64, c Change) bool {
	f := s.outcomeOf(c)
	if c.Did == Seat {
		return true
	}
	for p := range s.plan.Each(f) {
		for _, t := range s.Now(p) {
			if t.N > n {
				return true
			}
		}
	}
	return false
}

// outcomeOf is the feature that shows what a change came out as: what was made,
// the bearing with other shells, the hole that a part was put in.
func (s *Session) outcomeOf(c Change) plan.Feature {
	switch {
	case c.Did == FitShell || c.Did == FitWall:
		if b := s.bearingOf(c.Of); s.planned(b.Family) {
			return b
		}
		return c.Of
	case c.Did == Seat && c.Of.Family == plan.Rod:
		return plan.Feature{Family: plan.RodBearing, At: c.Of.At}
	case c.Did == Seat:
		return c.At
	default:
		return c.Of
	}
}

// outcome is the figure that shows what a change comes out as in an assessment:
// the clearance of a bearing or a bore, else the mean size.
func (s *Session) outcome(a *Assessment, c Change) length.Exact {
	f := s.outcomeOf(c)
	if c.Did == Seat || c.Did == FitShell || c.Did == FitWall {
		for _, x := range a.Clearances {
			if x.Hole == f && x.Clearance.Judged.Measured() {
				return x.Clearance.Judged
			}
		}
		return length.Exact{}
	}
	m, _ := a.Feature(f)
	return m.Figures.Mean
}

func (s *Session) intentionText(x Intention, c Change) string {
	u := s.Unit()
	what := "mean size"
	if t, _ := c.Of.Family.Traits(); t.Figure != "" {
		what = t.Figure
	}
	if c.Did == Seat || c.Did == FitShell || c.Did == FitWall {
		what = string(limit.Clearance)
	}
	text := s.Tell(c)
	switch {
	case !x.Done:
		return text + ": not done yet"
	case !x.Measured || !x.Found.Measured():
		return text + ": done, not measured again"
	case !x.Predicted.Measured():
		return fmt.Sprintf("%s: done, %s %s", text, what, s.amount(x.Found))
	default:
		return fmt.Sprintf("%s: %s meant %s, measured %s, %s", text, what, x.Predicted.Format(u, u.Decimals()),
			s.amount(x.Found), x.Found.Sub(x.Predicted).FormatSigned(u, u.Decimals()))
	}
}

// tellIntended says in words what was decided.
func (s *Session) tellIntended(b record.Intended) string {
	if len(b.Actions) == 0 {
		return "nothing is intended any more"
	}
	var out []string
	for _, a := range b.Actions {
		if c, ok := ChangeOf(a); ok {
			out = append(out, s.Tell(c))
		} else {
			out = append(out, a.Did+" "+s.names(a.To)+prefixed(", ", a.Amount))
		}
	}
	return "intended: " + strings.Join(out, "; ")
}
