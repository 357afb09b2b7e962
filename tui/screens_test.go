package tui

import (
	"fmt"
	"strings"
	"testing"

	"borewright/tui/draw"
	"borewright/tui/term"
)

// everyScreen opens each screen of the station on the demo session. A new
// screen is added here, and the tests of this file hold for it.
var everyScreen = map[string][]string{
	"bench":           nil,
	"bench finds":     {"f", "wake"},
	"bench found":     {"f", "wake", "<enter>"},
	"bench asks":      {"A"},
	"bench copies":    {"d"},
	"measure":         {"<enter>"},
	"measure keyed":   {"<enter>", "+3"},
	"measure held":    {"<enter>", "102", "<enter>"},
	"measure menu":    {"<enter>", "/"},
	"measure asks":    {"<enter>", "/", "5"},
	"measure goes":    {"<enter>", "/", "8", "A"},
	"doubt":           {"<enter>", "d"},
	"doubt of worst":  {"<enter>", "w", "d"},
	"gauges":          {"<enter>", "g"},
	"gauge":           {"<enter>", "g", "e"},
	"gauge zero":      {"<enter>", "g", "n"},
	"gauge chain":     {"<enter>", "/8", "2.1", "<enter>", "g", "n", "<right>", "<right>"},
	"gauge correct":   {"<enter>", "g", "c"},
	"gauge condition": {"<enter>", "g", "o", "2"},
	"measure suspect": {"<enter>", "/4", "+4", "<enter>", "2", "<enter>", "/8", "1", "<enter>"},
	"measure rezero":  {"<enter>", "/4", "+4", "<enter>"},
	"gauge rules":     {"<enter>", "g", "r"},
	"gauge expansion": {"<enter>", "g", "x", "<right>"},
	"worst":           {"<enter>", "w"},
	"log":             {"<enter>", "l"},
	"log finds":       {"<enter>", "l", "f", "/", "no"},
	"log notes":       {"<enter>", "l", "n", "x"},
	"limits":          {"<enter>", "b"},
	"limit":           {"<enter>", "b", "<enter>"},
	"limit alone":     {"<enter>", "b", "f"},
	"limit beside":    {"<enter>", "b", "<enter>", "<tab>", "95.3 mm"},
	"limit doubted":   {"<enter>", "b", "<enter>", "37.5", "<enter>"},
	"help":            {"<enter>", "?"},
	"help keys":       {"<enter>", "?", "*"},
	"prep new":        {"<enter>", "p"},
	"prep counted":    {"<enter>", "p", "3", "11"},
	"prep places":     {"<enter>", "p", "3", "11", "<enter>", "<enter>"},
	"prep held":       {"<enter>", "p", "1", "/8", "9", "<enter>", "<enter>"},
	"prep menu":       {"<enter>", "p", "2", "/"},
	"prep asks":       {"<enter>", "p", "2", "/9"},
	"prep figure":     {"<enter>", "p", "1", "/8", "12", "<enter>", "-.5"},
	"prep list":       {"<enter>", "p", "1", "e"},
	"prep adds":       {"<enter>", "p", "4", "e", "1"},
	"prep step":       {"<enter>", "p", "5", "e", "<enter>"},
	"prep own step":   {"<enter>", "p", "1", "e", "3", "x"},
	"fits":            {"<enter>", "v"},
	"fits to do":      {"<enter>", "v", "<right>"},
	"fits pistons":    {"<enter>", "v", "<right>", "<right>", "3"},
	"fits tried":      {"<enter>", "v", "3.7512", "<enter>"},
	"fits sure":       {"<enter>", "v", "3.7512", "<enter>", "i"},
	"givens":          {"<enter>", "v", "o"},
	"given honing":    {"<enter>", "v", "o", "1", "3.7512"},
	"given charge":    {"<enter>", "v", "o", "5"},
	"given bolts":     {"<enter>", "v", "o", "6", "<enter>", "<enter>", "50"},
	"given shells":    {"<enter>", "v", "o", "7", "<down>", "<down>", "0.001"},
	"given ladder":    {"<enter>", "v", "o", "8"},
	"given locks":     {"<enter>", "v", "o", "-", "-", "<up>", "9", "<esc>", "<down>", "<down>", "<enter>"},
	"hone":            {"<enter>", "v", "c"},
	"hone keyed":      {"<enter>", "v", "c", "20", "<enter>", "+7"},
	"hone counts":     {"<enter>", "v", "c", "20", "<enter>", "+7", "<enter>", "*", "6", "<enter>"},
	"sheet":           {"<enter>", "e"},
	"sheet both":      {"<enter>", "e", "u", "u", "<pgdown>", "<pgdown>"},
	"sheet tables":    {"<enter>", "w", "e", "f", "f"},
	"sheet written":   {"e", "f", "<enter>"},
	"sheet there":     {"<enter>", "e", "<enter>", "<enter>"},
	"setup new":       {"n"},
	"setup":           {"<enter>", "s"},
	"setup shop":      {"<enter>", "g", "k", "<esc>", "<esc>", "n", "1", "3.75", "<enter>"},
	"shop":            {"<enter>", "g", "k", "t"},
	"shop out of use": {"<enter>", "g", "k", "t", "x"},
}

func TestEveryScreenFitsEveryWindow(t *testing.T) {
	for name, keys := range everyScreen {
		s := newStation(t, 80, 24, "hillclimb", "launch")
		s.keys(keys...)
		for _, size := range [][2]int{{80, 24}, {81, 25}, {100, 30}, {140, 45}, {200, 60}, {300, 24}, {80, 100}, {79, 24}, {80, 23}, {20, 5}, {1, 1}} {
			w, h := size[0], size[1]
			s.r.resize(w, h)
			lines := strings.Split(s.r.View(), "\n")
			if len(lines) != h {
				t.Errorf("%s at %dx%d has %d lines", name, w, h, len(lines))
			}
			for i, line := range lines {
				if n := draw.Width(line); n > w {
					t.Errorf("%s at %dx%d: line %d is %d cells wide: %q", name, w, h, i, n, line)
				}
			}
			if w < 80 || h < 24 {
				continue
			}
			body, bw, bh := s.r.top().View(), w, h-frameLines
			if len(body) > bh {
				t.Errorf("%s at %dx%d: the body has %d lines of %d", name, w, h, len(body), bh)
			}
			for _, line := range body {
				if draw.Width(line) > bw {
					t.Errorf("%s at %dx%d: a body line is too wide: %q", name, w, h, line)
				}
			}
		}
	}
}

func TestEveryKeyIsBoundOnceAndHelped(t *testing.T) {
	for name, keys := range everyScreen {
		s := newStation(t, 80, 24, "hillclimb", "launch")
		s.keys(keys...)
		seen := map[string]bool{}
		for _, a := range s.r.actions() {
			for _, k := range a.Keys {
				if seen[k] {
					t.Errorf("%s binds %q twice", name, k)
				}
				seen[k] = true
				if a.Do != nil && a.Off == "" && len([]rune(k)) == 1 && s.r.top().Typing().takes(kindOf([]rune(k)[0])) {
					t.Errorf("%s binds %q, which it types", name, k)
				}
			}
			if a.Help == "" && a.Keys[0] != "pgup" && a.Keys[0] != "pgdown" {
				t.Errorf("%s: %v has no help", name, a.Keys)
			}
		}
	}
}

func kindOf(r rune) term.Kind {
	switch {
	case r >= '0' && r <= '9':
		return term.Digit
	case strings.ContainsRune("+-*/.,", r):
		return term.Star
	default:
		return term.Text
	}
}

func TestSmallWindowSaysSoAndLosesNothing(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "+")
	s.r.resize(60, 20)
	if got := s.r.View(); !strings.Contains(got, "80 x 24") {
		t.Errorf("a small window shows %q", got)
	}
	s.keys("9", "<enter>")
	s.r.resize(80, 24)
	s.keys("3")
	if got := top[*measure](s).keys.Text; got != "+3" {
		t.Errorf("after a small window the field holds %q, want +3", got)
	}
}

func TestHelpListsTheScreensOwnKeys(t *testing.T) {
	s := newStation(t, 80, 40, "launch")
	want := top[*bench](s).Actions()
	s.keys("?")
	got := strings.Join(top[*help](s).View(), "\n")
	for _, a := range want {
		if a.Help != "" && !strings.Contains(got, a.Help) {
			t.Errorf("the help page lacks %q:\n%s", a.Help, got)
		}
	}
	s.keys("<esc>")
	top[*bench](s)
}

func TestCtrlCAsksOnce(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.key("ctrl+c")
	if !strings.Contains(s.r.View(), "once more") {
		t.Error("Ctrl+C did not ask")
	}
	s.send(calm{})
	if s.r.asked {
		t.Error("the offer to leave still stands after a second")
	}
}

func ExampleAgo() {
	fmt.Println(Ago(noon.Add(-1), noon))
	fmt.Println(Ago(noon.AddDate(0, 0, -1), noon))
	fmt.Println(Ago(noon.AddDate(0, 0, -3), noon))
	fmt.Println(Ago(noon.AddDate(-1, 0, 0), noon))
	// Output:
	// today 07:29
	// yesterday 07:30
	// Sunday 07:30
	// 11 Mar 2025
}

// A long sentence is never cut: it takes lines from the foot of the body.
func TestALongSentenceIsReadWhole(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>")
	long := "the disk is full, so the reading is not kept: it stays on screen, marked; make room, for instance in the folder of backups, and it is kept by itself"
	s.st.Say(draw.Bad, long)
	view := s.r.View()
	if got := strings.Join(strings.Fields(view), " "); !strings.Contains(got, long) {
		t.Errorf("the sentence is cut:\n%s", view)
	}
	if n := len(strings.Split(view, "\n")); n != 24 {
		t.Errorf("the screen has %d lines", n)
	}
}
