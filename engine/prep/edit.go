package prep

import (
	"fmt"
	"slices"
	"strconv"
)

// Without returns the list without a step. What came after the step comes after
// what came before it. The error is an *InvalidError.
func (l List) Without(id string) (List, error) {
	gone, at, ok := l.Find(id)
	if !ok {
		return l, invalid(id, "the prep list has no such step")
	}
	out := slices.Delete(slices.Clone(l), at, at+1)
	for i, s := range out {
		where := slices.Index(s.NotBefore, id)
		if where < 0 {
			continue
		}
		before := slices.Delete(slices.Clone(s.NotBefore), where, where+1)
		for _, b := range gone.NotBefore {
			if !slices.Contains(before, b) {
				before = append(before, b)
			}
		}
		out[i].NotBefore = before
	}
	return out, nil
}

// Set returns the list with a step put in the stead of the one with its id, or
// behind all others. The error is an *InvalidError.
func (l List) Set(s Step) (List, error) {
	out := slices.Clone(l)
	if _, at, ok := l.Find(s.ID); ok {
		out[at] = s
	} else {
		out = append(out, s)
	}
	if err := out.Validate(); err != nil {
		return l, err
	}
	return out, nil
}

// FreshID returns an id that no step of the list has.
func (l List) FreshID() string {
	for n := len(l) + 1; ; n++ {
		id := "own-" + strconv.Itoa(n)
		if _, _, taken := l.Find(id); !taken {
			return id
		}
	}
}

// MayRemove says why a step may not leave the list, or nil: what was counted
// out and is not back would be forgotten with it. The error is an
// *InvalidError.
func (s State) MayRemove(id string) error {
	step, _, ok := s.list.Find(id)
	if !ok {
		return invalid(id, "the prep list has no such step")
	}
	if t, counts := s.Tally(step.Tally); step.Tally != "" && counts && t.Wrong() != "" {
		return &InvalidError{id, fmt.Sprintf("%s: %s; count them in or account for them first", t.Name, t.Wrong())}
	}
	return nil
}
