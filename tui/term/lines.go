package term

import (
	"strings"
	"unicode/utf8"
)

// LongestLine is how many bytes a gauge's line may have. The rest of a longer
// one is dropped.
const LongestLine = 64

// longestCheck is how many characters a checksum outside a frame has at most.
const longestCheck = 2

// The characters that frame a line beside CR and LF.
const (
	stx = 0x02
	etx = 0x03
)

// LineFault says what is wrong with a line as a whole. The zero value is none.
type LineFault uint8

// The faults of a line.
const (
	LineWhole   LineFault = iota // none
	LineHurried                  // it came straight after another one
	LineUnheard                  // its beginning may have been missed
	LineBroken                   // it broke off: no end of line came
	LineLong                     // it is longer than LongestLine
)

// Line is what a gauge sent between two ends of a line: never empty, and with
// control characters still in it.
type Line struct {
	Text  string
	Fault LineFault
}

// Lines takes what a serial gauge sends apart into lines. The zero value is
// ready. CR, LF and CR LF end a line; STX begins one and ETX ends it, and what
// stands between an ETX and the next end of a line or STX, such as a checksum,
// is dropped.
//
// A line is whole only where it begins after a silence or after the end of
// another: the end of one that was sent while nobody listened yet is never taken
// for a value. One that comes straight after another is marked, for a gauge that
// sends faster than a hand can ask is not being read by a hand.
type Lines struct {
	line    []byte
	heard   bool // what comes next begins a line
	rush    bool // a line came since the last silence
	begun   bool // the beginning of the line that is coming was heard
	hurried bool // it came straight after another
	long    bool // some of it was dropped
	after   bool // an ETX came: what follows is no line
}

// Listening reports whether what comes next begins a line.
func (l *Lines) Listening() bool { return l.heard && len(l.line) == 0 }

// Take takes bytes as they were read and returns the lines that they end.
func (l *Lines) Take(read []byte) []Line {
	var out []Line
	for _, b := range read {
		switch {
		case b == '\r' || b == '\n':
			out = l.end(out, LineWhole)
			l.after, l.heard = false, true
		case b == stx:
			out = l.begin(out)
		case b == etx:
			out = l.end(out, LineWhole)
			l.after = true
		case !l.after:
			l.add(b)
		}
	}
	return out
}

// Silence says that nothing was read for longer than a line takes between two
// of its bytes. It returns the line that broke off, if there is one.
func (l *Lines) Silence() []Line {
	out := l.end(nil, LineBroken)
	l.after, l.heard, l.rush = false, true, false
	return out
}

// add puts a byte to the line. Blanks before it are no part of it.
func (l *Lines) add(b byte) {
	switch {
	case len(l.line) == 0 && (b == ' ' || b == '\t'):
	case len(l.line) == LongestLine:
		l.long = true
	default:
		if len(l.line) == 0 {
			l.begun, l.hurried = l.heard, l.rush
		}
		l.line, l.heard = append(l.line, b), false
	}
}

// begin begins a frame. A checksum of the frame before is dropped.
func (l *Lines) begin(out []Line) []Line {
	if len(l.line) > longestCheck {
		out = l.end(out, LineBroken)
	}
	l.line, l.long, l.after, l.heard = l.line[:0], false, false, true
	return out
}

// end ends the line and adds it to those that ended before.
func (l *Lines) end(out []Line, fault LineFault) []Line {
	if len(l.line) == 0 {
		return out
	}
	switch {
	case l.long:
		fault = LineLong
	case fault == LineWhole && !l.begun:
		fault = LineUnheard
	case fault == LineWhole && l.hurried:
		fault = LineHurried
	}
	out = append(out, Line{characters(l.line), fault})
	l.line, l.long, l.heard, l.rush = l.line[:0], false, true, true
	return out
}

// characters reads bytes as UTF-8, or else each as one character of ISO 8859-1,
// in which the sign for micro is one byte.
func characters(b []byte) string {
	if utf8.Valid(b) {
		return strings.TrimRight(string(b), " \t")
	}
	var s strings.Builder
	for _, c := range b {
		s.WriteRune(rune(c))
	}
	return strings.TrimRight(s.String(), " \t")
}
