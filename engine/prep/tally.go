package prep

import (
	"fmt"
	"slices"
)

// Tally is what was counted out, what came back, and what is accounted for.
type Tally struct {
	Name string
	// Out is how many came out, Need how many must be in at the end: as many,
	// or more where the list says so or more were forced. Known is false until
	// they were counted out, or the list says how many there are.
	Out, Need int
	Known     bool
	// In is how many are back, Accounted how many never will be.
	In, Accounted int
	// Again says that they were counted in, and that this was withdrawn.
	Again bool
}

// Open returns how many are not back, below zero when there are too many; 0
// while it is not known how many there are.
func (t Tally) Open() int {
	if !t.Known {
		return 0
	}
	return t.Need - t.In - t.Accounted
}

// Text says the tally in words, such as "gallery plugs 11 out, 10 in: 1 not back".
func (t Tally) Text() string {
	if !t.Known {
		return t.Name + " not counted out"
	}
	text := fmt.Sprintf("%s %d out, %d in", t.Name, t.Out, t.In)
	if t.Need > t.Out {
		text = fmt.Sprintf("%s %d in of %d", t.Name, t.In, t.Need)
	}
	if t.Accounted > 0 {
		text += fmt.Sprintf(", %d accounted for", t.Accounted)
	}
	if wrong := t.Wrong(); wrong != "" {
		text += ": " + wrong
	}
	return text
}

// Wrong says in few words what keeps the tally open, or "".
func (t Tally) Wrong() string {
	switch open := t.Open(); {
	case t.Again && open > 0:
		return "count them in again"
	case open > 0:
		return fmt.Sprintf("%d not back", open)
	case open < 0:
		return fmt.Sprintf("%d too many", -open)
	default:
		return ""
	}
}

// Tallies returns every tally of the list, in its order. One that nothing is
// counted out for and that does not say how many there are is left out.
func (s State) Tallies() []Tally {
	var names []string
	for _, step := range s.list {
		if step.Tally != "" && !slices.Contains(names, step.Tally) {
			names = append(names, step.Tally)
		}
	}
	var out []Tally
	for _, name := range names {
		if t, counts := s.Tally(name); counts {
			out = append(out, t)
		}
	}
	return out
}

// Tally returns one tally; counts is false when nothing says how many there
// should be.
func (s State) Tally(name string) (t Tally, counts bool) {
	t.Name = name
	forced := false
	for _, step := range s.list {
		if step.Tally != name {
			continue
		}
		stands, counted := s.marks[mark{step.ID, step.Way}]
		if step.Way == Out {
			counts = true
			t.Out += stands.Count
			t.Known = t.Known || counted
			continue
		}
		t.Need += step.Count
		t.In += stands.Count
		t.Accounted += s.accounted(step.ID)
		forced = forced || stands.Forced != ""
		_, lost := s.lost[mark{step.ID, In}]
		t.Again = t.Again || lost && !counted
	}
	if !counts {
		t.Known = t.Need > 0
	}
	t.Need = max(t.Need, t.Out)
	if forced {
		t.Need = max(t.Need, t.In+t.Accounted)
	}
	return t, counts || t.Known
}

func (s State) accounted(id string) int {
	n := 0
	for _, m := range s.marksOf(id) {
		if s.marks[m].Way == Accounted {
			n += s.marks[m].Count
		}
	}
	return n
}

// counted reports whether what a step counts is all there.
func (s State) counted(step Step) bool {
	t, ok := s.marks[mark{step.ID, step.Way}]
	if step.Way != In {
		return ok && (t.Count >= step.Count || t.Forced != "")
	}
	tally, counts := s.Tally(step.Tally)
	switch {
	case !counts:
		return ok
	case !tally.Known:
		return false
	default:
		return (ok || s.accounted(step.ID) > 0) && tally.Open() == 0
	}
}

// AccountedFor returns how many of what a step counts are accounted for by a
// reason; ok is false when none are.
func (s State) AccountedFor(step Step, why string) (n int, ok bool) {
	t, ok := s.marks[Tick{Step: step.ID, Way: Accounted, Choice: why}.mark()]
	return t.Count, ok
}
