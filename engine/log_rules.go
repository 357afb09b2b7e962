package engine

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"borewright/engine/length"
	"borewright/engine/record"
)

// tellRules says how the session judges and shows, as far as the rules say so.
func tellRules(r record.Rules) string {
	var out []string
	add := func(set bool, format string, args ...any) {
		if set {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	add(r.Unit != length.NoUnit, "figures shown in %s", r.Unit)
	for _, on := range slices.Sorted(maps.Keys(r.Definitions)) {
		add(true, "%s by %s", on, r.Definitions[on])
	}
	add(r.Clearance != "", "clearance by %s", r.Clearance)
	add(r.Judge != "", "judged by %s limits", r.Judge)
	add(r.Decision != "", "decision %s", r.Decision)
	add(r.Coverage != "", "coverage factor %s", r.Coverage)
	add(!r.Drift.IsZero(), "a zero may wander by %s", r.Drift)
	add(r.StaleHours > 0, "a zero is stale after %d hours", r.StaleHours)
	add(r.DriftSpread, "drift spread over the set by time")
	add(r.StaleWarm != "", "a zero is stale after a change of %s °C", r.StaleWarm)
	add(r.BlindRate != "", "share read again unseen %s", r.BlindRate)
	if len(out) == 0 {
		return "rules: the usual ones"
	}
	return "rules: " + strings.Join(out, ", ")
}
