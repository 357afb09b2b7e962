package sheet

import "strings"

// wrap breaks a text into lines of at most w points in the present font, at
// blanks, and inside a word only where it alone is wider.
func (p *printer) wrap(text string, w float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(drawable(text)) {
		joined := strings.TrimPrefix(line+" "+word, " ")
		if p.f.GetStringWidth(joined) <= w {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for word != "" && p.f.GetStringWidth(word) > w {
			head := p.cut(word, w)
			lines, word = append(lines, head), word[len(head):]
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// cut returns the longest beginning of a text that fits, one character at
// least.
func (p *printer) cut(text string, w float64) string {
	end := 0
	for i, r := range text {
		next := i + len(string(r))
		if end > 0 && p.f.GetStringWidth(text[:next]) > w {
			break
		}
		end = next
	}
	return text[:end]
}

// longest is the width of the widest word of a text.
func (p *printer) longest(text string) float64 {
	most := 0.0
	for _, word := range strings.Fields(drawable(text)) {
		most = max(most, p.f.GetStringWidth(word))
	}
	return most
}
