package sheet

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
)

// An A4 page in points, and what of it is left free at every side.
const (
	pageWide = 595.28
	pageHigh = 841.89
	edge     = (pageWide - wide) / 2
	foot     = pageHigh - 46
)

// face is the family of the font that is embedded: DejaVu Sans, whose licence
// (Bitstream Vera, Arev, public domain changes) lets it be embedded in
// documents. It has ⌀, − and µ.
const face = "sheet"

// printer writes a sheet on pages from top to bottom.
type printer struct {
	f *fpdf.Fpdf
	y float64
}

// PDF writes a sheet as a document of A4 pages with its fonts embedded. Its date
// is that of the last event.
func PDF(w io.Writer, s Sheet) error {
	p := newPrinter(s)
	p.masthead(s)
	for _, x := range s.Sections {
		p.section(x)
	}
	p.mark(s.Mark)
	p.footers(s.Title)
	if err := p.f.Output(w); err != nil {
		return fmt.Errorf("the sheet cannot be written: %w", err)
	}
	return nil
}

func newPrinter(s Sheet) *printer {
	f := fpdf.New("P", "pt", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(s.At)
	f.SetModificationDate(s.At)
	f.SetProducer("borewright", false)
	f.SetTitle(drawable(s.Title), true)
	f.SetKeywords(s.Mark.String(), false)
	f.SetLang("en")
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.AddUTF8FontFromBytes(face, "", dejavusans.TTF)
	f.AddUTF8FontFromBytes(face, "B", dejavusansbold.TTF)
	p := &printer{f: f}
	p.page()
	return p
}

// footers puts the title and the number below every page, once it is known how
// many there are. The library would put their number in the place of a mark, in
// whatever text holds its signs.
func (p *printer) footers(title string) {
	pages := p.f.PageCount()
	for n := 1; n <= pages; n++ {
		p.f.SetPage(n)
		p.font("B", 7, Grey) // a page does not know the font of another: it is named anew where it changes
		p.font("", 7, Grey)
		p.f.Text(edge, pageHigh-26, p.cut(drawable(title), 380))
		p.f.Text(pageWide-edge-50, pageHigh-26, fmt.Sprintf("page %d of %d", n, pages))
	}
}

// drawable leaves characters out that the embedded font cannot hold.
func drawable(text string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff {
			return '□'
		}
		return r
	}, text)
}

func (p *printer) page() {
	p.f.AddPage()
	p.y = 40
}

// room begins another page where less than so much is left of this one.
func (p *printer) room(h float64) {
	if p.y+h > foot {
		p.page()
	}
}

func (p *printer) space(h float64) { p.y += h }

func (p *printer) font(style string, size float64, ink Ink) {
	p.f.SetFont(face, style, size)
	c := inks[ink]
	p.f.SetTextColor(int(c[0]), int(c[1]), int(c[2]))
}

func (p *printer) fill(ink Ink) {
	c := inks[ink]
	p.f.SetFillColor(int(c[0]), int(c[1]), int(c[2]))
}

func (p *printer) pen(ink Ink, width float64) {
	c := inks[ink]
	p.f.SetDrawColor(int(c[0]), int(c[1]), int(c[2]))
	p.f.SetLineWidth(width)
}

func (p *printer) masthead(s Sheet) {
	p.paragraph("Build sheet", 9, Grey)
	title := s.Title
	if title == "" {
		title = "Without a title"
	}
	p.bold(title, 19)
	who := s.Engine
	if s.Customer != "" {
		who += " · for " + s.Customer
	}
	p.paragraph(strings.TrimPrefix(who+" · as of "+day(s.At), " · "), 9, Grey)
	p.space(6)
	p.font("B", 11, Black)
	lines := p.wrap(s.Verdict, wide-24)
	h := float64(len(lines))*15 + 12
	p.room(h)
	p.fill(paleOf(s.Tone))
	p.f.Rect(edge, p.y, wide, h, "F")
	for i, line := range lines {
		p.f.Text(edge+12, p.y+18+15*float64(i), line)
	}
	p.y += h
}

// mark writes the line by which a sheet is checked. It never goes over to a page
// of its own: where the page is full it stands between the text and the footer.
func (p *printer) mark(m Mark) {
	p.font("", 6.5, Grey)
	p.f.Text(edge, min(p.y+16, foot+8), m.String())
}

// paragraph writes a text over as many lines as it takes.
func (p *printer) paragraph(text string, size float64, ink Ink) { p.text(text, "", size, ink) }

// bold writes a heading over as many lines as it takes.
func (p *printer) bold(text string, size float64) { p.text(text, "B", size, Black) }

func (p *printer) text(text, style string, size float64, ink Ink) {
	p.font(style, size, ink)
	for _, line := range p.wrap(text, wide) {
		p.room(size * 1.4)
		p.font(style, size, ink) // a new page has written its footer
		p.f.Text(edge, p.y+size, line)
		p.y += size * 1.4
	}
}

func (p *printer) section(s Section) {
	p.space(14)
	p.room(60 + p.opening(s))
	p.bold(s.Heading, 13)
	p.pen(Black, 1.2)
	p.f.Line(edge, p.y, pageWide-edge, p.y)
	p.space(6)
	for _, note := range s.Notes {
		p.paragraph(note, 9, Black)
		p.space(2)
	}
	for _, x := range s.Pictures {
		p.picture(x)
	}
	for _, t := range s.Tables {
		p.table(t)
	}
}

// opening is how much of a section stands below its heading at the least, so
// that no heading is left alone at the foot of a page.
func (p *printer) opening(s Section) float64 {
	switch {
	case len(s.Notes) == 0 && len(s.Pictures) > 0:
		return p.high(s.Pictures[0])
	case len(s.Notes) == 0 && len(s.Tables) > 0:
		return tableLeast
	default:
		return 30
	}
}
