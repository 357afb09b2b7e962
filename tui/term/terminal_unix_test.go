//go:build !windows

package term

import (
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	xterm "github.com/charmbracelet/x/term"
	"github.com/creack/pty"
)

// patience is how long a test waits for what must come; it is reached only
// when something is broken.
const patience = 20 * time.Second

// recorder is a program that decodes its keys and passes the tokens on.
type recorder struct {
	decoder *Decoder
	out     *Output
	tokens  chan<- Token
	sizes   chan<- tea.WindowSizeMsg
}

func (recorder) Init() tea.Cmd { return nil }

func (r recorder) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.KeyMsg:
		for _, t := range r.decoder.Decode(msg, noon) {
			if t.Kind == Navigation && t.Name == NavHome {
				r.out.Bell(1)
			}
			r.tokens <- t
		}
	case tea.WindowSizeMsg:
		r.sizes <- msg
	}
	return r, nil
}

func (recorder) View() string { return "listening" }

// station is a recorder that runs on a pseudo-terminal.
type station struct {
	t      *testing.T
	keys   *os.File // the terminal's side
	seen   chan string
	tokens chan Token
	sizes  chan tea.WindowSizeMsg
}

func newStation(t *testing.T) *station {
	t.Helper()
	outer, inner, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	if err := pty.Setsize(outer, &pty.Winsize{Rows: 24, Cols: 80}); err != nil {
		t.Fatal(err)
	}
	s := &station{
		t: t, keys: outer,
		seen:   make(chan string, 1024),
		tokens: make(chan Token, 1024),
		sizes:  make(chan tea.WindowSizeMsg, 16),
	}
	go s.watch()
	out := NewOutput(inner)
	p := tea.NewProgram(
		recorder{&Decoder{}, out, s.tokens, s.sizes},
		tea.WithInput(inner), tea.WithOutput(out), tea.WithoutSignalHandler(), tea.WithoutBracketedPaste(),
	)
	ended := make(chan error, 1)
	go func() {
		_, err := p.Run()
		ended <- err
	}()
	t.Cleanup(func() {
		p.Quit()
		select {
		case err := <-ended:
			if err != nil {
				t.Errorf("the program ended with %v", err)
			}
		case <-time.After(patience):
			t.Error("the program did not end")
		}
		_ = inner.Close()
		_ = outer.Close()
	})
	s.waitFor("listening")
	return s
}

// watch reads what the program draws until the terminal is closed.
func (s *station) watch() {
	buf := make([]byte, 4096)
	for {
		n, err := s.keys.Read(buf)
		if err != nil {
			return
		}
		s.seen <- string(buf[:n])
	}
}

// waitFor waits until the program has drawn text.
func (s *station) waitFor(text string) {
	s.t.Helper()
	var all strings.Builder
	for !strings.Contains(all.String(), text) {
		select {
		case part := <-s.seen:
			all.WriteString(part)
		case <-time.After(patience):
			s.t.Fatalf("waited for %q and saw %q", text, all.String())
		}
	}
}

// send types bytes in one write.
func (s *station) send(bytes string) {
	s.t.Helper()
	if _, err := io.WriteString(s.keys, bytes); err != nil {
		s.t.Fatal(err)
	}
}

// take returns the next n tokens.
func (s *station) take(n int) []Token {
	s.t.Helper()
	var got []Token
	for len(got) < n {
		select {
		case tok := <-s.tokens:
			got = append(got, tok)
		case <-time.After(patience):
			s.t.Fatalf("waited for %d tokens and got %s", n, show(got))
		}
	}
	return got
}

// press sends each part once all tokens of the part before it are there, and
// returns all tokens. The sentinel after them shows that none came on top.
func (s *station) press(parts ...part) string {
	s.t.Helper()
	const sentinel = "\x1b[24~" // f12: no character, no Enter
	var got []Token
	for _, p := range parts {
		s.send(p.bytes)
		got = append(got, s.take(len(strings.Fields(p.want)))...)
	}
	s.send(sentinel)
	for {
		tok := s.take(1)[0]
		if tok.Name == "f12" {
			return show(got)
		}
		got = append(got, tok)
	}
}

// part is a write and the tokens it must give.
type part struct{ bytes, want string }

// What terminals send for the keys, measured on xterm 379 and VTE 0.70 and
// read in the sources of others, and what must become of it.
func TestKeysOfATerminal(t *testing.T) {
	s := newStation(t)
	tests := []struct {
		name  string
		parts []part
	}{
		{"NumLock on", []part{{"0123456789.+-*/\r", "di:0 di:1 di:2 di:3 di:4 di:5 di:6 di:7 di:8 di:9 po:. pl:+ mi:- st:* sl:/ enter!"}}},
		{"German keypad", []part{{"3,5\n", "di:3 po:, di:5 enter!"}}},
		{"NumLock off, digits", []part{{"\x1b[2~\x1b[F\x1b[B\x1b[6~\x1b[D", "nav:insert nav:end nav:down nav:pgdown nav:left"}}},
		{"NumLock off, more", []part{{"\x1b[C\x1b[H\x1b[A\x1b[5~\x1b[3~", "nav:right nav:home nav:up nav:pgup nav:delete"}}},
		{"NumLock off, 5", []part{{"\x1b[E", ""}}},
		{"NumLock off, cursor keys in application mode", []part{{"\x1bOF", "nav:end"}, {"\x1bOE", "nav:middle"}, {"\x1bOH", "nav:home"}, {"\x1bOB\x1bOD\x1bOC\x1bOA", "nav:down nav:left nav:right nav:up"}}},
		{"operators in application mode", []part{{"\x1bOk", "pl:+"}, {"\x1bOl", "pl:+"}, {"\x1bOm", "mi:-"}, {"\x1bOj", "st:*"}, {"\x1bOo", "sl:/"}, {"\x1bOX", "te:="}}},
		{"digits in application mode", []part{{"\x1bOp\x1bOq\x1bOr\x1bOs\x1bOt\x1bOu\x1bOv\x1bOw\x1bOx\x1bOy\x1bOn", "di:0 di:1 di:2 di:3 di:4 di:5 di:6 di:7 di:8 di:9 po:."}}},
		{"Enter in application mode", []part{{"\x1bOM", "enter"}}},
		{"Enter in application mode and digits", []part{{"\x1bOM123", "enter di:1 di:2 di:3"}}},
		{"a value in application mode", []part{{"\x1bOs\x1bOn\x1bOv\x1bOM", "di:3 po:. di:6 enter!"}}},
		{"PuTTY's operators", []part{{"\x1bOP\x1bOQ\x1bOR\x1bOS", "unk:f1 unk:f2 unk:f3 unk:f4"}}},
		{"CR", []part{{"\r", "enter"}}},
		{"LF", []part{{"\n", "enter"}}},
		{"CR LF", []part{{"\r\n", "enter"}}},
		{"CR LF in two writes", []part{{"\r", "enter"}, {"\n", ""}}},
		{"newer keypad reports", []part{{"\x1b[G\x1b[1;2E\x1b[57414u\x1b[13u\x1b[27;2;13~", ""}}},
		{"escape alone", []part{{"\x1b", "escape"}}},
		{"escape glued to 5", []part{{"\x1b5", "escape di:5"}}},
		{"escape, then 5", []part{{"\x1b", "escape"}, {"5", "di:5"}}},
		{"a sequence torn apart", []part{{"\x1b", "escape"}, {"[A", "te:[ te:A"}}},
		{"two values in one write", []part{{"12.345\r12.346\r", "di:1 di:2 po:. di:3 di:4 di:5 enter! di:1 di:2 po:. di:3 di:4 di:6 enter!"}}},
		{"spaces and a unit", []part{{"12.3 mm\r\n", "di:1 di:2 po:. di:3 te:_ te:m te:m enter!"}}},
		{"STX and ETX", []part{{"\x0212\x03", "con:ctrl+b di:1 di:2 con:ctrl+c"}}},
		{"bracketed paste", []part{{"\x1b[200~12.3\n\x1b[201~", "di:1 di:2 po:. di:3 enter!"}}},
		{"bracketed paste of lines", []part{{"\x1b[200~1\r\n2\r\x1b[201~", "di:1 enter di:2 enter"}}},
		{"U+2212", []part{{"\u22122", "mi:\u2212 di:2"}}},
		{"bytes that are no UTF-8", []part{{"\x801\xff", "di:1"}}},
		{"BS and DEL", []part{{"\x08\x7f", "erase erase"}}},
		{"tabs", []part{{"\t\x1b[Z", "tab shift+tab"}}},
		{"NUL", []part{{"\x001", "di:1"}}},
	}
	for _, tt := range tests {
		var all []string
		for _, p := range tt.parts {
			all = append(all, strings.Fields(p.want)...)
		}
		want := strings.Join(all, " ")
		if got := s.press(tt.parts...); got != want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.name, got, want)
		}
	}
	long := strings.Repeat("7", 300)
	if got, want := s.press(part{long + "\r", ""}), strings.Repeat("di:7 ", 300)+"enter!"; got != want {
		t.Errorf("300 digits: %s", got)
	}
}

// The size of the terminal is measured through the output, and the bell goes
// out beside the frames.
func TestOutputOnATerminal(t *testing.T) {
	s := newStation(t)
	select {
	case size := <-s.sizes:
		if got := fmt.Sprintf("%dx%d", size.Width, size.Height); got != "80x24" {
			t.Errorf("size %s, want 80x24", got)
		}
	case <-time.After(patience):
		t.Fatal("no size was reported")
	}
	s.send("\x1b[H")
	s.waitFor(bel)
}

// After an end that Bubble Tea did not see, the line settings come back.
func TestPrepareRestoresTheLine(t *testing.T) {
	outer, inner, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = outer.Close() }()
	defer func() { _ = inner.Close() }()
	before, err := xterm.GetState(inner.Fd())
	if err != nil {
		t.Fatal(err)
	}
	restore, err := Prepare(inner, inner)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := xterm.MakeRaw(inner.Fd()); err != nil {
		t.Fatal(err)
	}
	if raw, err := xterm.GetState(inner.Fd()); err != nil || *raw == *before {
		t.Fatalf("the line is not raw: %v", err)
	}
	if err := restore(); err != nil {
		t.Fatal(err)
	}
	after, err := xterm.GetState(inner.Fd())
	if err != nil {
		t.Fatal(err)
	}
	if *after != *before {
		t.Errorf("line settings %v, want %v", *after, *before)
	}
}
