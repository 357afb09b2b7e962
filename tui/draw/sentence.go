package draw

import (
	"fmt"
	"strings"
)

// clauseEnd parts the clauses of a sentence.
const clauseEnd = "; "

// CutSentence shortens a plain sentence to at most w cells: its last clauses go,
// or else it ends at a word with the mark of a cut behind it.
func CutSentence(s string, w int) string {
	if w < 1 || Width(s) <= w {
		return Cut(s, w)
	}
	for at := len(s); at > 0; {
		if at = strings.LastIndex(s[:at], clauseEnd); at > 0 && Width(s[:at]) <= w {
			return s[:at]
		}
	}
	for at := len(s); at > 0; {
		if at = strings.LastIndex(s[:at], " "); at > 0 && Width(s[:at]) <= w-2 {
			return s[:at] + " " + cutMark
		}
	}
	return Cut(s, w)
}

// SomeClauses wraps a plain sentence into at most so many rows of w cells. Where
// it is longer its last clauses go, and it says how many more there are.
func SomeClauses(s string, w, rows int) []string {
	lines := Wrap(s, w)
	clauses := strings.Split(s, clauseEnd)
	for n := len(clauses) - 1; len(lines) > rows && n > 0; n-- {
		lines = Wrap(fmt.Sprintf("%s%s%d more", strings.Join(clauses[:n], clauseEnd), clauseEnd, len(clauses)-n), w)
	}
	if len(lines) <= rows {
		return lines
	}
	if rows < 1 {
		return nil
	}
	lines = Wrap(s, w)
	return append(lines[:rows-1], CutSentence(strings.Join(lines[rows-1:], " "), w))
}

// Begin is the beginning of a plain text in at most w cells, where the whole of
// it is to be read elsewhere: as many whole sentences as fit, else what comes
// before a colon, a semicolon or a comma, and nothing where not even that fits.
func Begin(s string, w int) string {
	if Width(s) <= w {
		return s
	}
	for _, ends := range [][]string{{". "}, {clauseEnd, ": ", ", "}} {
		most := 0
		for _, end := range ends {
			for at := len(s); at > most; {
				if at = strings.LastIndex(s[:at], end); at > most && Width(s[:at]) <= w {
					most = at
				}
			}
		}
		if most > 0 {
			return s[:most]
		}
	}
	return ""
}
