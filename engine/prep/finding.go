package prep

import (
	"fmt"
	"strings"

	"borewright/engine/plan"
)

// FindingKind says what a finding is about.
type FindingKind string

// The kinds of findings, in the order they are told.
const (
	NotBack     FindingKind = "not back"
	Withdrawn   FindingKind = "withdrawn"
	Outside     FindingKind = "outside"
	OilPathOf   FindingKind = "oil path"
	TickedEarly FindingKind = "ticked early"
	Open        FindingKind = "open"
	Forced      FindingKind = "forced"
)

// Finding is one thing that is to be said of the prep.
type Finding struct {
	Kind FindingKind
	// Step is the id of the step where it is put right, or empty.
	Step string
	Text string
}

// Blocks reports whether the engine is not ready while the finding stands. A
// forced step is told and does not block.
func (f Finding) Blocks() bool { return f.Kind != Forced }

// Findings returns everything that is to be said, what matters most first.
func (s State) Findings(l plan.Layout) []Finding {
	out := s.notBack()
	out = append(out, s.withdrawals(l)...)
	out = append(out, s.outside(l)...)
	if wrong := s.OilPath().Wrong(); wrong != "" {
		out = append(out, Finding{OilPathOf, OilFitted, wrong})
	}
	out = append(out, s.tooEarly(l)...)
	if done, all := s.Progress(); done < all {
		next, _ := s.Next("")
		out = append(out, Finding{Open, next.ID, fmt.Sprintf("%d of %d steps open", all-done, all)})
	}
	return append(out, s.forcings(l)...)
}

// NotReady says in one line what keeps the engine from being ready, or "" when
// nothing does, or there is no list.
func NotReady(fs []Finding) string {
	var texts []string
	for _, f := range fs {
		if f.Blocks() {
			texts = append(texts, f.Text)
		}
	}
	if len(texts) == 0 {
		return ""
	}
	return "not ready: " + strings.Join(texts, "; ")
}

// Next returns the first step behind one that does not stand, going round; ok
// is false when all stand.
func (s State) Next(after string) (step Step, ok bool) {
	_, at, _ := s.list.Find(after)
	for i := range s.list {
		step := s.list[(at+1+i)%len(s.list)]
		if !s.Done(step.ID) {
			return step, true
		}
	}
	return Step{}, false
}

func (s State) notBack() []Finding {
	var out []Finding
	for _, t := range s.Tallies() {
		if t.Wrong() != "" {
			out = append(out, Finding{NotBack, s.stepIn(t.Name), t.wrong()})
		}
	}
	return out
}

// wrong is Wrong as a sentence of its own.
func (t Tally) wrong() string {
	switch open := t.Open(); {
	case t.Again && open > 0:
		return fmt.Sprintf("%d %s to count in again", open, t.Name)
	case open > 0:
		return fmt.Sprintf("%d of %d %s not back", open, t.Need, t.Name)
	default:
		return fmt.Sprintf("%d %s too many in", -open, t.Name)
	}
}

// stepIn returns the step that counts a tally in, else the one that counts it out.
func (s State) stepIn(tally string) string {
	id := ""
	for _, step := range s.list {
		if step.Tally == tally && (id == "" || step.Way == In) {
			id = step.ID
		}
	}
	return id
}

func (s State) outside(l plan.Layout) []Finding {
	var out []Finding
	for _, step := range s.list {
		for _, p := range step.spots() {
			t, ok := s.At(step, p)
			if !ok || step.Kind != Value {
				continue
			}
			for _, wrong := range []string{step.beyond(t.Value), step.mismatch(t.Tick, l)} {
				if wrong != "" {
					out = append(out, Finding{Outside, step.ID, at(step.Name, SpotOf(p).Name(l)) + ": " + wrong})
				}
			}
		}
	}
	return out
}

func (s State) forcings(l plan.Layout) []Finding {
	var out []Finding
	for _, step := range s.list {
		for _, m := range s.marksOf(step.ID) {
			if t := s.marks[m]; t.Forced != "" {
				out = append(out, Finding{Forced, step.ID, at(step.Name, SpotOf(t.Place).Name(l)) + " forced: " + t.Forced})
			}
		}
	}
	return out
}

// at joins a step and its place, when it has one.
func at(step, place string) string {
	if place == "" {
		return step
	}
	return step + " at " + place
}

func stepNames(steps []Step) string {
	var out []string
	for _, s := range steps {
		out = append(out, s.Name)
	}
	if n := len(out); n > 1 {
		return strings.Join(out[:n-1], ", ") + " and " + out[n-1]
	}
	return strings.Join(out, "")
}

// workedOn names what was worked on.
func workedOn(fs []plan.Feature, l plan.Layout) string {
	var out []string
	for _, f := range fs {
		out = append(out, l.Name(f))
	}
	if len(out) == 0 {
		return "metal"
	}
	return strings.Join(out, ", ")
}
