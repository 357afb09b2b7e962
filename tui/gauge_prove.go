package tui

import (
	"fmt"
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// proof is the dial of a comparator proved with a known step: what is filled in.
type proof struct {
	i     gauge.Instrument
	step  length.Written
	way   string // which way the needle went, clockwise or not; "" not said
	marks string
}

// newProofForm leads through proving once which way a dial's needle goes, and
// that its marks are what they are said to be.
func newProofForm(st *Station, d *Desk, shop *shelved, i gauge.Instrument) *entry {
	p := &proof{i: i, step: i.Proved}
	return &entry{
		filling: filling{st: st, form: newForm(p.rows)}, title: "prove the needle of " + i.Name,
		wrong: p.wrong, changed: func() bool { return p.way != "" || p.marks != "" || p.step != i.Proved },
		hint: func() string {
			return fmt.Sprintf("proved: %s, by %s; ", p.proved().Sense, p.step)
		},
		keep: func() error {
			now := p.proved()
			if err := d.Record(record.Instrument{Instrument: now}); err != nil {
				return err
			}
			st.Say(draw.Good, i.Name+" is proved: "+now.Sense)
			return shop.follow(now, i.Name)
		},
	}
}

func (p *proof) rows() []row {
	ways := []string{gauge.ClockwiseLarger, gauge.ClockwiseSmaller}
	return []row{
		{heading: "1. Zero it on a master. 2. Put it on one that is larger by a known step."},
		{label: "the step", fields: []field{writtenOf("step", "by how much the second master is larger: two blocks, two rings, or a micrometer opened by so much", p.i.Unit, &p.step)}, note: p.i.Unit.String()},
		{label: "the needle went", fields: []field{choiceOf("way", "which way the needle went from the smaller to the larger master",
			[]string{"clockwise", "the other way"}, slices.Index(ways, p.way), "not said", func(i int) { p.way = ways[i] })}},
		{label: "by so many marks", fields: []field{decimalOf("marks", "how many marks it went, whichever way", &p.marks)}, note: "a mark is " + p.i.Graduation.String()},
	}
}

// wrong says why it proves nothing.
func (p *proof) wrong() string {
	marks, err := length.ParseDecimal(p.marks)
	switch {
	case p.step.Length <= 0:
		return "the step is missing"
	case p.way == "":
		return "say which way the needle went"
	case p.marks == "" || err != nil || marks.Coef <= 0:
		return "say how many marks it went"
	}
	read, err := marks.Of(p.i.Graduation.Length)
	if err != nil {
		return err.Error()
	}
	if d := read - p.step.Length; d > p.i.Graduation.Length || d < -p.i.Graduation.Length {
		return fmt.Sprintf("%s marks are not %s: a mark, a turn or the step is not what it is said to be", p.marks, p.step)
	}
	return faultText(p.proved().Validate())
}

// proved is the instrument as it is proved.
func (p *proof) proved() gauge.Instrument {
	now := p.i
	now.Sense, now.Proved = p.way, p.step
	return now
}
