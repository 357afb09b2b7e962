package sheet

import (
	"strings"
	"unicode"
)

// clean makes a text from outside fit for one line of a document: blanks and
// line breaks become one blank each; control, bidirectional and other
// characters without a shape are left out, and so is what is not UTF-8.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == unicode.ReplacementChar || !unicode.IsGraphic(r):
			return -1
		default:
			return r
		}
	}, text)
	return strings.TrimSpace(text)
}

// clean returns the section with every text of it clean.
func (s Section) clean() Section {
	s.Heading = clean(s.Heading)
	for i, n := range s.Notes {
		s.Notes[i] = clean(n)
	}
	for i, t := range s.Tables {
		t = t.tidy()
		t.Caption = clean(t.Caption)
		for c, name := range t.Columns {
			t.Columns[c] = clean(name)
		}
		s.Tables[i] = t
		for _, row := range s.Tables[i].Rows {
			for i := range row {
				row[i].Text, row[i].Below = clean(row[i].Text), clean(row[i].Below)
			}
		}
	}
	for i, p := range s.Pictures {
		s.Pictures[i].Caption = clean(p.Caption)
		for i := range p.Words {
			p.Words[i].Text = clean(p.Words[i].Text)
		}
	}
	return s
}
