//go:build !windows

package probe_test

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	_ "borewright/tui/term/probe"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/creack/pty"
)

// The test binary itself is the program under test: with this variable set it
// runs as that program instead of running tests.
const role = "BOREWRIGHT_PROBE_TEST"

const (
	quiet  = "quiet"  // a tiny program
	asking = "asking" // the same, after asking for the background
)

const (
	query = "\x1b]11"
	ready = "first frame"
)

type tiny struct{}

func (tiny) Init() tea.Cmd { return nil }
func (tiny) View() string  { return ready }

func (m tiny) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.KeyMsg); ok {
		return m, tea.Quit
	}
	return m, nil
}

func TestMain(m *testing.M) {
	switch os.Getenv(role) {
	case asking:
		_ = lipgloss.NewRenderer(os.Stdout).HasDarkBackground()
		fallthrough
	case quiet:
		if _, err := tea.NewProgram(tiny{}).Run(); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// start runs the program in the given role on a terminal that answers no
// questions, waits for the text, ends it with a key, and returns all that it
// wrote up to the text.
func start(t *testing.T, as, until string) string {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = []string{role + "=" + as, "TERM=xterm-256color", "PATH=" + os.Getenv("PATH")}
	terminal, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = terminal.Close() }()
	defer func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}()
	seen := make(chan string)
	go func() {
		defer close(seen)
		buf := make([]byte, 4096)
		for {
			n, err := terminal.Read(buf)
			if err != nil {
				return
			}
			seen <- string(buf[:n])
		}
	}()
	// An unanswered question holds a program for five seconds.
	late := time.After(4 * time.Second)
	var all strings.Builder
	for !strings.Contains(all.String(), until) {
		select {
		case part, more := <-seen:
			if !more {
				t.Fatalf("the program ended after writing %q", all.String())
			}
			all.WriteString(part)
		case <-late:
			t.Fatalf("no %q after writing %q", until, all.String())
		}
	}
	if until == ready {
		end(t, cmd, terminal, seen)
	}
	return all.String()
}

// end types a key and waits for the program's orderly end.
func end(t *testing.T, cmd *exec.Cmd, terminal io.Writer, seen <-chan string) {
	t.Helper()
	if _, err := io.WriteString(terminal, "q"); err != nil {
		t.Fatal(err)
	}
	for range seen { // until the terminal is closed from the other side
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("the program ended with %v", err)
	}
}

func TestNothingIsAskedAtTheStart(t *testing.T) {
	if got := start(t, quiet, ready); strings.Contains(got, "\x1b]") || strings.Contains(got, "\x1b[6n") {
		t.Errorf("the program asked the terminal something: %q", got)
	}
}

// The terminal of the test is one that would be asked: without this the test
// above could not fail.
func TestTheTerminalWouldBeAsked(t *testing.T) {
	if got := start(t, asking, query); strings.Contains(got, ready) {
		t.Errorf("the first frame came before the question: %q", got)
	}
}
