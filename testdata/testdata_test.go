package testdata_test

import (
	"encoding/json"
	"slices"
	"testing"

	"borewright/testdata"
)

func TestSessions(t *testing.T) {
	t.Parallel()
	names := testdata.Names()
	if !slices.IsSorted(names) || !slices.Contains(names, "one-bore") {
		t.Errorf("the names are %q", names)
	}
	for _, name := range names {
		data, ok := testdata.Session(name)
		if !ok || !json.Valid(data) {
			t.Errorf("%s is no JSON, %v", name, ok)
		}
	}
}

func TestNoSession(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"", "launch.json", "../testdata", "sessions", "/etc/hosts"} {
		if data, ok := testdata.Session(name); ok || data != nil {
			t.Errorf("there is a session %q of %d bytes", name, len(data))
		}
	}
}
