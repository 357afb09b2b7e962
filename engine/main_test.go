package engine_test

import (
	"os"
	"runtime/debug"
	"testing"
)

// TestMain collects garbage a fourth as often: a session is small, and the tests
// take a third less time.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
