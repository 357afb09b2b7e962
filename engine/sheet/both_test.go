package sheet

import (
	"strings"
	"testing"
)

// In both units there is one table where in either there is one: each figure
// has the other unit's below it, and nothing of either is lost.
func TestBothUnitsStandInOneTable(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"launch-complete", "launch", "hillclimb", "one-bore"} {
		s := session(t, name, 0)
		other := Units(s.OtherUnit().String())
		own, there, both := tablesOf(built(t, s, "")), tablesOf(built(t, s, other)), tablesOf(built(t, s, Both))
		if len(both) != len(own) || len(both) != len(there) {
			t.Fatalf("%s: %d tables in both units, %d and %d in one", name, len(both), len(own), len(there))
		}
		figures := 0
		for i, table := range both {
			for r, row := range table.Rows {
				for c, cell := range row {
					if cell.Text != own[i].Rows[r][c].Text {
						t.Errorf("%s, %s: %q for %q", name, table.Caption, cell.Text, own[i].Rows[r][c].Text)
					}
					want := there[i].Rows[r][c].Text
					if cell.Below != "" {
						figures++
					}
					if cell.Number && want != cell.Text && cell.Below != want {
						t.Errorf("%s, %s: below %q stands %q, want %q", name, table.Caption, cell.Text, cell.Below, want)
					}
				}
			}
		}
		if figures < 4 {
			t.Errorf("%s: %d figures stand in both units", name, figures)
		}
		page := string(pageOf(t, built(t, s, Both)))
		if !strings.Contains(page, "<br>") || strings.Count(page, "<h3>") != len(both) {
			t.Errorf("%s: the page has %d tables, want %d", name, strings.Count(page, "<h3>"), len(both))
		}
	}
}

func tablesOf(s Sheet) []Table {
	var out []Table
	for _, x := range s.Sections {
		out = append(out, x.Tables...)
	}
	return out
}
