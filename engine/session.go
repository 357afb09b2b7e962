package engine

import (
	"fmt"
	"slices"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// Session is one engine on the bench: its events, in order, and the state they
// replay to. The zero value is an empty session.
type Session struct {
	dead   map[int64]int64 // event → the withdrawal that took it back
	pooled *pool           // as of the last event, nil when not worked out
	state
}

// Touched says what an event changed the figures of.
type Touched struct {
	// All says that anything may have changed.
	All bool
	// Features are the ones changed, where not All.
	Features []plan.Feature
}

// Replay builds a session from all its events. The error is an *EventError
// that names the first event that could not be applied.
func Replay(events []record.Sealed) (*Session, error) {
	s := &Session{}
	s.events = make([]record.Sealed, 0, len(events)+len(events)/8+64) // with room for those to come
	for _, e := range events {
		if err := s.fold(e); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// Apply adds the next event and says what it touched. On an error, which is an
// *EventError, the session is unchanged.
func (s *Session) Apply(e record.Sealed) (Touched, error) {
	pooled := s.pools(e.Body)
	if err := s.fold(e); err != nil {
		return Touched{}, err
	}
	touched := s.touchedBy(e.Event)
	if pooled || s.pools(e.Body) {
		touched = Touched{All: true}
	}
	if touched.All || len(touched.Features) > 1 {
		s.pooled = nil // working it out anew is a third of what Enter costs
	}
	return touched, nil
}

// fold is Apply that does not say what is touched.
func (s *Session) fold(e record.Sealed) error {
	err := s.follows(e)
	if err == nil {
		err = s.take(e)
	}
	if err != nil {
		return &EventError{e.N, e.Is(), err}
	}
	return nil
}

func (s *Session) follows(e record.Sealed) error {
	if e.N != int64(len(s.events))+1 {
		return fmt.Errorf("%w: it should be event %d", ErrOrder, len(s.events)+1)
	}
	if (e.N == 1) != (e.Is() == record.IsDetails) && len(s.events) == 0 {
		return ErrNoDetails
	}
	return nil
}

func (s *Session) take(e record.Sealed) error {
	if w, ok := e.Body.(record.Withdrawn); ok {
		if err := s.mayWithdraw(w.Event); err != nil {
			return err
		}
		return s.refold(e)
	}
	if err := s.apply(e); err != nil {
		return err
	}
	s.events = append(s.events, e)
	return nil
}

// refold replays everything that is live once e, a withdrawal, is the last event.
func (s *Session) refold(e record.Sealed) error {
	events := append(slices.Clip(s.events), e)
	dead := withdrawnIn(events)
	next := state{events: events}
	for _, old := range events {
		if _, gone := dead[old.N]; gone || old.Is() == record.IsWithdrawn {
			continue
		}
		if err := next.apply(old); err != nil {
			return fmt.Errorf("event %d (%s) rests on it: %w", old.N, old.Is(), err)
		}
	}
	s.dead, s.state = dead, next
	return nil
}

// withdrawnIn returns each event that a live withdrawal took back.
func withdrawnIn(events []record.Sealed) map[int64]int64 {
	dead := map[int64]int64{}
	for _, e := range slices.Backward(events) {
		if _, gone := dead[e.N]; gone {
			continue
		}
		if w, ok := e.Body.(record.Withdrawn); ok {
			dead[w.Event] = e.N
		}
	}
	return dead
}

// CheckWithdraw says why an event cannot be withdrawn, or nil.
func (s *Session) CheckWithdraw(n int64) error {
	if err := s.mayWithdraw(n); err != nil {
		return err
	}
	trial := *s
	return trial.refold(record.Sealed{Event: record.Event{
		N: int64(len(s.events)) + 1, Body: record.Withdrawn{Event: n},
	}})
}

func (s *Session) mayWithdraw(n int64) error {
	if n < 1 || n > int64(len(s.events)) {
		return fmt.Errorf("there is no event %d to withdraw", n)
	}
	if by, gone := s.dead[n]; gone {
		return fmt.Errorf("event %d is withdrawn already, by event %d", n, by)
	}
	if n == 1 {
		return fmt.Errorf("event 1 says what is on the bench and is not withdrawn")
	}
	return nil
}

// Live reports whether event n happened and was not taken back.
func (s *Session) Live(n int64) bool {
	_, gone := s.dead[n]
	return n >= 1 && n <= int64(len(s.events)) && !gone
}

// Events returns every event in order. The caller must not change them.
func (s *Session) Events() []record.Sealed { return s.events }

// Head returns the digest of the last event, zero when there is none.
func (s *Session) Head() record.Head {
	if len(s.events) == 0 {
		return record.Head{}
	}
	return s.events[len(s.events)-1].Head
}

// touchedBy says what an event changes the figures of.
func (s *Session) touchedBy(e record.Event) Touched {
	switch b := e.Body.(type) {
	case record.Reading:
		if b.As != record.First {
			return Touched{All: true} // repeats pool: they move every doubt of the gauge
		}
		return Touched{Features: s.withGaps(s.dependents(b.Of))}
	case record.LeftOut:
		return Touched{Features: s.withGaps([]plan.Feature{b.Of})}
	case record.Note, record.Done, record.Study:
		return Touched{}
	case record.Withdrawn:
		target := s.events[b.Event-1].Event
		if s.movesNotes(target) || target.Is() == record.IsReading {
			return Touched{All: true}
		}
		return s.touchedBy(target)
	default:
		return Touched{All: true}
	}
}

// pools reports whether an event is a reading at a place where more than one
// stands: together they say how well the gauge repeats, which moves the doubt of
// everything that was read with it.
func (s *Session) pools(b record.Body) bool {
	r, ok := b.(record.Reading)
	if !ok {
		return false
	}
	x := s.standing(r.Place(), s.Stage(r.Of))
	return len(x.counting)+len(x.blind) > 1
}
