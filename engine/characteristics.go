package engine

import (
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Characteristics returns what can be judged of a family, in the order a list
// shows it: what one reading is, where a reading is the figure; else size and
// form, the clearance of a hole that a shaft runs in, and the step to the next
// of what is compared with its neighbours.
func Characteristics(f plan.Family) []limit.Characteristic {
	t, ok := f.Traits()
	switch {
	case !ok || t.Unread:
		return nil
	case f == plan.Liner:
		return []limit.Characteristic{limit.Protrusion, limit.Step}
	case t.Figure != "":
		return []limit.Characteristic{limit.Characteristic(t.Figure)}
	}
	out := []limit.Characteristic{limit.Size}
	if t.Judged == "" {
		out = append(out, limit.OutOfRound)
	}
	out = append(out, limit.Taper, limit.OverallSpread)
	for _, p := range pairings {
		if p.hole == f {
			out = append(out, limit.Clearance)
		}
	}
	if f == plan.MainBearing {
		out = append(out, limit.Step)
	}
	return out
}
