package main

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/record"
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

// The demo was left ten minutes ago, whenever it is opened first, and nothing else
// of it is altered.
func TestDemoIsOfToday(t *testing.T) {
	t.Parallel()
	for _, name := range testdata.Names() {
		w := diskWorld()
		now := time.Date(2031, 7, 4, 6, 30, 15, 250, time.FixedZone("", -5*3600))
		w.Now = func() time.Time { return now }
		events, session, err := demoSession(w, name)
		if err != nil {
			t.Fatal(err)
		}
		last := events[len(events)-1]
		if want := "2031-07-04T06:20:15-05:00"; last.At.Format(time.RFC3339) != want {
			t.Errorf("%s ends at %s, want %s", name, last.At.Format(time.RFC3339), want)
		}
		data, _ := testdata.Session(name)
		file, err := record.ReadFile(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		written, then, err := replayFile(file, "demo-"+name, now, "")
		if err != nil {
			t.Fatal(err)
		}
		for i, e := range events {
			if !reflect.DeepEqual(e.Body, written[i].Body) || e.By != written[i].By || last.At.Sub(e.At) != written[len(events)-1].At.Sub(written[i].At) {
				t.Errorf("%s: event %d is %+v, was %+v", name, i+1, e.Event, written[i].Event)
			}
		}
		if got, want := engine.Assess(session).Summary(session), engine.Assess(then).Summary(then); !slices.Equal(got, want) {
			t.Errorf("%s: says %q, said %q", name, got, want)
		}
	}
}

func TestDemoOfSomethingElse(t *testing.T) {
	t.Parallel()
	if _, _, err := demoSession(diskWorld(), "lunch"); err == nil || err.Error() != `this program was built without the demo session "lunch"` {
		t.Errorf("said %v", err)
	}
}
