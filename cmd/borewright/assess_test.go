package main

import (
	"encoding/json"
	"strings"
	"testing"

	"borewright/engine"
)

// The four figures of one bore: limits as TM 9-6115-670-14&P judges wear,
// readings invented; the figures were worked out by hand.
func TestAssessOneBore(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["one.json"] = []byte(oneBore(t))
	var got engine.Report
	text := s.must(t, "assess", "--json", "one.json")
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatal(err)
	}
	bore := got.Features[0]
	var round []string
	for _, l := range bore.Levels {
		round = append(round, l.OutOfRound)
	}
	if bore.OverallSpread != "0.103 mm" || bore.EndToEnd != "0.097 mm" || bore.Spread != "0.097 mm" ||
		strings.Join(round, ", ") != "0.043 mm, 0.012 mm, 0.006 mm" {
		t.Errorf("the figures are %+v", bore)
	}
	if len(got.Findings) != 1 || got.Findings[0].Value != "0.103 mm" || got.Findings[0].High != "0.15 mm" {
		t.Errorf("the findings are %+v", got.Findings)
	}
	plain := s.must(t, "assess", "one.json")
	for _, figure := range []string{"overall spread 0.103", "0.043", "0.012", "0.006", "across +0.097", "along +0.060"} {
		if !strings.Contains(plain, figure) {
			t.Errorf("%q is not in\n%s", figure, plain)
		}
	}
	if again := s.must(t, "assess", "--json", "one.json"); again != text {
		t.Errorf("the second time it is\n%s\nnot\n%s", again, text)
	}
	if s.mem != nil {
		t.Error("a database was made")
	}
}

func TestAssessReadsStandardInput(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["one.json"] = []byte(oneBore(t))
	s.stdin = oneBore(t)
	if got, want := s.must(t, "assess", "-"), s.must(t, "assess", "one.json"); got != want || got == "" {
		t.Errorf("printed %q, want %q", got, want)
	}
}

func TestAssessStrict(t *testing.T) {
	t.Parallel()
	for limit, want := range map[string]struct {
		code int
		errs string
	}{
		"0.15":  {0, ""},
		"0.103": {0, ""}, // on the limit is inside
		"0.102": {3, "borewright: 1 finding outside its limits\n"},
	} {
		s := newShelf()
		s.files["one.json"] = []byte(strings.Replace(oneBore(t), "0.15", limit, 1))
		for _, form := range []string{"--json=false", "--json"} {
			out, errs, code := s.run("assess", "--strict", form, "one.json")
			if code != want.code || errs != want.errs || out == "" {
				t.Errorf("with a limit of %s it ended with %d and said %q", limit, code, errs)
			}
		}
		if _, errs, code := s.run("assess", "one.json"); code != 0 || errs != "" {
			t.Errorf("not strict, it ended with %d and said %q", code, errs)
		}
	}
}

// A file from elsewhere can hold characters that turn text around or hide it.
func TestAssessPrintsNothingRaw(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["f"] = []byte(strings.Replace(oneBore(t), "One bore", "One\u202e\u200b bore", 1))
	if out := s.must(t, "assess", "f"); !strings.HasPrefix(out, "One bore\n") || strings.ContainsAny(out, "\u202e\u200b") {
		t.Errorf("printed %q", out)
	}
	out := s.must(t, "assess", "--json", "f")
	if strings.ContainsAny(out, "\u202e\u200b") {
		t.Errorf("printed %q", out)
	}
	var report engine.Report
	if err := json.Unmarshal([]byte(out), &report); err != nil || report.Title != "One\u202e\u200b bore" {
		t.Errorf("the title reads %q, %v", report.Title, err)
	}
}
