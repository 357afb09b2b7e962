package term

import (
	"bytes"
	"errors"
	"io"
	"os"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
)

// screen is a terminal that remembers which modes are on.
type screen struct {
	*vt.Emulator
	on     map[ansi.Mode]bool
	alt    bool
	hidden bool
}

func newScreen() *screen {
	s := &screen{Emulator: vt.NewEmulator(80, 24), on: map[ansi.Mode]bool{}}
	s.SetCallbacks(vt.Callbacks{
		AltScreen:        func(on bool) { s.alt = on },
		CursorVisibility: func(visible bool) { s.hidden = !visible },
		EnableMode:       func(m ansi.Mode) { s.on[m] = true },
		DisableMode:      func(m ansi.Mode) { s.on[m] = false },
	})
	return s
}

// fullScreen is what Bubble Tea and a program before it can have turned on.
const fullScreen = ansi.SetModeAltScreenSaveCursor + ansi.HideCursor +
	ansi.SetModeMouseButtonEvent + ansi.SetModeMouseAnyEvent + ansi.SetModeMouseExtSgr +
	ansi.SetModeFocusEvent + ansi.SetModeBracketedPaste +
	ansi.SetModeCursorKeys + ansi.KeypadApplicationMode

func TestRestore(t *testing.T) {
	s := newScreen()
	if _, err := io.WriteString(s, fullScreen); err != nil {
		t.Fatal(err)
	}
	if !s.alt || !s.hidden || len(s.on) < 8 {
		t.Fatalf("the screen did not follow: alternate %v, hidden %v, modes %v", s.alt, s.hidden, s.on)
	}
	if err := Restore(s); err != nil {
		t.Fatal(err)
	}
	if s.alt {
		t.Error("still on the alternate screen")
	}
	if s.hidden {
		t.Error("the cursor is still hidden")
	}
	for m, on := range s.on {
		if on && m != ansi.ModeTextCursorEnable {
			t.Errorf("mode %d is still on", m.Mode())
		}
	}
}

func TestRestoreLeavesNothingBehind(t *testing.T) {
	s := newScreen()
	if err := Restore(s); err != nil {
		t.Fatal(err)
	}
	if at := s.CursorPosition(); at.X != 0 || at.Y != 0 {
		t.Errorf("the cursor moved to %v", at)
	}
	if c := s.CellAt(0, 0); c != nil && c.Content != " " && c.Content != "" {
		t.Errorf("wrote %q on the screen", c.Content)
	}
}

func TestReset(t *testing.T) {
	s := newScreen()
	if _, err := io.WriteString(s, fullScreen); err != nil {
		t.Fatal(err)
	}
	if err := Reset(s); err != nil {
		t.Fatal(err)
	}
	if s.on[ansi.ModeNumericKeypad] || s.on[ansi.ModeCursorKeys] {
		t.Errorf("keypad or cursor keys still in application mode: %v", s.on)
	}
	if !s.alt || !s.on[ansi.ModeBracketedPaste] {
		t.Errorf("more than the keypad was reset: %v", s.on)
	}
	var b bytes.Buffer
	if err := Reset(&b); err != nil || b.String() != "\x1b>\x1b[?1l" {
		t.Errorf("wrote %q, %v", &b, err)
	}
}

func TestResetAndRestorePassErrors(t *testing.T) {
	lost := errors.New("line lost")
	if err := Reset(failing{lost}); !errors.Is(err, lost) {
		t.Errorf("Reset: %v", err)
	}
	if err := Restore(failing{lost}); !errors.Is(err, lost) {
		t.Errorf("Restore: %v", err)
	}
}

// Without a terminal there are no line settings, and the rest still works.
func TestPrepareWithoutATerminal(t *testing.T) {
	in, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = in.Close() }()
	var b bytes.Buffer
	restore, err := Prepare(in, &b)
	if err != nil || b.String() != keypadOff {
		t.Fatalf("wrote %q, %v", &b, err)
	}
	for range 2 {
		if err := restore(); err != nil {
			t.Fatal(err)
		}
	}
	if want := keypadOff + screenOff + keypadOff; b.String() != want {
		t.Errorf("wrote %q, want %q: once", &b, want)
	}
}
