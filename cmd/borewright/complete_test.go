package main

import (
	"strings"
	"testing"

	"borewright/store"
)

// offered returns the words that are offered after args, without their
// descriptions.
func offered(t *testing.T, s *shelf, args string) []string {
	t.Helper()
	out := s.must(t, append(strings.Fields(args), "--generate-shell-completion")...)
	var words []string
	for line := range strings.Lines(out) {
		word, _, _ := strings.Cut(strings.TrimSpace(line), ":")
		words = append(words, word)
	}
	return words
}

func TestCompletion(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	for args, want := range map[string]string{
		"completion":           "bash zsh fish pwsh",
		"list":                 "",
		"list --j":             "--json",
		"assess":               "", // the shell offers files
		"assess --s":           "--strict",
		"assess --strict":      "",
		"assess -":             "",
		"import":               "",
		"import --a":           "--as-new",
		"export":               "NOTES01B BENCH02SESSION NOTES01A",
		"export --force":       "NOTES01B BENCH02SESSION NOTES01A",
		"export -o f":          "NOTES01B BENCH02SESSION NOTES01A",
		"export -o":            "",
		"export --output":      "",
		"export --o":           "--output",
		"export NOTES01A":      "",
		"--db x export":        "", // there is no such database
		"schema":               "session assessment",
		"schema --":            "--help --db",
		"schema session":       "",
		"demo --session":       "hillclimb launch launch-complete one-bore",
		"demo --c":             "--complete",
		"demo":                 "",
		"export -- NOTES01A x": "",
	} {
		if got := strings.Join(offered(t, s, args), " "); got != want {
			t.Errorf("after %q: offered %q, want %q", args, got, want)
		}
	}
}

func TestCompletionOffersTitles(t *testing.T) {
	t.Parallel()
	out := stocked(t).must(t, "export", "--generate-shell-completion")
	if want := "NOTES01B:\nBENCH02SESSION:One bore\nNOTES01A:First notes\n"; out != want {
		t.Errorf("offered %q, want %q", out, want)
	}
}

func TestCompletionOfABusyDatabase(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	s.busy = &store.FileError{Path: "bench.db", Kind: store.ErrBusy}
	if got := offered(t, s, "export"); got != nil {
		t.Errorf("offered %q", got)
	}
}

func TestFishOffersFiles(t *testing.T) {
	t.Parallel()
	s := newShelf()
	if out := s.must(t, "completion", "fish"); !strings.Contains(out, "complete -c borewright -f ") || !strings.HasSuffix(out, fishFiles) {
		t.Errorf("the script is\n%s", out)
	}
	for _, shell := range []string{"bash", "zsh", "pwsh"} {
		if out := s.must(t, "completion", shell); strings.Contains(out, fishFiles) {
			t.Errorf("the script for %s is\n%s", shell, out)
		}
	}
}
