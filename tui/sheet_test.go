package tui

import (
	"bytes"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"borewright/engine/sheet"
)

// drawer is a folder in memory.
type drawer struct {
	files map[string][]byte
	// err is what writing fails with.
	err error
}

func (d *drawer) Path(name string) (string, error) {
	return "/shop/sheets/" + strings.ReplaceAll(name, "/", "-"), nil
}

func (d *drawer) Write(name string, data []byte, replace bool) (string, error) {
	path, err := d.Path(name)
	if _, there := d.files[path]; there && !replace {
		return "", ErrThere
	}
	if err = errors.Join(err, d.err); err != nil {
		return "", err
	}
	d.files[path] = data
	return path, nil
}

// The sheet is written in every form under the session's title.
func TestSheetIsWrittenInEveryForm(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "e")
	for range sheet.Forms() {
		s.keys("<enter>", "f")
	}
	files := s.st.Folder.(*drawer).files
	got := strings.Join(slices.Sorted(maps.Keys(files)), "\n")
	want := `/shop/sheets/Kittiwake, harbour launch readings.csv
/shop/sheets/Kittiwake, harbour launch results.csv
/shop/sheets/Kittiwake, harbour launch.html
/shop/sheets/Kittiwake, harbour launch.json
/shop/sheets/Kittiwake, harbour launch.pdf`
	if got != want {
		t.Errorf("wrote\n%s\nwant\n%s", got, want)
	}
	session := top[*sheetScreen](s).desk.Session
	for _, f := range sheet.Forms() {
		made, err := sheet.Make(f, session, "in")
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(files["/shop/sheets/Kittiwake, harbour launch"+f.Suffix()], made.Data) {
			t.Errorf("%s is not what the sheet is", f)
		}
	}
}

// Units are chosen, shown and written.
func TestSheetUnits(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "e", "u", "<enter>")
	m, ok := sheet.FindMark(s.st.Folder.(*drawer).files["/shop/sheets/Kittiwake, harbour launch.html"])
	if !ok || m.Units != sheet.MM {
		t.Errorf("the sheet is in %q", m.Units)
	}
	if view := s.r.View(); !strings.Contains(view, "[mm]") || !strings.Contains(view, "✓ Written to /shop/sheets/Kittiwake, harbour launch.html") {
		t.Errorf("it shows\n%s", view)
	}
	s.keys("u")
	if view := s.r.View(); !strings.Contains(view, "[both]") || !strings.Contains(view, "Enter writes /shop") {
		t.Errorf("it shows\n%s", view)
	}
}

// A file that is there is left as it is unless it is asked for.
func TestSheetNeverWritesOverUnasked(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	files := s.st.Folder.(*drawer).files
	path := "/shop/sheets/Kittiwake, harbour launch.html"
	files[path] = []byte("mine")
	s.keys("<enter>", "e", "o")
	if string(files[path]) != "mine" || !strings.Contains(s.r.View(), "there is no file in the way") {
		t.Errorf("o wrote before it was asked: %s", s.r.View())
	}
	s.keys("<enter>")
	if view := s.r.View(); string(files[path]) != "mine" || !strings.Contains(view, "is there already") || !strings.Contains(view, "o writes over it") {
		t.Errorf("the file holds %.10q and the screen shows\n%s", files[path], view)
	}
	s.keys("o")
	if view := s.r.View(); !bytes.HasPrefix(files[path], []byte("<!DOCTYPE")) || !strings.Contains(view, "Written to "+path) {
		t.Errorf("the file holds %.10q and the screen shows\n%s", files[path], view)
	}
}

// What cannot be written is said, and so is why nothing can be.
func TestSheetSaysWhyNot(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.st.Folder.(*drawer).err = errors.New("the disk is full: /shop/sheets")
	s.keys("<enter>", "e", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "NOT WRITTEN: the disk is full: /shop/sheets") {
		t.Errorf("it shows\n%s", view)
	}
	s.st.Folder = nil
	if view := s.r.View(); !strings.Contains(view, "This station has no folder to write into.") {
		t.Errorf("it shows\n%s", view)
	}
}

// A sheet quotes only events that are kept.
func TestSheetWaitsForWhatIsNotKept(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.book.hold = true
	s.keys("<enter>", "+3", "<enter>", "e", "<enter>")
	if view := s.r.View(); len(s.st.Folder.(*drawer).files) > 0 || !strings.Contains(view, "1 of the session's events are not kept yet") {
		t.Errorf("it wrote, or shows\n%s", view)
	}
}

// A title that would lead elsewhere is drawn clean; the folder has the last word
// on names.
func TestSheetOfHostileTitle(t *testing.T) {
	for title, want := range map[string]string{
		"../../etc/passwd": "../../etc/passwd.html",
		"a\x1b[31m\u202eb": "ab.html",
		"":                 "build sheet.html",
	} {
		s := newStation(t, 80, 24, "launch")
		s.keys("<enter>", "e")
		x := top[*sheetScreen](s)
		d := x.desk.Session.Details()
		d.Title = title
		if err := x.desk.Record(d); err != nil {
			t.Logf("%q is refused: %v", title, err)
			continue
		}
		if got := x.fileName(); got != want {
			t.Errorf("%q becomes %q, want %q", title, got, want)
		}
	}
}

// A late answer to an earlier question is dropped.
func TestSheetDropsLateAnswers(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "e", "f")
	x := top[*sheetScreen](s)
	s.send(answer[sheet.Made]{id: x.asked - 1, value: sheet.Made{Form: sheet.HTMLForm, Data: []byte("late")}})
	if x.made == nil || x.made.Form != sheet.PDFForm {
		t.Errorf("it holds %+v", x.made)
	}
}

// However narrow, a table keeps its words and its figures, and no line is wider
// than there is room.
func TestPreviewKeepsTheWords(t *testing.T) {
	table := sheet.Table{
		Caption: "Findings", Columns: []string{"part", "margin used", "verdict"},
		Rows: [][]sheet.Cell{
			{{Text: "main journal 3, front, vertical"}, {Text: "0.80", Number: true}, {Text: "inside, a limit within the doubt", Tone: sheet.Doubtful}},
			{{Text: "bore 2"}, {Text: "−12.5", Number: true}, {Text: "outside", Tone: sheet.Bad}},
		},
	}
	for w := 40; w <= 90; w += 5 {
		p := preview{w: w}
		p.table(table)
		var words []string
		for _, line := range p.lines {
			if len([]rune(line.text)) > w {
				t.Errorf("at %d a line is wider: %q", w, line.text)
			}
			words = append(words, strings.Fields(line.text)...)
		}
		for _, row := range table.Rows {
			for _, c := range row {
				for _, word := range strings.Fields(c.Text) {
					if !slices.Contains(words, word) {
						t.Errorf("at %d %q is missing:\n%q", w, word, p.lines)
					}
				}
			}
		}
	}
}
