package tui

import (
	"bytes"
	"fmt"
	"os"
	"reflect"
	"runtime/debug"
	"sync"
	"testing"

	"borewright/engine/record"
)

// TestMain looks, when all tests are through, whether one of them has changed
// what all share. It collects garbage a fourth as often: the tests compute a
// quarter less.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	code := m.Run()
	demos.Range(func(name, shared any) bool {
		now, err := shared.(func() ([]record.Sealed, error))()
		if fresh, _ := readDemo(name.(string)); err == nil && !reflect.DeepEqual(now, fresh) {
			fmt.Printf("a test has changed the events of %s, which all tests share\n", name)
			code = 1
		}
		return true
	})
	os.Exit(code)
}

// demos are the demo sessions that were asked for. Reading each once for all tests
// halves what they compute.
var demos sync.Map

// demo returns the events of a demo session, which all tests share.
func demo(t *testing.T, name string) []record.Sealed {
	t.Helper()
	read, _ := demos.LoadOrStore(name, sync.OnceValues(func() ([]record.Sealed, error) { return readDemo(name) }))
	events, err := read.(func() ([]record.Sealed, error))()
	if err != nil {
		t.Fatal(err)
	}
	return events
}

func readDemo(name string) ([]record.Sealed, error) {
	data, err := os.ReadFile("../testdata/sessions/" + name + ".json")
	if err != nil {
		return nil, err
	}
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return file.Full.Events, nil
}
