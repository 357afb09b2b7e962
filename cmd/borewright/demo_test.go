package main

import (
	"strings"
	"testing"

	"borewright/testdata"
)

// Without a terminal the demo prints a summary and touches nothing.
func TestDemoWithoutTerminal(t *testing.T) {
	t.Parallel()
	for _, args := range []string{"demo", "demo --complete", "demo --fresh", "demo --session hillclimb", "demo --session one-bore"} {
		s := newShelf()
		out := s.must(t, strings.Fields(args)...)
		if !strings.Contains(out, "\nWorst cylinder: ") || !strings.Contains(out, "a qualified person govern") {
			t.Errorf("%s printed %q", args, out)
		}
		if again := s.must(t, strings.Fields(args)...); again != out {
			t.Errorf("%s printed %q the second time", args, again)
		}
		if s.mem != nil || len(s.files) > 0 {
			t.Errorf("%s made %v, %v", args, s.mem, s.files)
		}
	}
}

func TestDemoChoosesASession(t *testing.T) {
	t.Parallel()
	s := newShelf()
	for args, name := range map[string]string{"demo": "launch", "demo --complete": "launch-complete", "demo --session launch": "launch"} {
		data, ok := testdata.Session(name)
		if !ok {
			t.Fatalf("there is no session %q", name)
		}
		s.files["f"] = data
		head, _, _ := strings.Cut(s.must(t, "assess", "f"), "\n\n")
		if got := s.must(t, strings.Fields(args)...); !strings.HasPrefix(got, head+"\n") {
			t.Errorf("%s printed\n%s\nwant the beginning\n%s", args, got, head)
		}
	}
}

func TestDemoOfSomethingElse(t *testing.T) {
	t.Parallel()
	if _, _, err := demoSession(diskWorld(), "lunch"); err == nil || err.Error() != `this program was built without the demo session "lunch"` {
		t.Errorf("said %v", err)
	}
}
