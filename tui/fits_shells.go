package tui

import (
	"fmt"
	"strconv"

	"borewright/engine"
	"borewright/tui/draw"
)

// makeShells lists the bearings with the shells that are in them and the best
// of those on hand.
func (s *fits) makeShells(x engine.ShellPlan) fitsPage {
	now := s.now()
	p := fitsPage{
		name: "shells, " + x.Bearing.Noun() + "s", as: "as it is, upper/lower", best2: "best on hand", notes: x.Missing, best: x.Changes,
		asks: func(r fitsRow) string {
			if len(s.options(x, x.Rows[0].At)) == 0 {
				return "nothing is on hand to try in " + r.name
			}
			return "key the number of a pair to try in " + r.name
		},
		read: func(r fitsRow, text string) ([]engine.Change, error) { return s.pair(x, r, text) },
	}
	tried := now.s.Shells(now.a, x.Bearing)
	for i, r := range x.Rows {
		session := s.desk.Session
		row := fitsRow{name: r.Name, of: r.NowFit.Of}
		row.asIs = cellOf(session.ShellWord(r.Upper)+"/"+session.ShellWord(r.Lower), r.NowFit)
		row.finer = row.asIs
		if r.BestUpper != "" {
			row.finer = cellOf(r.BestUpper+"/"+r.BestLower, r.BestFit)
			row.best = s.bestPair(x, r)
		}
		if i < len(tried.Rows) {
			t := tried.Rows[i]
			row.tried = cellOf(now.s.ShellWord(t.Upper)+"/"+now.s.ShellWord(t.Lower), t.NowFit)
		}
		row.about = append(s.optionLines(x, r), gainLine(x))
		p.rows = append(p.rows, row)
	}
	return p
}

// gainLine says what the best of all would gain.
func gainLine(x engine.ShellPlan) string {
	text := "as it is against best on hand: " + engine.GainText(x.Now, x.Best)
	if !x.Proven {
		text += "; there are too many ways to say that none is better"
	}
	return text
}

// options are the pairs on hand for a bearing.
func (s *fits) options(x engine.ShellPlan, at int) []engine.ShellOption {
	out, _ := s.desk.Session.ShellOptions(s.desk.Now, x.Bearing, at)
	return out
}

// optionLines lists the pairs by number, several to a line.
func (s *fits) optionLines(x engine.ShellPlan, r engine.ShellRow) []string {
	u := s.desk.Session.Unit()
	var all []string
	for i, o := range s.options(x, r.At) {
		text := fmt.Sprintf("%d: %s/%s %s", i+1, o.Upper, o.Lower, o.Fit.Value.Format(u, u.Decimals()))
		if o.Shift.Sign() != 0 {
			text += ", centre " + o.Shift.FormatSigned(u, u.Decimals()+1)
		}
		all = append(all, text)
	}
	return packed(all, s.w-2)
}

// packed sets texts side by side, as many to a line as have room whole.
func packed(texts []string, w int) []string {
	var out []string
	for _, text := range texts {
		if n := len(out); n > 0 && draw.Width(out[n-1])+3+draw.Width(text) <= w {
			out[n-1] += "   " + text
			continue
		}
		out = append(out, text)
	}
	return out
}

// bestPair are the changes that fit the best pair of a row.
func (s *fits) bestPair(x engine.ShellPlan, r engine.ShellRow) []engine.Change {
	var out []engine.Change
	for _, c := range x.Changes {
		if c.Of == r.Upper || c.Of == r.Lower {
			out = append(out, c)
		}
	}
	return out
}

// pair reads the number of a pair on hand.
func (s *fits) pair(x engine.ShellPlan, r fitsRow, text string) ([]engine.Change, error) {
	i := 0
	for k, row := range x.Rows {
		if row.NowFit.Of == r.of {
			i = k
		}
	}
	all := s.options(x, x.Rows[i].At)
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > len(all) {
		return nil, fmt.Errorf("there are pairs 1 to %d, not %s", len(all), draw.Clean(text))
	}
	if len(all[n-1].Changes) == 0 {
		return nil, fmt.Errorf("pair %d is what is in", n)
	}
	return all[n-1].Changes, nil
}
