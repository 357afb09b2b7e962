package tui

import (
	"fmt"
	"strings"

	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// shown is what stands in large digits: what is keyed, else what is counted or
// stands, else which place is in hand.
func (p *prepScreen) shown(s prep.Step) (text string, tone draw.Tone) {
	x, ok := p.state().At(s, p.place)
	switch {
	case p.keys.At == keying.Held && p.keys.Text != "":
		return p.keys.Text, draw.Warn
	case p.keys.Text != "":
		return p.keys.Text, draw.Value
	case s.Kind == prep.Counted:
		return p.countShown(s)
	case s.Kind == prep.Value && ok:
		return x.Value, draw.Good
	case !prep.SpotOf(p.place).Of.IsZero():
		return p.labelShown(), doneTone(ok)
	default:
		ticked, all := p.state().Spots(s)
		return fmt.Sprintf("%d/%d", ticked, all), doneTone(p.state().Done(s.ID))
	}
}

// countShown is how many are counted, of how many.
func (p *prepScreen) countShown(s prep.Step) (string, draw.Tone) {
	x, ok := p.state().At(s, "")
	t, counts := p.state().Tally(s.Tally)
	tone := doneTone(p.state().Done(s.ID))
	switch {
	case s.Way == prep.In && counts && t.Known:
		if t.Open() != 0 {
			tone = draw.Warn
		}
		return fmt.Sprintf("%d/%d", t.In+t.Accounted, t.Need), tone
	case s.Count > 0:
		return fmt.Sprintf("%d/%d", x.Count, s.Count), tone
	case ok:
		return fmt.Sprint(x.Count), tone
	default:
		return "?", tone
	}
}

// labelShown is the label of the feature in hand: what the eye looks for on the
// block.
func (p *prepScreen) labelShown() string {
	return draw.Clean(p.desk.Session.Layout().Label(prep.SpotOf(p.place).Of))
}

func doneTone(done bool) draw.Tone {
	if done {
		return draw.Good
	}
	return draw.Plain
}

// meaning says under the large digits where the step stands and what to key.
func (p *prepScreen) meaning(s prep.Step, w int) []string {
	switch {
	case p.keys.At == keying.Held:
		out := p.wrapped(draw.Warn, "HELD: "+p.keys.Held.Reason, w)
		return append(out, p.wrapped(draw.Dim, "/ leaves it; * forces it, and the force stands on the record", w)...)
	case p.asks():
		return append(p.wrapped(draw.Marked, p.keys.Asking.Title, w), p.options(w)...)
	case p.keys.Text != "":
		return p.wrapped(draw.Value, p.echo(s), w)
	}
	out := p.stands(s, w)
	if oilSteps[s.ID] {
		path := p.state().OilPath()
		out = append(append(out, p.wrapped(draw.Bad, path.Wrong(), w)...), p.wrapped(draw.Dim, path.Reason(), w)...)
	}
	_, ticked := p.state().At(s, p.place)
	if !ticked || s.Kind == prep.Value || s.Kind == prep.Counted {
		out = append(out, p.invitation(s, w)...)
	}
	if s.Kind == prep.Choice {
		out = append(out, p.options(w)...)
	}
	return out
}

// oilSteps are the steps that decide the oil path.
var oilSteps = map[string]bool{prep.OilLifters: true, prep.OilMeant: true, prep.OilFitted: true, prep.OilGalleries: true}

// echo says what Enter would take.
func (p *prepScreen) echo(s prep.Step) string {
	t, err := s.Read(p.place, p.keys.Text)
	if err != nil {
		return err.Error()
	}
	switch s.Kind {
	case prep.Counted:
		return strings.TrimSpace(fmt.Sprintf("%d %s %s", t.Count, s.Tally, s.Way))
	case prep.Choice:
		return t.Choice
	default:
		return at(p.placeName(), t.Value)
	}
}

// at joins a place and what is said of it.
func at(place, text string) string {
	if place == "" {
		return text
	}
	return place + ": " + text
}

// stands says of the place in hand what is ticked and by whom, or why it no
// longer is.
func (p *prepScreen) stands(s prep.Step, w int) []string {
	x, ok := p.state().At(s, p.place)
	loss, lost := p.state().LostAt(s, p.place)
	switch {
	case ok:
		text := at(p.placeName(), "ticked") + ", " + Ago(x.At, p.st.look())
		if x.By != "" {
			text += ", " + x.By
		}
		if what := x.Choice; what != "" {
			text = at(p.placeName(), what) + ", " + Ago(x.At, p.st.look())
		}
		out := p.wrapped(draw.Good, text, w)
		if x.Forced != "" {
			out = append(out, p.wrapped(draw.Warn, "forced: "+x.Forced, w)...)
		}
		if s.Way == prep.In && !p.state().Done(s.ID) {
			t, _ := p.state().Tally(s.Tally)
			return p.wrapped(draw.Bad, t.Text(), w)
		}
		return out
	case lost:
		return p.wrapped(draw.Bad, at(p.placeName(), p.state().LossText(loss, p.desk.Session.Layout())), w)
	case p.place != "":
		return p.wrapped(draw.Marked, p.placeName(), w)
	default:
		return nil
	}
}

// invitation says what to key, and what the figure may be; a step whose time
// has not come says what comes first.
func (p *prepScreen) invitation(s prep.Step, w int) []string {
	if why := p.state().Early(s, p.place); why != "" {
		return p.wrapped(draw.Warn, "not yet: "+why, w)
	}
	if !s.Keyed() {
		return p.wrapped(draw.Dim, "Enter ticks it", w)
	}
	text := p.keys.Asking.Title
	switch {
	case s.Kind == prep.Value && s.Limits() != "":
		text += "; " + s.Limits()
	case s.Kind == prep.Value && !s.Match:
		text += "; no limit given"
	case s.Kind == prep.Counted && s.Count > 0:
		text += fmt.Sprintf("; the list says %d", s.Count)
	}
	return p.wrapped(draw.Dim, text, w)
}

// options lists what the numbers stand for.
func (p *prepScreen) options(w int) []string {
	var out []string
	x, _ := p.state().At(p.step(), p.place)
	for i, o := range p.keys.Asking.Options {
		tone := draw.Plain
		if x.Choice == o && !p.asks() {
			tone = draw.Good
		}
		out = append(out, p.st.Palette.Paint(draw.Key, draw.FitRight(fmt.Sprint(i+1), 3))+"  "+p.st.Palette.Paint(tone, draw.Cut(p.words(o), w-5)))
	}
	return out
}

// grid shows the places of a step: a row for each kind of place, the label and
// the sign of each, the one in hand in brackets.
func (p *prepScreen) grid(s prep.Step, w int) []string {
	if len(s.Places) < 2 {
		return nil
	}
	var rows []string
	cells := map[string][]string{}
	for _, place := range s.Places {
		row, cell := p.cell(s, place)
		if cells[row] == nil {
			rows = append(rows, row)
		}
		cells[row] = append(cells[row], cell)
	}
	var out []string
	for _, row := range rows {
		line := draw.Fit(row, min(14, w/3)) + " "
		if row == "" {
			line = ""
		}
		for _, c := range cells[row] {
			if draw.Width(line+c) > w {
				out, line = append(out, line), ""
			}
			line += c
		}
		out = append(out, line)
	}
	return out
}

// cell is a place in the grid: the row it stands in, and its label and sign.
func (p *prepScreen) cell(s prep.Step, place string) (row, cell string) {
	spot := prep.SpotOf(place)
	label := place
	if !spot.Of.IsZero() {
		label = p.desk.Session.Layout().Label(spot.Of)
		row = rowName(spot, s)
	}
	_, ok := p.state().At(s, place)
	_, lost := p.state().LostAt(s, place)
	tone := draw.Dim
	switch {
	case ok:
		tone = draw.Good
	case lost:
		tone = draw.Bad
	}
	text := p.words(label) + p.st.Signs.For(tone)
	if place == p.place {
		return row, p.st.Palette.Paint(draw.Marked, "["+text+"]")
	}
	return row, " " + p.st.Palette.Paint(tone, text) + " "
}

// rowName names the row of a spot: where on the features it is, and, where the
// step has several families, which they are.
func rowName(spot prep.Spot, s prep.Step) string {
	families := map[plan.Family]bool{}
	for _, place := range s.Places {
		if f := prep.SpotOf(place).Of.Family; f != "" {
			families[f] = true
		}
	}
	if len(families) > 1 || spot.Where == "" {
		return strings.TrimSpace(spot.Of.Family.Noun() + " " + spot.Where)
	}
	return spot.Where
}

// values lists what was keyed or chosen at each place of a step that has
// several.
func (p *prepScreen) values(s prep.Step, w int) []string {
	if len(s.Places) < 2 || !s.Keyed() {
		return nil
	}
	var out []string
	for _, place := range s.Places {
		text, tone := p.st.Signs.Dash, draw.Dim
		if x, ok := p.state().At(s, place); ok {
			text, tone = x.Value+x.Choice, draw.Plain
			if x.Forced != "" {
				text, tone = text+", forced", draw.Warn
			}
		}
		name := draw.Fit(draw.Clean(prep.SpotOf(place).Name(p.desk.Session.Layout())), 26)
		out = append(out, draw.Cut(name+p.st.Palette.Paint(tone, p.words(text)), w))
	}
	return out
}
