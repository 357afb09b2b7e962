package tui

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/doubt"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// gaugesFoot are the lines below the list: a rule, and what is to be said of the
// marked one.
const gaugesFoot = 10

func (s *gaugesScreen) room() int { return max(1, s.h-gaugesFoot) }

// View draws the list, and the marked gauge in full below it.
func (s *gaugesScreen) View() []string {
	rows := s.rows()
	first, last := s.list.window(len(rows), s.room())
	var lines []string
	for i := first; i < last && i < len(rows); i++ {
		lines = append(lines, s.line(rows[i], i == s.list.at))
	}
	if len(rows) == 0 {
		lines = append(lines, s.st.Palette.Paint(draw.Dim, "  no gauge is set up: a adds one, t takes one from the shop"))
	}
	lines = draw.Box(lines, s.w, s.room())
	lines = append(lines, s.st.Palette.Paint(draw.Frame, draw.Rule(s.scrolled(len(rows)), s.w, s.st.ASCII)))
	return append(lines, draw.Box(s.foot(), s.w, gaugesFoot-1)...)
}

func (s *gaugesScreen) scrolled(rows int) string {
	if rows <= s.room() {
		return ""
	}
	return fmt.Sprintf("lines %d to %d of %d", s.list.top+1, min(rows, s.list.top+s.room()), rows)
}

// line is one row of the list.
func (s *gaugesScreen) line(r gaugeRow, here bool) string {
	p, g := &s.st.Palette, s.all[r.gauge]
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = s.st.Signs.Here+" ", draw.Marked
	}
	if r.setting < 0 {
		return s.gaugeLine(g, p.Paint(tone, mark), tone)
	}
	x := g.Settings[r.setting]
	state, stateTone := s.stateText(x)
	left := mark + "   on " + s.st.Signs.Text(draw.Clean(masterWords(s.desk.Session, x.Setting)))
	room := max(0, s.w-draw.Width(state)-2)
	if made := ", " + Ago(x.Made, s.st.look()); draw.Width(left+made) <= room {
		left += made // else the foot says it
	}
	return p.Paint(tone, draw.Fit(left, room)) + " " + p.Paint(stateTone, draw.Cut(state, s.w)) + " "
}

// gaugeLine is an instrument: its name, and what it is chosen for, as many
// families as there is room for.
func (s *gaugesScreen) gaugeLine(g engine.GaugeState, mark string, tone draw.Tone) string {
	name := s.st.Signs.Text(draw.Clean(g.Name))
	room := max(0, s.w-4-min(draw.Width(name), s.w/2))
	right := draw.Clean(forText(g.For))
	for n := len(g.For) - 1; draw.Width(right) > room && n > 0; n-- {
		right = fmt.Sprintf("%s and %d more", draw.Clean(forText(g.For[:n])), len(g.For)-n)
	}
	p := &s.st.Palette
	return mark + p.Paint(tone, draw.Fit(name, max(0, s.w-draw.Width(right)-4))) + p.Paint(draw.Dim, " "+right)
}

// forText names the families a gauge is chosen for.
func forText(fs []plan.Family) string {
	var names []string
	for _, f := range fs {
		names = append(names, f.Plural())
	}
	return strings.Join(names, ", ")
}

// stateText says in a few words how a setting stands.
func (s *gaugesScreen) stateText(x engine.SettingState) (string, draw.Tone) {
	text := counted(x.Readings, "reading", "readings")
	switch {
	case x.Suspect > 0:
		return text + ", " + s.st.Signs.For(draw.Warn) + " " + fmt.Sprint(x.Suspect) + " suspect", draw.Warn
	case x.Doubtful:
		return text + ", " + s.st.Signs.For(draw.Warn) + " zero lost", draw.Warn
	case len(x.Checks) == 0:
		return text + ", not checked yet", draw.Dim
	case !x.Checks[len(x.Checks)-1].Drift.Measured():
		return text + ", check skipped", draw.Warn
	default:
		return text + ", zero good", draw.Good
	}
}

// foot says everything of the marked gauge and its setting.
func (s *gaugesScreen) foot() []string {
	if len(s.rows()) == 0 {
		return nil
	}
	g, x, has := s.marked()
	out := s.say(draw.Value, g.Name+": "+strings.Join(s.scaleText(g.Instrument), ", "), 3)
	out = append(out, s.dueLine(g.Instrument)...)
	out = append(out, s.say(draw.Plain, s.repeatText(g.Repeats), 1)...)
	if !has {
		return append(out, s.say(draw.Warn, "it has no setting yet: n zeroes it", 1)...)
	}
	out = append(out, s.say(draw.Plain, s.settingText(x), 2)...)
	out = append(out, s.say(draw.Plain, s.checksText(x), 2)...)
	if n := len(x.Sets); n > 0 {
		out = append(out, s.say(draw.Dim, conditionText(x.Sets[n-1]), 2)...)
	}
	return out
}

func (s *gaugesScreen) say(tone draw.Tone, text string, most int) []string {
	return wrapped(s.st, s.w, tone, text, most)
}

// scaleText says what an instrument is and what it reads.
func (s *gaugesScreen) scaleText(i gauge.Instrument) []string {
	out := []string{i.Kind}
	switch i.Contacts {
	case 2:
		out = append(out, "2 contacts")
	case 3:
		out = append(out, "3 contacts (out-of-round is not measured)")
	}
	for _, x := range []struct {
		what string
		w    length.Written
	}{{"mark", i.Graduation}, {"read to", i.Step}, {"turn", i.Turn}, {"from", i.Low}, {"to", i.High}} {
		if !x.w.IsZero() {
			out = append(out, x.what+" "+x.w.String())
		}
	}
	if i.Kind == gauge.Comparator {
		out = append(out, senseText(i))
	}
	if i.Sends != "" {
		out = append(out, "its cable sends "+i.Sends)
	}
	return append(out, bodyText(i.Material, i.Alpha, i.AlphaDoubt))
}

// senseText says how the needle goes, and how that is known.
func senseText(i gauge.Instrument) string {
	switch {
	case i.Sense == "":
		return "needle not proved: p proves it"
	case i.Proved.IsZero():
		return i.Sense + " (said, not proved)"
	default:
		return i.Sense + ", proved by " + i.Proved.String()
	}
}

// bodyText says what something is made of and how it grows.
func bodyText(material, alpha, doubt string) string {
	if alpha == "" {
		return "expansion not known"
	}
	text := alpha + " in 1e-6 per °C"
	if doubt != "" {
		text = alpha + " ±" + doubt + " in 1e-6 per °C"
	}
	if material != "" {
		text = material + ", " + text
	}
	return text
}

// dueLine says until when the calibration holds.
func (s *gaugesScreen) dueLine(i gauge.Instrument) []string {
	switch {
	case i.Due == "":
		return nil
	case i.PastDue(s.st.look()):
		return s.say(draw.Warn, s.st.Signs.For(draw.Warn)+" calibration was due "+i.Due+", and is past due", 1)
	default:
		return s.say(draw.Plain, "calibration holds until "+i.Due, 1)
	}
}

// repeatText says how well an instrument repeats.
func (s *gaugesScreen) repeatText(e doubt.Estimate) string {
	if !e.Known() {
		return "repeatability not known: repeats (*) tell it"
	}
	return fmt.Sprintf("repeatability s %s %s, pooled, with %s", pmText(e.S, s.desk.Session.Unit()), s.desk.Session.Unit(), counted(e.DF, "degree of freedom", "degrees of freedom"))
}

// settingText says what a setting was made on.
func (s *gaugesScreen) settingText(x engine.SettingState) string {
	u := s.desk.Session.Unit()
	text := "zeroed on " + masterWords(s.desk.Session, x.Setting)
	if x.On == gauge.OnFeature && x.Size.Measured() {
		text += ", which is " + x.Size.Format(u, u.Decimals()) + " " + u.String() + " now: the dial reads clearance over it"
	}
	if !x.Doubt.IsZero() {
		text += ", good to " + x.Doubt.String()
	}
	if t := temperaturesText(x.At); t != "" {
		text += "; " + t
	}
	return text + "; made " + Ago(x.Made, s.st.look())
}

// checksText says what the newest zero check said.
func (s *gaugesScreen) checksText(x engine.SettingState) string {
	if len(x.Checks) == 0 {
		return "zero not checked since: /4 while measuring checks it"
	}
	c := x.Checks[len(x.Checks)-1]
	when := Ago(c.At, s.st.look())
	if !c.Drift.Measured() {
		return "zero check skipped " + when + ": " + c.Why
	}
	u := s.desk.Session.Unit()
	text := fmt.Sprintf("%s; the last one, %s, was %s %s out", counted(len(x.Checks), "zero check", "zero checks"), when, c.Drift.FormatSigned(u, u.Decimals()+1), u)
	if x.Suspect > 0 {
		text += fmt.Sprintf("; %d of %d readings suspect", x.Suspect, x.Readings)
	}
	return text
}

// conditionText says the condition of the part in a set, and its temperatures.
func conditionText(x gauge.Set) string {
	var out []string
	for _, c := range []struct{ what, text string }{
		{"plate", x.Plate}, {"caps", x.Caps}, {"torqued to", x.Torque}, {"fastener", x.Fastener}, {"lubricant", x.Lube}, {"surface", x.Oiled},
	} {
		if c.text != "" {
			out = append(out, c.what+" "+c.text)
		}
	}
	if t := temperaturesText(x.At); t != "" {
		out = append(out, t)
	}
	if len(out) == 0 {
		return "condition of the part not said: o says it"
	}
	return "read with " + strings.Join(out, ", ")
}

// temperaturesText lists the temperatures that were taken.
func temperaturesText(t gauge.Temperatures) string {
	var out []string
	for _, x := range []struct{ what, text string }{{"part", t.Part}, {"master", t.Master}, {"gauge", t.Gauge}} {
		if x.text != "" {
			out = append(out, x.what+" "+x.text+" °C")
		}
	}
	if len(out) > 0 && t.Doubt != "" {
		out = append(out, "each to ±"+t.Doubt+" °C")
	}
	return strings.Join(out, ", ")
}
