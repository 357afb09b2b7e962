package record

import (
	"fmt"

	"borewright/engine/prep"
)

func (s Steps) validate(int64) error {
	for i, step := range s.List {
		if err := under(fmt.Sprintf("list[%d]", i), stepTexts(step)); err != nil {
			return err
		}
	}
	return textError("list", "", s.List.Validate())
}

// stepTexts says what is wrong with the texts of a step, so that whoever quotes
// them need not cut them.
func stepTexts(s prep.Step) error {
	err := first(
		name("id", s.ID), name("name", s.Name),
		short("unit", s.Unit, maxName), short("tally", s.Tally, maxName), short("did", s.Did, maxName),
		short("note", s.Note, maxName), figure("low", s.Low), figure("high", s.High),
	)
	for _, list := range []struct {
		at    string
		texts []string
	}{{"places", s.Places}, {"choices", s.Choices}, {"cautions", s.Cautions}} {
		for _, text := range list.texts {
			err = first(err, name(list.at, text))
		}
	}
	return err
}

func (d Done) validate(int64) error {
	return first(
		name("step", d.Step),
		short("place", d.Place, maxName),
		atLeast("count", int64(d.Count), 0),
		one("way", d.Way, "", prep.Out, prep.In, prep.Accounted),
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
