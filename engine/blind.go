package engine

import (
	"hash/fnv"
	"math"
	"strconv"

	"borewright/engine/plan"
)

// Blind returns the blind repeats of a place in a stage: those of the readings
// that stand there, in their order. They tell how well the gauge repeats, and
// change no figure.
func (s *Session) Blind(p plan.Place, stage int) []Taken { return s.spots[p].blind(stage) }

func (s *spot) blind(stage int) []Taken {
	x := s.standing(stage)
	if len(x.counting) == 0 || len(x.blind) == 0 {
		return nil
	}
	var out []Taken
	for _, t := range x.blind {
		if t.N > x.counting[0].N {
			out = append(out, t)
		}
	}
	return out
}

// BlindPlace returns a place to be read again unseen, now that one was just
// taken: an earlier one of the same set, at the session's rate. Which and when
// follows from the digest of the last event, so that it is the same whenever it
// is asked, and yet cannot be foreseen at the bench. ok is false when none is.
func (s *Session) BlindPlace(just plan.Place) (p plan.Place, ok bool) {
	rate, err := strconv.ParseFloat(s.rules.BlindRate, 64)
	if err != nil || !(rate > 0) {
		return plan.Place{}, false
	}
	h := fnv.New64a()
	h.Write([]byte(s.Head().Hash))
	draw := h.Sum64()
	if rate < 1 && float64(draw>>32) >= rate*math.MaxUint32 {
		return plan.Place{}, false
	}
	earlier := s.earlierInSet(just)
	if len(earlier) == 0 {
		return plan.Place{}, false
	}
	return earlier[draw%uint64(len(earlier))], true
}

// earlierInSet returns the places before one in the plan whose reading stands in
// the set that it was read in.
func (s *Session) earlierInSet(just plan.Place) []plan.Place {
	now := s.Now(just)
	if len(now) == 0 {
		return nil
	}
	set := now[len(now)-1].Set
	var out []plan.Place
	for _, p := range s.Places() {
		if p == just {
			break
		}
		if list := s.Now(p); len(list) > 0 && list[len(list)-1].Set == set && set != "" {
			out = append(out, p)
		}
	}
	return out
}
