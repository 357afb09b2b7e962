package plan

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
)

// The most levels and directions of a family, and the most bytes of a level's id.
const (
	mostLevels     = 6
	mostDirections = 4
	longestLevel   = 16
)

// Validate says what is wrong with the plan, naming the family and the value: a
// family comes once, with 1 to 6 levels that differ and go deeper, 1 to 4
// directions that differ, and a nominal that is a size. The error is an
// *InvalidError.
func (p Plan) Validate() error {
	if p.Order != "" && p.Order != ByLevel && p.Order != ByDirection {
		return wrongPlan("order %s is neither level nor direction", Quote(p.Order))
	}
	if len(p.Families) == 0 {
		return wrongPlan("no family is to be measured")
	}
	seen := map[Family]bool{}
	for _, g := range p.Families {
		if err := g.validate(); err != nil {
			return err
		}
		if seen[g.Family] {
			return wrongPlan("%s is given twice", g.Family)
		}
		seen[g.Family] = true
	}
	return nil
}

func wrongPlan(format string, args ...any) error {
	return &InvalidError{Of: "plan", Reason: fmt.Sprintf(format, args...)}
}

func (g Group) validate() error {
	t, err := g.Family.known()
	if err != nil {
		return wrongPlan("%v", err)
	}
	if t.Unread {
		return wrongPlan("%s are fitted, not measured", t.Plural)
	}
	if n := len(g.Levels); n < 1 || n > mostLevels {
		return wrongPlan("%s has %d levels, not 1 to %d", g.Family, n, mostLevels)
	}
	if n := len(g.Directions); n < 1 || n > mostDirections {
		return wrongPlan("%s has %d directions, not 1 to %d", g.Family, n, mostDirections)
	}
	if err := g.Family.CheckSize(g.Nominal); err != nil {
		return wrongPlan("nominal of %s: %v", g.Family, err)
	}
	if err := g.validateLevels(); err != nil {
		return err
	}
	return g.validateDirections()
}

// CheckLevel says why a text is no id of a level, or nil: it is 1 to 16 bytes
// long. The error is a *NameError.
func CheckLevel(id string) error {
	switch {
	case strings.TrimSpace(id) == "":
		return &NameError{Text: id, Reason: "the id is missing"}
	case len(id) > longestLevel:
		return &NameError{Text: id, Reason: fmt.Sprintf("the id %s is longer than %d bytes", Quote(id), longestLevel)}
	}
	return nil
}

func (g Group) validateLevels() error {
	seen := map[string]bool{}
	var last length.Written
	for i, l := range g.Levels {
		if err := CheckLevel(l.ID); err != nil {
			return wrongPlan("level %d of %s: %v", i+1, g.Family, err)
		}
		if seen[l.ID] {
			return wrongPlan("level %d of %s: the id %q is used twice", i+1, g.Family, l.ID)
		}
		seen[l.ID] = true
		if err := l.validate(g.Family, last); err != nil {
			return err
		}
		if !l.Depth.IsZero() {
			last = l.Depth
		}
	}
	return nil
}

// validate checks what a level says beside its id; last is the depth before it.
func (l Level) validate(f Family, last length.Written) error {
	switch {
	case !slices.Contains([]string{"", FrontHalf, RearHalf, "both"}, l.Half):
		return wrongPlan("level %q of %s: half %s is neither front, rear nor both", l.ID, f, Quote(l.Half))
	case l.Depth.Length < 0:
		return wrongPlan("level %q of %s: depth %s is below zero", l.ID, f, l.Depth)
	case !l.Depth.IsZero() && !last.IsZero() && l.Depth.Length <= last.Length:
		return wrongPlan("level %q of %s: depth %s does not lie below the level before it", l.ID, f, l.Depth)
	}
	return nil
}

func (g Group) validateDirections() error {
	seen := map[string]bool{}
	for _, d := range g.Directions {
		if err := CheckDirection(g.Family, d); err != nil {
			return wrongPlan("%v", err)
		}
		if seen[d] {
			return wrongPlan("direction %q of %s is given twice", d, g.Family.Plural())
		}
		seen[d] = true
	}
	return nil
}
