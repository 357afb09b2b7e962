package tui

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// measureLayout is how the measure screen shares its body: a pure function of
// its size.
type measureLayout struct {
	left, right int // widths of the picture and of the figures
	rows        int // height of both, below the place's line
	big         int // rows of the large digits
}

func layoutMeasure(w, h int) measureLayout {
	left := w * 2 / 5
	if w < 100 {
		left = 26
	}
	m := measureLayout{left: left, right: w - left - 2, rows: h - 1}
	m.big = max(5, h/4)
	return m
}

// View draws the place, what is keyed, and what the readings say so far.
func (m *measure) View() []string {
	l := layoutMeasure(m.w, m.h)
	lines := []string{m.placeLine()}
	picture := m.section().Draw(l.left, l.rows)
	return append(lines, draw.Columns(2, l.rows, draw.Column{Lines: picture, W: l.left}, draw.Column{Lines: m.figures(l), W: l.right})...)
}

// placeLine says where the reading will be taken and how far the plan is done.
func (m *measure) placeLine() string {
	p := &m.st.Palette
	s := m.desk.Session
	settled, planned := m.desk.progress()
	right := fmt.Sprintf("%d of %d ", settled, planned)
	name := s.PlaceName(m.place)
	if m.place.IsZero() {
		name = "nothing is planned"
	}
	name = " " + draw.Clean(name)
	stage := "   " + s.StageName(m.place.Of, s.Stage(m.place.Of))
	room := m.w - len(right)
	return p.Paint(draw.Title, draw.Cut(name, room)) +
		p.Paint(draw.Dim, draw.Fit(stage, room-draw.Width(draw.Cut(name, room)))+right)
}

// figures is the right side: the value in large digits, what it means, and
// then the menu, a question or the live figures.
func (m *measure) figures(l measureLayout) []string {
	lines := append(make([]string, 0, l.rows), m.bigValue(l)...)
	lines = append(lines, m.meaning(l)...)
	if listed := m.listed(); listed != nil {
		return append(lines, listed...)
	}
	live, bar := m.live(l.right), m.bar(l.right)
	lines = append(lines, m.bigLive(l, l.rows-len(lines)-len(live)-len(bar))...)
	lines = append(lines, live...)
	lines = append(lines, m.barAndReadings(bar, l.right, l.rows-len(lines))...)
	return append(lines, m.neighbours(l.right, l.rows-len(lines))...)
}

// bigValue is what is being keyed, or else the figure that stands here or was
// just taken.
func (m *measure) bigValue(l measureLayout) []string {
	text, tone := m.shown()
	rows := min(draw.BigRows(text, l.right, l.big), l.big)
	big := draw.BigIn(text, l.right, max(rows, minBig), m.st.ASCII)
	for i := range big {
		big[i] = m.st.Palette.Paint(tone, big[i])
	}
	return draw.Box(big, l.right, max(rows, minBig))
}

// minBig is how tall the keyed value is at least.
const minBig = 5

// live lists the figures of the feature.
func (m *measure) live(w int) []string {
	s := m.desk.Session
	x, _ := m.desk.Now.Feature(m.place.Of)
	title := fmt.Sprintf("%s: %d of %d read, diametral, %s", x.Name, x.Read, x.Planned, s.Unit())
	lines := append([]string{draw.Rule(title, w, m.st.ASCII)}, m.notes(x.Notes, w)...)
	figures := m.desk.live(m.place.Of)
	wide := m.widthsOf(figures)
	for _, f := range figures {
		lines = append(lines, m.figureLine(f, w, wide))
	}
	return lines
}

// barAndReadings are the limits as a bar and the feature's readings, as far as
// there is room: blank lines part them from what is above where nothing else
// needs the room.
func (m *measure) barAndReadings(bar []string, w, rows int) []string {
	if len(bar) > rows {
		bar = nil
	}
	table := m.around(m.readings(w), rows-len(bar))
	spare := rows - len(bar) - len(table)
	var lines []string
	for _, block := range [][]string{bar, table} {
		if len(block) > 0 && spare > 0 {
			lines, spare = append(lines, ""), spare-1
		}
		lines = append(lines, block...)
	}
	return lines
}

// leastReadings is the fewest rows that the readings of a feature take: the
// directions and two levels.
const leastReadings = 3

// around is the table of readings in so many rows: where it is longer, its head
// and the levels around the one in the hand.
func (m *measure) around(table []string, rows int) []string {
	switch {
	case rows < leastReadings:
		return nil
	case len(table) <= rows:
		return table
	}
	g, _ := m.desk.Session.Plan().Group(m.place.Of.Family)
	at := max(0, slices.IndexFunc(g.Levels, func(l plan.Level) bool { return l.ID == m.place.Level }))
	first := max(0, min(at-(rows-1)/2, len(table)-rows))
	return append(table[:1:1], table[1+first:first+rows]...)
}

// notes say what stays on the feature's figures, or will on what is read now.
func (m *measure) notes(stay []string, w int) []string {
	text := ""
	if now := m.desk.Session.Prep().Notes(m.place.Of); len(now) > 0 {
		text = noteOf(now, w)
	} else if len(stay) > 0 {
		text = "note: read while " + strings.Join(stay, ", ")
	}
	var lines []string
	for _, x := range append([]string{m.desk.Session.MixedConditions(m.place.Of), m.desk.Session.DriftNote(m.chainPlace())}, m.warmNotes()...) {
		if x != "" {
			lines = append(lines, draw.Wrap(m.st.Signs.Text(draw.Clean(m.st.Signs.For(draw.Warn)+" "+x)), w)...)
		}
	}
	if text != "" {
		lines = append(lines, draw.Cut(text, w))
	}
	for i := range lines {
		lines[i] = m.st.Palette.Paint(draw.Warn, lines[i])
	}
	return lines[:min(len(lines), mostNotes)]
}

// notYet begins a note on what the prep has not got to.
const notYet = "not yet "

// noteOf says that notes stay on what is read now, in w cells where it can be.
func noteOf(notes []string, w int) string {
	all := strings.Join(notes, ", ")
	short := strings.ReplaceAll(all, ", "+notYet, ", ")
	for _, text := range []string{all + ": a note stays on what is read now", all + ": a note stays"} {
		if draw.Width(text) <= w {
			return text
		}
	}
	return draw.CutSentence(short+": a note stays", w)
}

// mostNotes is how many lines notes take at most.
const mostNotes = 4

// warmNotes are what temperatures do to what is shown large.
func (m *measure) warmNotes() []string { return m.desk.Session.WarmNotes(m.chainPlace()) }

// figureWidths are the widths of the columns of live figures: as wide as what
// stands in them, so that the names have the rest.
type figureWidths struct{ value, limits, verdict int }

// mostLimits is how wide the limits of a figure are at most.
const mostLimits = 17

// widthsOf are the widths that some figures need.
func (m *measure) widthsOf(fs []engine.LiveFigure) figureWidths {
	var x figureWidths
	for _, f := range fs {
		if !f.Judged {
			continue
		}
		value, _, verdict := m.figureCells(f)
		x.value = max(x.value, draw.Width(value))
		x.limits = max(x.limits, min(draw.Width(f.Against), mostLimits))
		x.verdict = max(x.verdict, draw.Width(verdict))
	}
	return x
}

// figureCells are the value of a figure and its verdict in a word, in its tone.
func (m *measure) figureCells(f engine.LiveFigure) (value string, tone draw.Tone, verdict string) {
	if f.Judged {
		tone = verdictTone(f.Judgement)
	}
	if f.Value == "" {
		return m.st.Signs.Dash, draw.Dim, ""
	}
	return f.Value, tone, m.st.Signs.For(tone) + " " + shortVerdict(f.Judgement)
}

// figureLine is one figure: its name, its value, its limits and the verdict.
func (m *measure) figureLine(f engine.LiveFigure, w int, x figureWidths) string {
	p := &m.st.Palette
	value, tone, verdict := m.figureCells(f)
	if !f.Judged {
		n := draw.Width(value)
		return draw.Fit(f.Name, w-n-1) + " " + p.Paint(tone, value)
	}
	room := w - x.value - x.limits - x.verdict - 3
	name := f.Name
	if draw.Width(name) > room {
		name = strings.TrimSuffix(name, deep)
	}
	return draw.Fit(name, room) + " " + p.Paint(tone, draw.FitRight(value, x.value)) + " " +
		p.Paint(draw.Dim, draw.FitRight(f.Against, x.limits)) + " " + p.Paint(tone, draw.Fit(verdict, x.verdict))
}

// deep ends what a level is called that has no name but its depth.
const deep = " deep"

// levelMark is what a level is called in a narrow column.
func levelMark(l plan.Level) string { return draw.Clean(strings.TrimSuffix(l.Called(), deep)) }

// shortVerdict is the verdict in one word or two. One that is not outside is
// nothing but suspect where it is.
func shortVerdict(j limit.Judgement) string {
	switch {
	case j.Suspect && j.Verdict == limit.Outside:
		return "outside?"
	case j.Suspect:
		return "suspect"
	}
	switch j.Verdict {
	case limit.InsideWear:
		return "by wear"
	case limit.TooClose:
		return "too close"
	default:
		return j.Verdict.String()
	}
}

// bar is the limits on the size with the value that is meant on them.
func (m *measure) bar(w int) []string {
	f, ok := m.desk.sizeLimits(m.place.Of)
	if !ok {
		return nil
	}
	b := draw.Bar{ASCII: m.st.ASCII, Palette: &m.st.Palette, LowText: f.lowText, HighText: f.highText}
	b.Low, b.High = f.low, f.high
	if v, ok := m.meant(); ok {
		b.Value, b.HasValue = v.Float(), true
	}
	return b.Draw(w)
}

// readings are the feature's readings as a table: its directions, and a row for
// each level.
func (m *measure) readings(w int) []string {
	s := m.desk.Session
	g, _ := s.Plan().Group(m.place.Of.Family)
	x, _ := m.desk.Now.Feature(m.place.Of)
	widths := []int{12}
	head := []string{""}
	for _, d := range g.Directions {
		head, widths = append(head, engine.DirName(d)), append(widths, -10)
	}
	lines := []string{m.st.Palette.Paint(draw.Dim, draw.Fit(draw.Row(head, widths), w))}
	for i, level := range g.Levels {
		cells := []string{levelMark(level)}
		for k := range g.Directions {
			at := plan.Place{Of: m.place.Of, Level: level.ID, Dir: g.Directions[k]}
			if m.blind() && at == m.place {
				cells = append(cells, "hidden")
				continue
			}
			cells = append(cells, m.cell(x.Grid.Values[i][k], x.Places, m.suspectAt(at)))
		}
		lines = append(lines, draw.Row(cells, widths))
	}
	return lines
}

// cell is a figure of the grid, with a question mark where it is suspect.
func (m *measure) cell(v length.Exact, places int, suspect bool) string {
	switch {
	case !v.Measured():
		return m.st.Signs.Dash
	case suspect:
		return v.Format(m.desk.Session.Unit(), places) + "?"
	default:
		return v.Format(m.desk.Session.Unit(), places)
	}
}

// section is the feature in section with the place marked.
func (m *measure) section() draw.Section {
	s := m.desk.Session
	g, _ := s.Plan().Group(m.place.Of.Family)
	x, _ := m.desk.Now.Feature(m.place.Of)
	sec := draw.Section{
		Levels: make([]draw.Level, 0, len(g.Levels)),
		Kind:   sectionKind(m.place.Of.Family), Title: s.Name(m.place.Of), At: draw.Nowhere, Named: true,
		ASCII: m.st.ASCII, Palette: &m.st.Palette,
	}
	if t, ok := m.place.Of.Family.Traits(); ok {
		sec.Figure = t.Figure
	}
	ref := m.reference(g, x)
	for i, l := range g.Levels {
		level := draw.Level{Name: levelMark(l), Depth: depthOf(i, len(g.Levels)), Dirs: make([]draw.Dir, 0, len(g.Directions))}
		for k, d := range g.Directions {
			level.Dirs = append(level.Dirs, m.dir(d, x, i, k, ref))
			if l.ID == m.place.Level && d == m.place.Dir {
				sec.At = draw.Place{Level: i, Dir: k}
			}
		}
		sec.Levels = append(sec.Levels, level)
	}
	return sec
}

func (m *measure) dir(name string, x engine.Measured, level, dir int, ref length.Exact) draw.Dir {
	deg, _ := plan.Angle(m.place.Of.Family, name)
	d := draw.Dir{Name: engine.DirName(name), Angle: float64((deg + 90) % 180)}
	at := plan.Place{Of: m.place.Of, Level: m.levelID(level), Dir: name}
	if v := x.Grid.Values[level][dir]; v.Measured() && (!m.blind() || at != m.place) && ref.Sign() > 0 {
		d.Measured, d.Suspect = true, m.suspectAt(at)
		d.Deviation = v.Sub(ref).Float() / ref.Float()
		d.Text = v.Sub(ref).FormatSigned(m.desk.Session.Unit(), x.Places)
	}
	return d
}

// reference is the size that the drawn form is compared with: the nominal, or
// the mean of what was read.
func (m *measure) reference(g plan.Group, x engine.Measured) length.Exact {
	if !g.Nominal.IsZero() {
		return g.Nominal.Exact()
	}
	return x.Figures.Mean
}

func depthOf(i, n int) float64 {
	if n < 2 {
		return 0.5
	}
	return float64(i) / float64(n-1)
}

// sectionKind is how a family is drawn.
func sectionKind(f plan.Family) draw.Kind {
	if kind, ok := sectionKinds[f]; ok {
		return kind
	}
	return draw.Gap
}

// sectionKinds are the families that are no gap between two faces.
var sectionKinds = map[plan.Family]draw.Kind{
	plan.Bore: draw.Bore, plan.Piston: draw.Piston, plan.RingGap: draw.Ring,
	plan.MainBearing: draw.Bearing, plan.RodBearing: draw.Bearing,
	plan.MainHousing: draw.Housing, plan.RodHousing: draw.Housing,
	plan.MainJournal: draw.Journal, plan.RodJournal: draw.Journal,
	plan.CamBearing: draw.Eye, plan.PistonEye: draw.Eye, plan.RodEye: draw.Eye, plan.LifterBore: draw.Eye,
	plan.CamJournal: draw.Pin, plan.PistonPin: draw.Pin, plan.Lifter: draw.Pin,
	plan.ShellMain: draw.Wall, plan.ShellRod: draw.Wall,
}
