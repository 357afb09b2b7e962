package tui

import (
	"errors"
	"slices"
	"strconv"

	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// newRulesForm edits what the session asks of its gauges: how far a zero may
// wander, how long it holds, how often a place is read again unseen, and how its
// doubt decides.
func newRulesForm(st *Station, d *Desk) *entry {
	was := d.Session.Rules()
	now := was
	rows := func() []row {
		decisions := []string{record.Simple, record.Guarded}
		return []row{
			{label: "zero may wander", fields: []field{writtenOf("drift", "a check further out than this makes what was read since the last good one suspect; empty is one mark of the gauge", d.Session.Unit(), &now.Drift)}, note: d.Session.Unit().String()},
			{label: "zero holds, hours", fields: []field{hoursOf("stale", &now.StaleHours)}, note: "empty is 8"},
			{label: "and within, °C", fields: []field{decimalOf("warm", "a zero check is asked for where part or gauge is warmer or colder by more than this than at the last zero", &now.StaleWarm)}, note: "empty is 2"},
			{label: "drift inside that", fields: []field{choiceOf("spread", "either counts what a good check was out as doubt, or takes it off what was read before it, in proportion to the time; sizes follow",
				[]string{"is doubt", "is spread over the set by time"}, spreadAt[now.DriftSpread], "", func(i int) { now.DriftSpread = i == 1 })}},
			{label: "read again unseen", fields: []field{decimalOf("blind", "the share of places that are read again unseen: 0.1 is every tenth; empty is none", &now.BlindRate)}, note: "0 to 1"},
			{label: "near a limit", fields: []field{choiceOf("decision", "guard bands call nothing inside or outside that is nearer to a limit than its doubt",
				[]string{"the figure decides, its doubt beside it", "guard bands: too close to call"}, max(0, slices.Index(decisions, now.Decision)), "", func(i int) { now.Decision = decisions[i] })}},
			{label: "coverage", fields: []field{decimalOf("coverage", "the factor k by which a doubt is expanded; empty is 95 %", &now.Coverage)}},
		}
	}
	same := func() bool {
		return now.Drift == was.Drift && now.StaleHours == was.StaleHours && now.StaleWarm == was.StaleWarm && now.DriftSpread == was.DriftSpread && now.BlindRate == was.BlindRate && now.Decision == was.Decision && now.Coverage == was.Coverage
	}
	return &entry{
		filling: filling{st: st, form: newForm(rows)}, title: "rules for gauges and doubt",
		changed: func() bool { return !same() }, hint: func() string { return "verdicts and doubts follow at once; " },
		wrong: func() string { return wrongRules(d, now) },
		keep: func() error {
			if same() {
				return nil
			}
			st.Say(draw.Plain, "the rules for gauges and doubt are changed")
			return d.Record(now)
		},
	}
}

// spreadAt is where the choices of the drift stand.
var spreadAt = map[bool]int{true: 1}

// wrongRules says why rules cannot be kept.
func wrongRules(d *Desk, r record.Rules) string {
	if r.Drift.Length < 0 {
		return "a zero cannot wander by less than nothing"
	}
	if p, err := length.ParseDecimal(r.BlindRate); r.BlindRate != "" {
		if f, bad := strconv.ParseFloat(r.BlindRate, 64); err != nil || bad != nil || p.Coef < 0 || f > 1 {
			return "the share read again unseen is from 0 to 1, not " + r.BlindRate
		}
	}
	if _, err := doubt.ParseCoverage(r.Coverage); err != nil {
		return err.Error()
	}
	return faultText(d.Session.CheckAll(r))
}

// hoursOf is a field of whole hours, 0 being none keyed.
func hoursOf(id string, n *int) field {
	return field{
		id: id, kind: numberField, wide: 10, why: "a gauge that lay for longer is asked for a zero check before it is read with",
		get: func() string {
			if *n == 0 {
				return ""
			}
			return strconv.Itoa(*n)
		},
		set: func(t string) error {
			if t == "" {
				*n = 0
				return nil
			}
			x, err := strconv.Atoi(t)
			if err != nil || x < 1 || x > 24*365 {
				return errors.New(t + " is not a whole number of hours above zero")
			}
			*n = x
			return nil
		},
	}
}
