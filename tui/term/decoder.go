package term

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// The decoder's three spans of time.
const (
	// BurstWindow is the longest time from the third last character to the
	// Enter, Tab or Ctrl+C of a burst.
	BurstWindow = 30 * time.Millisecond
	// newlineWindow is the longest time from a CR to the LF that belongs to it.
	newlineWindow = 100 * time.Millisecond
	// keypadWindow is the longest time from ESC O to its letter. Both come in
	// one read; the rest is for an Update that was busy in between.
	keypadWindow = time.Second
)

// burstLen is how many characters, with Enter or Tab after them, make a burst.
const burstLen = 3

// Decoder turns key messages into tokens. It must see every key message of
// one input, in order. The zero value is ready. It reads no clock.
//
// What the terminal glued together it takes apart (a run of characters, a
// paste, an escape with the key after it), and what came apart it joins (a
// keypad key in application mode, CR LF), so that the tokens do not depend on
// how the input fell into messages. One thing it cannot mend: the bytes of
// one escape sequence read apart come as Escape and text.
type Decoder struct {
	altO   bool // alt+O came: the next letter may be a keypad key
	altOAt time.Time
	cr     bool // the last token was a CR
	crAt   time.Time
	typed  int                 // characters since the last token that was none
	last   [burstLen]time.Time // when the last of them came, by number modulo burstLen
}

// Decode returns the tokens of one key message that arrived at the given
// time; there may be none. An alt+O stays back until the next message shows
// what it is. A paste is taken as if it had been typed.
func (d *Decoder) Decode(msg tea.KeyMsg, at time.Time) []Token {
	var found []Token
	switch msg.Type {
	case tea.KeyRunes, tea.KeySpace:
		found = d.characters(msg, at)
	default:
		found = d.key(msg)
	}
	out := found[:0]
	for _, t := range found {
		if t.At.IsZero() {
			t.At = at
		}
		if d.pass(&t) {
			out = append(out, t)
		}
	}
	return out
}

// key decodes a key that is not a character.
func (d *Decoder) key(msg tea.KeyMsg) []Token {
	t, ok := special(msg.Type)
	if !ok {
		return nil
	}
	return append(d.release(), glued(t, msg.Alt)...)
}

// characters decodes a run of characters.
func (d *Decoder) characters(msg tea.KeyMsg, at time.Time) []Token {
	run := printable(msg)
	if len(run) == 0 {
		return nil
	}
	if t, ok := d.join(msg, run[0], at); ok {
		run[0] = t
		return run
	}
	out := d.release()
	if msg.Alt && !msg.Paste && run[0].Rune == 'O' {
		d.altO, d.altOAt = true, at
	} else {
		out = append(out, glued(run[0], msg.Alt)...)
	}
	return append(out, run[1:]...)
}

// printable is the tokens of a message's characters without those that are
// not taken.
func printable(msg tea.KeyMsg) []Token {
	runes := msg.Runes
	if msg.Type == tea.KeySpace {
		runes = []rune{' '}
	}
	var run []Token
	for _, r := range runes {
		if t, ok := character(r); ok {
			run = append(run, t)
		}
	}
	return run
}

// join returns the keypad key that a waiting alt+O and this first character
// make, if they do.
func (d *Decoder) join(msg tea.KeyMsg, first Token, at time.Time) (Token, bool) {
	if !d.altO || msg.Alt || msg.Paste || at.Sub(d.altOAt) > keypadWindow {
		return Token{}, false
	}
	t, ok := keypad[first.Rune]
	d.altO = !ok
	return t, ok
}

// release gives back a waiting alt+O as the letter it was.
func (d *Decoder) release() []Token {
	if !d.altO {
		return nil
	}
	d.altO = false
	return []Token{{Kind: Text, Rune: 'O', At: d.altOAt}}
}

// glued is a token with, if alt came with it, the Escape before it.
func glued(t Token, alt bool) []Token {
	if alt && splits(t.Kind) {
		return []Token{{Kind: Escape}, t}
	}
	return []Token{t}
}

// pass marks bursts and reports false for the LF of a CR LF.
func (d *Decoder) pass(t *Token) bool {
	afterCR := d.cr && t.At.Sub(d.crAt) <= newlineWindow
	d.cr = t.Kind == Enter && t.Rune == '\r'
	d.crAt = t.At
	if afterCR && t.Kind == Enter && t.Rune == '\n' {
		return false
	}
	if t.Kind.Character() {
		d.last[d.typed%burstLen] = t.At
		d.typed++
		return true
	}
	etx := t.Kind == Control && t.Name == "ctrl+c"
	if t.Kind == Enter || t.Kind == Tab || etx {
		t.Burst = d.typed >= burstLen && t.At.Sub(d.last[d.typed%burstLen]) <= BurstWindow
	}
	if etx && t.Burst {
		return true // the end of the line comes after it
	}
	t.Rune = 0
	d.typed = 0
	return true
}
