package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"borewright/engine"
)

// published is the AIAG MSA manual's study as a file.
func published(t *testing.T) *shelf {
	t.Helper()
	data, err := os.ReadFile("../../testdata/checks/aiag_10x3x3.csv")
	if err != nil {
		t.Fatal(err)
	}
	s := newShelf()
	s.files["aiag.csv"], s.stdin = data, string(data)
	return s
}

func TestStudyOfAPublishedFile(t *testing.T) {
	t.Parallel()
	for method, want := range map[string]string{
		"range": "  gauge                0.30578     26.68 %        7.12 %\n",
		"anova": "  gauge                0.30237     27.86 %        7.76 %\n",
	} {
		s := published(t)
		text := s.must(t, "study", "aiag.csv", "--method", method)
		if !strings.Contains(text, want) {
			t.Errorf("%s: %q is not in\n%s", method, want, text)
		}
		if again := s.must(t, "study", "--method="+method, "-"); again != text {
			t.Errorf("%s, from standard input:\n%s", method, again)
		}
		var r engine.StudyReport
		if err := json.Unmarshal([]byte(s.must(t, "study", "--json", "--method", method, "--tolerance", "5", "aiag.csv")), &r); err != nil {
			t.Fatal(err)
		}
		if gauge, ok := r.Component("gauge"); !ok || *r.Tolerance != 5 || *gauge.OfTolerance <= *gauge.OfTotal || r.Method != method {
			t.Errorf("%s: %+v of %v", method, gauge, r.Tolerance)
		}
		if s.mem != nil {
			t.Errorf("%s: a database was made", method)
		}
	}
	s := published(t)
	if s.must(t, "study", "aiag.csv") != s.must(t, "study", "aiag.csv", "--method", "anova") {
		t.Error("it is not by analysis of variance when nothing is said")
	}
}

func TestStudyRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text string
		args []string
		code int
		errs string
	}{
		{"", nil, 2, "study needs FILE"},
		{"", []string{"a.csv", "b.csv"}, 2, `study does not know what to do with "b.csv"`},
		{"", []string{"a.csv", "--method", "guess"}, 2, `there is no method "guess"; the methods are range and anova`},
		{"", []string{"none.csv"}, 1, "none.csv: file does not exist"},
		{"operator,part,trial,value\nA,1,1,1\n", []string{"a.csv", "--tolerance", "wide"}, 2, `tolerance "wide": not a unit known here: use in, mm, µm or µin`},
		{"operator,part,trial,value\nA,1,1,one\n", []string{"a.csv"}, 1, `a.csv: row 2, column value: "one": not a number with its unit`},
		{"operator,part,trial,value\nA,1,1,1\nA,1,1,2\n", []string{"a.csv"}, 1, `a.csv: operator "A", part "1", trial 1: this trial is there twice`},
		{"operator,part,trial,value\nA,1,1,1 in\nA,1,2,2\n", []string{"a.csv"}, 1, `a.csv: row 3, column value: "2": either every value states its unit or none does`},
	} {
		s := newShelf()
		s.files["a.csv"] = []byte(c.text)
		out, errs, code := s.run(append([]string{"study"}, c.args...)...)
		if code != c.code || errs != sentence(c.errs) || out != "" {
			t.Errorf("%q of %q ended with %d and said %q and %q, want %d and %q", c.args, c.text, code, out, errs, c.code, c.errs)
		}
	}
}

// Names from a file are shown without what a terminal would obey.
func TestStudyPrintsNothingRaw(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["a.csv"] = []byte("operator,part,trial,value\nA,p\u202eq,1,1\nA,p\u202eq,2,2\nA,r,1,1\n")
	for _, args := range [][]string{{"study", "a.csv"}, {"study", "a.csv", "--json"}} {
		if text := s.must(t, args...); strings.Contains(text, "\u202e") {
			t.Errorf("%q printed %q", args, text)
		}
	}
}

// A shell is offered the methods, else options and files.
func TestStudyCompletes(t *testing.T) {
	t.Parallel()
	for last, want := range map[string]string{"--method": "range\nanova\n", "aiag.csv": ""} {
		out, errs, code := published(t).run("study", last, "--generate-shell-completion")
		if out != want || errs != "" || code != 0 {
			t.Errorf("after %q it ended with %d and offered %q and %q, want %q", last, code, out, errs, want)
		}
	}
	out, _, _ := published(t).run("study", "--t", "--generate-shell-completion")
	if !strings.Contains(out, "--tolerance") {
		t.Errorf("of options it offered %q", out)
	}
}
