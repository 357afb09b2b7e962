package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/sheet"
	"borewright/tui/draw"
)

// sheetTop is how many lines stand above what is shown of the sheet.
const sheetTop = 6

// room is how many lines of the sheet are in view.
func (s *sheetScreen) room() int { return max(1, s.h-sheetTop) }

func (s *sheetScreen) scroll(by int) tea.Cmd {
	s.list.top = max(0, min(s.list.top+by, len(s.shown())-s.room()))
	return nil
}

// View draws what is chosen, where it goes, and the sheet.
func (s *sheetScreen) View() []string {
	p := &s.st.Palette
	lines := []string{s.choices("form", sheet.Forms(), s.form), s.unitLine()}
	lines = append(lines, draw.Box(s.where(), s.w, sheetTop-3)...)
	shown := s.shown()
	top := max(0, min(s.list.top, len(shown)-s.room()))
	end := min(len(shown), top+s.room())
	lines = append(lines, p.Paint(draw.Frame, draw.Rule(s.position(top, end, len(shown)), s.w, s.st.ASCII)))
	for _, line := range shown[top:end] {
		lines = append(lines, p.Paint(line.tone, draw.Cut(line.text, s.w)))
	}
	return lines
}

// sheetLabel is the width of the words before what is chosen.
const sheetLabel = 8

// choices shows what there is to choose from, with what is chosen in brackets.
func (s *sheetScreen) choices(label string, all []sheet.Form, at sheet.Form) string {
	out := " " + s.st.Palette.Paint(draw.Dim, draw.Fit(label, sheetLabel))
	for _, f := range all {
		out += s.choice(f.String(), f == at)
	}
	return out
}

func (s *sheetScreen) choice(text string, here bool) string {
	if here {
		return s.st.Palette.Paint(draw.Marked, "["+text+"] ")
	}
	return " " + text + "  "
}

func (s *sheetScreen) unitLine() string {
	out := " " + s.st.Palette.Paint(draw.Dim, draw.Fit("units", sheetLabel))
	if !s.form.Document() {
		return out + s.st.Palette.Paint(draw.Dim, " those of the session")
	}
	for i, u := range s.sheetUnits() {
		out += s.choice(unitsWord(u), i == s.units)
	}
	return out
}

func unitsWord(u sheet.Units) string {
	if u == sheet.Inch {
		return "inch"
	}
	return string(u)
}

// where says which file is written, and what became of it.
func (s *sheetScreen) where() []string {
	if why := s.whyNot(); why != "" {
		return wrapped(s.st, s.w, draw.Warn, capital(why)+".", sheetTop-3)
	}
	path, err := s.st.Folder.Path(s.fileName())
	switch {
	case err != nil:
		return wrapped(s.st, s.w, draw.Bad, err.Error(), sheetTop-3)
	case s.went != "":
		return wrapped(s.st, s.w, draw.Good, s.st.Signs.For(draw.Good)+" Written to "+s.went, sheetTop-3)
	case s.there:
		return wrapped(s.st, s.w, draw.Bad, s.st.Signs.For(draw.Bad)+" Not written: "+path+" is there already. o writes over it.", sheetTop-3)
	default:
		return wrapped(s.st, s.w, draw.Plain, "Enter writes "+path, sheetTop-3)
	}
}

func (s *sheetScreen) position(top, end, all int) string {
	if s.made == nil {
		return ""
	}
	text := fmt.Sprintf("to event %d", s.desk.Session.Head().N)
	if all > s.room() {
		text += fmt.Sprintf(", lines %d to %d of %d", top+1, end, all)
	}
	return text
}
