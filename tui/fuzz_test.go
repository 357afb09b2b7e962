package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/tui/draw"
)

// typed makes the key messages of bytes as a terminal in raw mode would send
// them: control characters are keys of their own, runs of others one message.
func typed(data []byte) []tea.KeyMsg {
	var out []tea.KeyMsg
	run := false
	for _, r := range string(data) {
		switch {
		case r < ' ' || r == 0x7f:
			out = append(out, tea.KeyMsg{Type: tea.KeyType(r)})
			run = false
		case r >= 0xE000 && r < 0xE080: // arrows, function keys and their like
			out = append(out, tea.KeyMsg{Type: tea.KeyType(-(r - 0xE000) - 2)})
			run = false
		case run:
			out[len(out)-1].Runes = append(out[len(out)-1].Runes, r)
		default:
			out = append(out, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
			run = true
		}
	}
	return out
}

// FuzzKeyedBytes: whatever is keyed, no screen breaks, nothing a terminal would
// obey is drawn, and what was taken replays to the state that is shown.
func FuzzKeyedBytes(f *testing.F) {
	for _, keys := range []string{
		"\r+3\r", "\r/+3\r102\r*/1", "\r\x0212.5\r\n\x03\x0212.5\r\n\x03", "\rwd\x1b\x1bl\x1bb\r37.5\r", "n\r\t\rpond\r",
		"\rp3\r11\r\r/8", "\rg\x1bv3.7512\ri\r", "f\u202ea\x1b\r", "\r/4+4\r2\r/8\r1\r", "\r-.\r+\r..\r1,5-\r\r\r",
		"\ue000\ue001\ue010", "?\x1b\x1bq", "\rs\r\x1b", "A\rd\r",
	} {
		f.Add([]byte(keys))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 100 {
			return
		}
		s := newStation(t, 80, 24, "launch")
		for _, msg := range typed(data) {
			if msg.Type == tea.KeyCtrlC {
				s.r.Update(msg) // and do not wait a second for what it offers to end
			} else {
				s.send(msg)
			}
			if msg.Type != tea.KeyRunes {
				checkFrame(t, s, data)
			}
		}
		checkFrame(t, s, data)
		for uid, events := range s.book.sessions {
			if _, err := engine.Replay(events); err != nil {
				t.Fatalf("%q leaves the session %s with %v", data, uid, err)
			}
		}
	})
}

func checkFrame(t *testing.T, s *station, keyed []byte) {
	t.Helper()
	lines := strings.Split(s.r.View(), "\n")
	if len(lines) != 24 {
		t.Fatalf("%q on %s: %d lines", keyed, s.r.top().Title(), len(lines))
	}
	for _, line := range lines {
		if draw.Width(line) > 80 || strings.ContainsFunc(line, draw.Obeyed) {
			t.Fatalf("%q on %s draws %q", keyed, s.r.top().Title(), line)
		}
	}
}
