package tui

import (
	"errors"
	"strings"
	"testing"
)

func TestTheBenchBacksUp(t *testing.T) {
	s := newStation(t, 140, 24, "launch")
	made := 0
	s.st.Backup = func() (string, error) { made++; return "backups/000002.db", nil }
	s.keys("<esc>", "b")
	if !strings.Contains(s.r.View(), "backed up and checked: backups/000002.db") || made != 1 {
		t.Errorf("%d backups were made, and it shows\n%s", made, s.r.View())
	}
	s.st.Backup = func() (string, error) { return "", errors.New("the disk is full") }
	s.keys("b")
	if !strings.Contains(s.r.View(), "no backup was made: the disk is full") {
		t.Errorf("a failure shows\n%s", s.r.View())
	}
}
