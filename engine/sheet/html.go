package sheet

import (
	"bytes"
	_ "embed" // the template and the style of the page
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

//go:embed sheet.tmpl
var pageText string

//go:embed sheet.css
var style string

// page returns the template of a sheet; what a session says is escaped by it. It is
// parsed at its first use: at every start it took 0.2 ms.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("sheet").Funcs(template.FuncMap{
		"num": point, "ink": hex, "points": points, "anchor": anchor, "class": class, "right": rightAligned,
	}).Parse(pageText))
})

// pageData is a sheet with what the page shows of it in another form.
type pageData struct {
	Sheet
	Style template.CSS
	When  string
	Tone  string
}

// HTML writes a sheet as one page that needs no other file and prints well.
func HTML(w io.Writer, s Sheet) error {
	var out bytes.Buffer
	if err := page().Execute(&out, pageData{s, template.CSS(style), day(s.At), s.Tone.name()}); err != nil {
		return fmt.Errorf("the sheet cannot be written: %w", err)
	}
	_, err := out.WriteTo(w)
	return err
}

// point writes a coordinate with two decimals at most.
func point(x float64) string {
	text := strings.TrimRight(strconv.FormatFloat(x, 'f', 2, 64), "0")
	return strings.TrimSuffix(text, ".")
}

func hex(i Ink) string { return fmt.Sprintf("#%02x%02x%02x", inks[i][0], inks[i][1], inks[i][2]) }

func points(ps [][2]float64) string {
	out := make([]string, len(ps))
	for i, p := range ps {
		out[i] = point(p[0]) + "," + point(p[1])
	}
	return strings.Join(out, " ")
}

func anchor(a Align) string { return [...]string{"start", "middle", "end"}[a] }

// shortCell is how many characters a cell has at most that is not broken.
const shortCell = 15

// unbroken reports whether the text of a cell stands on one line.
func (c Cell) unbroken() bool { return c.Number || utf8.RuneCountInString(c.Text) <= shortCell }

// class is the class of a cell.
func class(c Cell) string {
	switch {
	case c.Number:
		return "n"
	case c.unbroken():
		return c.Tone.name() + " s"
	default:
		return c.Tone.name()
	}
}

// rightAligned reports whether a column holds figures.
func rightAligned(t Table, column int) bool {
	return len(t.Rows) > 0 && column < len(t.Rows[0]) && t.Rows[0][column].Number
}
