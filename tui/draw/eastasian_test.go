package draw

import (
	"os"
	"os/exec"
	"testing"
)

// The width tables are chosen when the program starts, so the sizes are checked
// again in a process that was started with East Asian widths.
func TestSizesHoldWithEastAsianWidths(t *testing.T) {
	const name = "RUNEWIDTH_EASTASIAN"
	if os.Getenv(name) == "1" {
		if Width("│") != 2 {
			t.Fatal("East Asian widths are not in force")
		}
		return
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=Fit|Rectangle|LineUp|BigIn|ShowsTheSide|OneCell|EastAsian")
	cmd.Env = append(os.Environ(), name+"=1")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}
