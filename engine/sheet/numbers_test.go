package sheet

import (
	"bytes"
	"encoding/json"
	"html"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/plan"
)

var (
	tags     = regexp.MustCompile(`<[^>]*>`)
	headings = regexp.MustCompile(`(?s)<head>.*</head>`)
	decimals = regexp.MustCompile(`[0-9]+\.[0-9]+`)
)

// numbersIn counts the numbers with decimals in a text.
func numbersIn(text string) map[string]int {
	out := map[string]int{}
	for _, n := range decimals.FindAllString(text, -1) {
		out[n]++
	}
	return out
}

// shownText is what a page shows.
func shownText(page []byte) string {
	return html.UnescapeString(tags.ReplaceAllString(headings.ReplaceAllString(string(page), ""), " "))
}

// figuresOf are the figures that a report gives of features, findings and
// clearances: those that a sheet has a cell for.
func figuresOf(t *testing.T, r engine.Report) map[string]int {
	t.Helper()
	out := map[string]int{}
	features := slices.Clone(r.Features)
	for i, f := range features {
		of, err := plan.ParseFeature(f.Of)
		if err != nil {
			t.Fatal(err)
		}
		if traits, _ := of.Family.Traits(); traits.Figure != "" { // the level's one figure has one cell
			features[i].Levels = slices.Clone(f.Levels)
			for j, l := range f.Levels {
				features[i].Levels[j] = engine.ReportLevel{Smallest: l.Smallest}
			}
		}
	}
	for _, part := range []any{features, r.Clearances} {
		text, err := json.Marshal(part)
		if err != nil {
			t.Fatal(err)
		}
		for n, times := range numbersIn(string(text)) {
			out[n] += times
		}
	}
	for _, f := range r.Findings {
		for n, times := range numbersIn(f.Value) {
			out[n] += times
		}
	}
	return out
}

// inputs are the numbers that a sheet shows besides: what was read, given and
// limited, and how well it is known.
func inputs(t *testing.T, v view) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	add := func(text string) {
		for n := range numbersIn(text) {
			out[n] = true
		}
	}
	report, err := json.Marshal(v.r)
	if err != nil {
		t.Fatal(err)
	}
	add(string(report))
	for _, e := range v.s.Events() {
		add(string(e.Bytes))
	}
	for _, line := range v.a.Whole(v.s) {
		add(line)
	}
	for _, f := range v.a.Findings {
		add(margin(f) + " " + uncertainty(f, v.u) + " " + f.Doubt.Settles)
	}
	for _, m := range v.a.Features {
		for stage := 0; stage <= v.s.Stage(m.Of); stage++ {
			for _, p := range v.s.Plan().Places(m.Of) {
				add(v.figure(v.s.Figure(p, stage)))
			}
		}
	}
	for _, g := range v.s.Gauges() {
		add(v.repeats(g.Repeats))
		for _, x := range g.Settings {
			add(v.figure(x.Size) + " " + v.checks(x.Checks))
		}
	}
	for _, note := range warnings([]view{v}).Notes {
		add(note)
	}
	add("1.00") // in words: on a limit
	return out
}

// Every number of the page is one of the assessment's, and every figure of the
// assessment is on the page, as often as it is one.
func TestNumbersOfThePage(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"launch-complete", "launch", "hillclimb", "one-bore"} {
		for _, u := range []Units{"", Inch, MM} {
			s := session(t, name, 0)
			views, err := viewsOf(s, engine.Assess(s), u)
			if err != nil {
				t.Fatal(err)
			}
			shown := numbersIn(shownText(pageOf(t, built(t, s, u))))
			known := inputs(t, views[0])
			figures := figuresOf(t, views[0].r)
			if len(figures) < 4 || len(shown) < len(figures) {
				t.Fatalf("%s in %q: %d numbers on the page, %d figures", name, u, len(shown), len(figures))
			}
			for n := range shown {
				if !known[n] {
					t.Errorf("%s in %q: %s stands on the page and nowhere else", name, u, n)
				}
			}
			for n, times := range figures {
				if shown[n] < times {
					t.Errorf("%s in %q: %s stands %d times on the page, %d times in the assessment", name, u, n, shown[n], times)
				}
			}
		}
	}
}

// document returns a sheet as PDF.
func document(t *testing.T, s Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := PDF(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The text of the document is that of the page: the same numbers, each as often.
func TestNumbersOfTheDocument(t *testing.T) {
	t.Parallel()
	reader(t, "pdftotext", "poppler-utils")
	for _, name := range []string{"launch-complete", "launch", "hillclimb", "one-bore"} {
		for _, u := range []Units{"", MM, Both} {
			s := built(t, session(t, name, 0), u)
			file := t.TempDir() + "/sheet.pdf"
			if err := os.WriteFile(file, document(t, s), 0o600); err != nil {
				t.Fatal(err)
			}
			text := textOf(t, file)
			got, want := numbersIn(text), numbersIn(shownText(pageOf(t, s)))
			if len(want) < 6 || !maps.Equal(got, want) {
				t.Errorf("%s in %q: the document and the page differ: %s", name, u, differing(got, want))
			}
			for _, sign := range []string{"⌀", "−", "°"} {
				if !strings.Contains(text, sign) && strings.Contains(shownText(pageOf(t, s)), sign) {
					t.Errorf("%s in %q: %s cannot be read back", name, u, sign)
				}
			}
		}
	}
}

// No heading stands alone at the foot of a page.
func TestHeadingsStayWithWhatTheyHead(t *testing.T) {
	t.Parallel()
	reader(t, "pdftotext", "poppler-utils")
	for _, name := range []string{"launch-complete", "launch", "hillclimb"} {
		for _, u := range []Units{"", Both} {
			s := built(t, session(t, name, 0), u)
			file := t.TempDir() + "/sheet.pdf"
			if err := os.WriteFile(file, document(t, s), 0o600); err != nil {
				t.Fatal(err)
			}
			for n, page := range strings.Split(strings.TrimSpace(textOf(t, file)), "\f") {
				lines := strings.FieldsFunc(page, func(r rune) bool { return r == '\n' })
				if len(lines) < 3 {
					t.Errorf("%s in %q: page %d says only %q", name, u, n+1, page)
					continue
				}
				last := strings.TrimSpace(lines[len(lines)-2])
				if slices.ContainsFunc(s.Sections, func(x Section) bool { return x.Heading == last }) {
					t.Errorf("%s in %q: page %d ends with the heading %q", name, u, n+1, last)
				}
			}
		}
	}
}

func differing(a, b map[string]int) string {
	var out []string
	for _, n := range slices.Sorted(maps.Keys(a)) {
		if a[n] != b[n] {
			out = append(out, n)
		}
	}
	for _, n := range slices.Sorted(maps.Keys(b)) {
		if _, both := a[n]; !both {
			out = append(out, n)
		}
	}
	return strings.Join(out, " ")
}

// The same events give the same document, with no date but that of the last
// event and its fonts embedded, and it can be told from its bytes what it was
// made of.
func TestDocumentIsAlwaysTheSame(t *testing.T) {
	t.Parallel()
	s := built(t, session(t, "hillclimb", 0), Both)
	first := document(t, s)
	for range 3 {
		if again := document(t, built(t, session(t, "hillclimb", 0), Both)); !bytes.Equal(first, again) {
			t.Fatal("two documents differ")
		}
	}
	if m, ok := FindMark(first); !ok || m != s.Mark {
		t.Errorf("found %+v, %v; want %+v", m, ok, s.Mark)
	}
	dates := regexp.MustCompile(`D:[0-9]+`).FindAllString(string(first), -1)
	want := "D:" + s.At.Format("20060102150405")
	if len(dates) != 2 || dates[0] != want || dates[1] != want {
		t.Errorf("dates %v, want %s twice", dates, want)
	}
	if !bytes.Contains(first, []byte("/FontFile2")) {
		t.Error("no font is embedded")
	}
}

// Names that the font does not hold, and very long ones, do no harm.
func TestDocumentOfHostileNames(t *testing.T) {
	t.Parallel()
	s := built(t, session(t, "one-bore", 0), "")
	for _, bad := range []string{"", "\u202eabc\x00", "😀🚂 engine", "العربية", strings.Repeat("x", 3000), "a\u0301\u0301\u0301", "漢字", "(\\) \\n"} {
		s.Title, s.Engine, s.Customer = clean(bad), clean(bad), clean(bad)
		s.Sections[0].Tables = []Table{{Caption: clean(bad), Columns: []string{clean(bad), "b"}, Rows: [][]Cell{{{Text: clean(bad)}, {Text: "1"}}}}}
		if got := document(t, s); !bytes.HasPrefix(got, []byte("%PDF-")) || !bytes.Contains(got, []byte("%%EOF")) {
			t.Errorf("%.20q: no document was made", bad)
		}
	}
}
