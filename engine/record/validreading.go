package record

import (
	"fmt"

	"borewright/engine/plan"
)

func (r Reading) validate(int64) error {
	return first(
		place(r.Place()),
		short("set", r.Set, maxName),
		name("keyed", r.Keyed),
		one("via", r.Via, ViaKeypad, ViaCable, ViaFile),
		one("as", r.As, First, Repeat, Replace),
		when(r.Size.IsZero() && r.Dev.IsZero(), wrong("size", "", "a reading has a size or a deviation")),
		when(!r.Size.IsZero() && !r.Dev.IsZero(), wrong("dev", r.Dev.String(), "a reading has not both a size and a deviation")),
		textError("size", "", r.Of.Family.CheckSize(r.Size)),
		when(!r.Dev.IsZero() && r.Set == "", wrong("set", "", "a deviation is read in a set")),
	)
}

func (l LeftOut) validate(int64) error { return place(l.Place()) }

func (m Moved) validate(n int64) error {
	if len(m.Readings) == 0 || len(m.Readings) != len(m.Places) {
		return wrong("places", "", fmt.Sprintf("%d places for %d readings", len(m.Places), len(m.Readings)))
	}
	seen := map[int64]bool{}
	for i, r := range m.Readings {
		at := fmt.Sprintf("readings[%d]", i)
		if err := first(earlier(at, r, n), when(seen[r], wrong(at, fmt.Sprint(r), "moved twice"))); err != nil {
			return err
		}
		seen[r] = true
		if err := under(fmt.Sprintf("places[%d]", i), place(m.Places[i])); err != nil {
			return err
		}
	}
	return nil
}

func (w Withdrawn) validate(n int64) error { return earlier("event", w.Event, n) }

func (w Work) validate(n int64) error {
	return first(
		action(w.Did, w.To, w.Amount),
		features("changes", w.Changes),
		when(w.After != 0, earlier("after", w.After, n)),
	)
}

func (f Fitted) validate(int64) error {
	return first(feature("part", f.Part), feature("to", f.At))
}

func (i Intended) validate(int64) error {
	for k, a := range i.Actions {
		if err := under(fmt.Sprintf("actions[%d]", k), action(a.Did, a.To, a.Amount)); err != nil {
			return err
		}
	}
	return nil
}

// action says what is wrong with work that was done or is meant.
func action(did string, to []plan.Feature, amount string) error {
	return first(
		name("did", did),
		when(len(to) == 0, wrong("to", "", "it names no feature")),
		features("to", to),
		figure("amount", amount),
	)
}
