package engine_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"borewright/engine/length"
)

// The table of outside checks is a file: figures from published documents that
// exported functions of ours must reproduce from what is given, at the printed
// digits. Adding one is adding a row; a row that needs a function nobody asked
// yet adds that to checkAsks.
const checkTable = "../testdata/checks.json"

// The least that the table holds, so that no row leaves it unnoticed.
const (
	leastChecks  = 362
	leastSources = 38
)

// unnamed are sources that are no document, and not counted as one.
var unnamed = []string{"derivation", "trade press"}

// checkRow is one row of the table.
type checkRow struct {
	ID     string        `json:"id"`
	Source []checkSource `json:"source"`
	// How the expected was had: any of seen (in print), recalc (computed again
	// from what is printed), memory (print not seen) and derived.
	How string `json:"how"`
	// Ask is the function of checkAsks that computes the expected from Given.
	Ask   string            `json:"ask"`
	Given map[string]string `json:"given"`
	// Expected is what is printed, each figure with its printed digits.
	Expected []string `json:"expected"`
	Note     string   `json:"note"`
}

// checkSource is where a row comes from: the document with its edition, and the
// page, section or table.
type checkSource struct {
	Document string `json:"document"`
	At       string `json:"at"`
}

// checkRows reads the table.
func checkRows(t *testing.T) []checkRow {
	t.Helper()
	file, err := os.Open(checkTable)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = file.Close() }()
	var table struct {
		Rows []checkRow `json:"rows"`
	}
	d := json.NewDecoder(file)
	d.DisallowUnknownFields()
	if err := d.Decode(&table); err != nil {
		t.Fatalf("%s: %v", checkTable, err)
	}
	return table.Rows
}

// answers asks the row's function.
func (r checkRow) answers() ([]checkAnswer, error) {
	ask, ok := checkAsks[r.Ask]
	if !ok {
		return nil, fmt.Errorf("there is no function %q to ask", r.Ask)
	}
	g := &checkGiven{texts: r.Given, used: map[string]bool{}}
	out := ask(g)
	for name := range r.Given {
		if !g.used[name] {
			g.fail("%q is given, but %q does not ask for it", name, r.Ask)
		}
	}
	return out, g.err
}

// compareCheck says in which way answers, written with the digits of what is
// expected, are not that.
func compareCheck(got []checkAnswer, expected []string) error {
	if len(got) != len(expected) {
		return fmt.Errorf("%d answers, %d expected", len(got), len(expected))
	}
	for i, want := range expected {
		if text := got[i](want); text != want {
			return fmt.Errorf("answer %d is %q, want %q", i+1, text, want)
		}
	}
	return nil
}

// untold says what the row does not tell of itself.
func (r checkRow) untold() string {
	for _, how := range strings.Split(r.How, ", ") {
		if !slices.Contains([]string{"seen", "recalc", "memory", "derived"}, how) {
			return "how it was had"
		}
	}
	for _, s := range r.Source {
		if s.Document == "" {
			return "the document it comes from"
		}
	}
	switch {
	case r.ID == "":
		return "its id"
	case len(r.Source) == 0:
		return "its source"
	case len(r.Expected) == 0 || slices.Contains(r.Expected, ""):
		return "what is expected"
	}
	return ""
}

// check returns what is wrong with the row, or with what was answered.
func (r checkRow) check() error {
	if what := r.untold(); what != "" {
		return fmt.Errorf("the row does not tell %s", what)
	}
	got, err := r.answers()
	if err != nil {
		return err
	}
	return compareCheck(got, r.Expected)
}

func TestChecks(t *testing.T) {
	t.Parallel()
	ids, sources, asked := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, r := range checkRows(t) {
		if ids[r.ID] {
			t.Errorf("two rows have the id %q", r.ID)
		}
		ids[r.ID], asked[r.Ask] = true, true
		for _, s := range r.Source {
			sources[s.Document] = true
		}
		if err := r.check(); err != nil {
			t.Errorf("%q, %s of %v: %v (%v)", r.ID, r.Ask, r.Given, err, r.Source)
		}
	}
	for name := range checkAsks {
		if !asked[name] {
			t.Errorf("no row asks for %q", name)
		}
	}
	for _, name := range unnamed {
		delete(sources, name)
	}
	t.Logf("%d checks from %d sources", len(ids), len(sources))
	if len(ids) < leastChecks || len(sources) < leastSources {
		t.Errorf("the table held %d checks from %d sources", leastChecks, leastSources)
	}
}

// TestChecksTellAlterations alters every expectation of the table in every way
// that alterations knows: none may pass.
func TestChecksTellAlterations(t *testing.T) {
	t.Parallel()
	rows := checkRows(t)
	words := checkWords(rows)
	altered := 0
	for _, r := range rows {
		got, err := r.answers()
		if err != nil {
			continue // TestChecks says so
		}
		for i, want := range r.Expected {
			for _, text := range alterations(want, words) {
				other := slices.Clone(r.Expected)
				other[i] = text
				altered++
				if compareCheck(got, other) == nil {
					t.Errorf("%s: %q passes for %q", r.ID, text, want)
				}
			}
		}
		if compareCheck(got, r.Expected[1:]) == nil || compareCheck(got, append(slices.Clone(r.Expected), "0")) == nil {
			t.Errorf("%s: it passes with another number of figures", r.ID)
		}
	}
	t.Logf("%d altered expectations", altered)
}

// checkWords returns every expectation of the table that is no number.
func checkWords(rows []checkRow) []string {
	var words []string
	for _, r := range rows {
		for _, text := range r.Expected {
			if _, err := length.ParseDecimal(text); err != nil {
				words = append(words, text)
			}
		}
	}
	slices.Sort(words)
	return slices.Compact(words)
}

// alterations returns what text must not be taken for: itself with any one digit
// one higher, a number with the other sign, and every word that is not it.
func alterations(text string, words []string) []string {
	var out []string
	for i, c := range []byte(text) {
		if c >= '0' && c <= '9' {
			out = append(out, text[:i]+string('0'+(c-'0'+1)%10)+text[i+1:])
		}
	}
	if d, err := length.ParseDecimal(text); err != nil || d.Coef == 0 {
		out = append(out, "-"+text)
	} else if rest, negative := strings.CutPrefix(text, "-"); negative {
		out = append(out, rest)
	} else {
		out = append(out, "-"+strings.TrimPrefix(text, "+"))
	}
	for _, word := range words {
		if word != text {
			out = append(out, word)
		}
	}
	return out
}
