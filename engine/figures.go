package engine

import (
	"fmt"
	"strings"

	"borewright/engine/length"
)

// Figures tells what was measured of every feature and clearance, by every
// definition, whether a limit judges it or not.
func (a *Assessment) Figures(s *Session) []string {
	var out []string
	for _, m := range a.Features {
		if m.Read > 0 {
			out = append(out, s.figureLines(m)...)
		}
	}
	for _, c := range a.Clearances {
		if c.Clearance.Tightest.Measured() {
			out = append(out, s.clearanceLine(c))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return append([]string{"Figures, diametral, in " + unitWord(s.Unit()) + ":"}, out...)
}

func (s *Session) figureLines(m *Measured) []string {
	f, u := m.Figures, s.Unit()
	if t, _ := m.Of.Family.Traits(); t.Figure != "" {
		return []string{fmt.Sprintf("  %s: %s", m.Name, s.pointsText(m))}
	}
	lines := []string{fmt.Sprintf("  %s, %s, %d of %d read: %s to %s, overall spread %s; %s", m.Name, m.Stage, m.Read, m.Planned,
		f.Smallest.Format(u, m.Places), f.Largest.Format(u, m.Places), shown(f.Overall, u, m.Places), f.Shape)}
	if len(m.Notes) > 0 {
		lines = append(lines, "    note: read while "+strings.Join(m.Notes, ", "))
	}
	if text := s.MixedConditions(m.Of); text != "" {
		lines = append(lines, "    note: "+text)
	}
	if text := s.roundText(m); text != "" {
		lines = append(lines, "    out-of-round "+text)
	}
	if text := s.taperText(m); text != "" {
		lines = append(lines, "    taper (end to end) "+text)
	}
	if e := m.Eccentricity(); e.Measured() {
		lines = append(lines, "    eccentricity at the parting line "+e.FormatSigned(u, m.Places))
	}
	return lines
}

// pointsText lists the readings of what is read as figures, not diameters.
func (s *Session) pointsText(m *Measured) string {
	var out []string
	g, _ := s.plan.Group(m.Of.Family)
	for i, row := range m.Grid.Values {
		text := shown(row[0], s.Unit(), m.Places)
		if level := s.levelWord(m.Of.Family, g.Levels[i].ID); level != "" {
			text = level + " " + text
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

// roundText lists the out-of-round of every level that has one.
func (s *Session) roundText(m *Measured) string {
	g, _ := s.plan.Group(m.Of.Family)
	var out []string
	for i, l := range m.Figures.Levels {
		if l.OutOfRound.Measured() && m.roundJudged() {
			out = append(out, g.Levels[i].Called()+" "+l.OutOfRound.Format(s.Unit(), m.Places))
		}
	}
	return strings.Join(out, ", ")
}

// taperText lists the taper of every direction that has one, + larger at the
// head end or front.
func (s *Session) taperText(m *Measured) string {
	var out []string
	for i, d := range m.Figures.Directions {
		if d.EndToEnd.Measured() && len(m.judgedGrid.Values) > 1 {
			out = append(out, DirName(m.judgedGrid.Names[i])+" "+d.EndToEnd.FormatSigned(s.Unit(), m.Places))
		}
	}
	return strings.Join(out, ", ")
}

func (s *Session) clearanceLine(c *Fit) string {
	u := s.Unit()
	text := fmt.Sprintf("  %s, clearance (%s) %s: tightest %s, mean %s, loosest %s", c.Name, c.Clearance.By,
		c.Clearance.Judged.Format(u, c.Places), c.Clearance.Tightest.Format(u, c.Places),
		c.Clearance.Mean.Format(u, c.Places), c.Clearance.Loosest.Format(u, c.Places))
	if c.Clearance.Bound {
		text += " (bounds: from different levels)"
	}
	if c.FromParts {
		text += " (from housing, shells and journal)"
	}
	if c.Difference.Measured() {
		text += "; assembled less from parts " + c.Difference.FormatSigned(u, c.Places)
	}
	return text
}

// shown formats a figure, or says that it is not measured.
func shown(e length.Exact, u length.Unit, places int) string {
	if !e.Measured() {
		return "not measured"
	}
	return e.Format(u, places)
}
