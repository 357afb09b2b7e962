package record

import (
	"fmt"
)

func (s Steps) validate(int64) error {
	ids := map[string]bool{}
	for i, step := range s.List {
		at := fmt.Sprintf("list[%d]", i)
		if err := first(under(at, step.validate()), when(ids[step.ID], wrong(at+".id", step.ID, "used twice"))); err != nil {
			return err
		}
		ids[step.ID] = true
	}
	for i, step := range s.List {
		for _, id := range step.NotBefore {
			if !ids[id] {
				return wrong(fmt.Sprintf("list[%d].not_before", i), id, "no step of this list")
			}
		}
	}
	return nil
}

func (s Step) validate() error {
	for _, choice := range s.Choices {
		if err := name("choices", choice); err != nil {
			return err
		}
	}
	for _, p := range s.Places {
		if err := name("places", p); err != nil {
			return err
		}
	}
	return first(
		name("id", s.ID),
		when(s.Text == "", wrong("text", "", "it is missing")),
		name("kind", s.Kind),
		atLeast("count", int64(s.Count), 0),
		figure("low", s.Low),
		figure("high", s.High),
	)
}

func (d Done) validate(int64) error {
	return first(
		name("step", d.Step),
		short("place", d.Place, maxName),
		atLeast("count", int64(d.Count), 0),
		one("way", d.Way, "", WayOut, WayIn, WayAccounted),
		short("keyed", d.Keyed, maxName),
		figure("value", d.Value),
		short("choice", d.Choice, maxName),
	)
}

func (s Study) validate(int64) error {
	if err := first(
		name("instrument", s.Instrument),
		name("method", s.Method),
		when(len(s.Rows) == 0, wrong("rows", "", "a study has values")),
	); err != nil {
		return err
	}
	for i, row := range s.Rows {
		if err := under(fmt.Sprintf("rows[%d]", i), row.validate()); err != nil {
			return err
		}
	}
	return nil
}

func (r StudyRow) validate() error {
	return first(
		short("operator", r.Operator, maxName),
		name("part", r.Part),
		atLeast("trial", int64(r.Trial), 1),
		when(r.Value == "", wrong("value", "", "it is missing")),
		figure("value", r.Value),
	)
}

func (n Note) validate(int64) error {
	return first(
		short("on", n.On, maxName),
		when(n.Text == "", wrong("text", "", "it is missing")),
	)
}

func (s State) validate(int64) error {
	return one("state", s.State, Closed, Reopened, Archived, Restored)
}
