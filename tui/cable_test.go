package tui

import (
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/record"
	"borewright/tui/term"
)

// sends opens the launch with a bore gauge whose cable sends what is said.
func sends(t *testing.T, what string) (*station, *measure) {
	t.Helper()
	s, m := atLaunch(t)
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if err != nil {
		t.Fatal(err)
	}
	h.Instrument.Sends = what
	if err := m.desk.Record(record.Instrument{Instrument: h.Instrument}); err != nil {
		t.Fatal(err)
	}
	return s, m
}

func (s *station) line(text string) {
	s.t.Helper()
	s.send(cableLine{Text: text})
}

func TestACableIsReadAsItsInstrumentSays(t *testing.T) {
	for _, c := range []struct{ sends, line, dev, size string }{
		{gauge.SendsDeviation, "+0.0004", "0.0004 in", ""},
		{gauge.SendsDeviation, "+ 0.00025 in", "0.00025 in", ""},
		{gauge.SendsGraduations, "2.5", "0.00025 in", ""},
		{gauge.SendsSize, "+3.7504", "", "3.7504 in"},
	} {
		s, m := sends(t, c.sends)
		s.line(c.line)
		r, ok := s.last(launchUID).Body.(record.Reading)
		if !ok || r.Dev.String() != c.dev && c.dev != "" || r.Size.String() != c.size && c.size != "" || r.Via != record.ViaCable {
			t.Errorf("%s %q: recorded %+v; %s", c.sends, c.line, s.last(launchUID).Body, s.st.status.text)
		}
		if m.where() != "bore 4, middle, along" || s.st.bells != 1 {
			t.Errorf("%s %q: at %s, %d bells", c.sends, c.line, m.where(), s.st.bells)
		}
	}
}

func TestWhatACableSendsIsNotTaken(t *testing.T) {
	for _, c := range []struct {
		name, sends string
		keys        []string
		line        cableLine
		says        string
	}{
		{"not said what it sends", "", nil, cableLine{Text: "3"}, "g, then e, says what this gauge sends"},
		{"garbage", gauge.SendsDeviation, nil, cableLine{Text: "0.\x003"}, `"0.\x003" not taken: not a number`},
		{"another unit", gauge.SendsDeviation, nil, cableLine{Text: "3 kg"}, "the unit is none of"},
		{"broken off", gauge.SendsDeviation, nil, cableLine{"0.0", term.LineBroken}, "it broke off"},
		{"the beginning missing", gauge.SendsDeviation, nil, cableLine{"003", term.LineUnheard}, "beginning may be missing"},
		{"too long", gauge.SendsDeviation, nil, cableLine{"0.0003", term.LineLong}, "longer than any reading"},
		{"while typing", gauge.SendsDeviation, []string{"+3"}, cableLine{Text: "0.0003"}, "arrived while a number is being keyed"},
		{"in the menu", gauge.SendsDeviation, []string{"/"}, cableLine{Text: "0.0003"}, "arrived while the menu is open"},
		{"on another screen", gauge.SendsDeviation, []string{"g"}, cableLine{Text: "0.0003"}, "readings are taken on the measure screen"},
		{"as a temperature", gauge.SendsDeviation, []string{"/6"}, cableLine{Text: "18.5"}, "something else is asked for"},
		{"a size at a zero check", gauge.SendsSize, []string{"/4"}, cableLine{Text: "3.7501"}, "this cable sends sizes"},
	} {
		s, m := sends(t, c.sends)
		s.keys(c.keys...)
		n, keyed := s.last(launchUID).N, m.keys
		s.st.bells = 0
		s.send(c.line)
		if s.last(launchUID).N != n || !reflect.DeepEqual(m.keys, keyed) || s.st.bells != 2 {
			t.Errorf("%s: recorded %+v, keying %+v, %d bells", c.name, s.last(launchUID).Body, m.keys, s.st.bells)
		}
		if !strings.Contains(s.st.status.text, c.says) {
			t.Errorf("%s: says %q, want %q", c.name, s.st.status.text, c.says)
		}
	}
}

func TestACableAnswersAZeroCheck(t *testing.T) {
	s, _ := sends(t, gauge.SendsDeviation)
	s.keys("/4")
	s.line("-0.00005")
	if z, ok := s.last(launchUID).Body.(record.Zero); !ok || z.Deviation.String() != "-0.00005 in" {
		t.Errorf("recorded %+v", s.last(launchUID).Body)
	}
}

// A gauge that sends faster than a hand can ask is taken once.
func TestAStreamIsTakenOnce(t *testing.T) {
	s, m := sends(t, gauge.SendsDeviation)
	n := s.last(launchUID).N
	s.line("0.0003")
	for range 3 {
		s.send(cableLine{"0.0003", term.LineHurried})
	}
	if got := s.last(launchUID).N - n; got != 1 || m.where() != "bore 4, middle, along" {
		t.Errorf("%d readings, at %s", got, m.where())
	}
	s.line("0.0002")
	if got := s.last(launchUID).N - n; got != 2 {
		t.Errorf("after a silence %d readings, want 2", got)
	}
}

func TestACableThatIsAwayIsSaid(t *testing.T) {
	s, _ := sends(t, gauge.SendsDeviation)
	s.st.Cable = &Cable{Name: "port"}
	s.send(cableState{})
	if view := s.r.View(); !strings.Contains(view, "cable on") {
		t.Errorf("nothing says that it is there:\n%s", view)
	}
	s.send(cableState{errors.New("pulled")})
	if view := s.r.View(); !strings.Contains(view, "cable port is away: pulled") || !strings.Contains(view, "cable away: pulled") || s.st.bells != 2 {
		t.Errorf("nothing says that it is away:\n%s", view)
	}
	s.send(cableState{})
	if view := s.r.View(); !strings.Contains(view, "cable port is back") || !strings.Contains(view, "cable on") {
		t.Errorf("nothing says that it is back:\n%s", view)
	}
}

// script is a cable that gives what it is told, then io.EOF.
type script []any

func (s *script) Close() error { return nil }

func (s *script) Read(p []byte) (int, error) {
	if len(*s) == 0 {
		return 0, io.EOF
	}
	x := (*s)[0]
	*s = (*s)[1:]
	if err, bad := x.(error); bad {
		return 0, err
	}
	return copy(p, x.(string)), nil
}

func TestPump(t *testing.T) {
	away := errors.New("away")
	c := Cable{ReadCloser: &script{"503\r", "", "3.7504\r\n", "", "3.75", away, away, "9\r", "", "3.7505\r"}}
	var got []any
	c.pump(func(msg any) { got = append(got, msg) })
	want := []any{
		cableLine{"503", term.LineUnheard},
		cableState{},
		cableLine{Text: "3.7504"},
		cableLine{"3.75", term.LineBroken},
		cableState{away},
		cableState{},
		cableLine{"9", term.LineUnheard},
		cableLine{Text: "3.7505"},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("sent\n%v, want\n%v", got, want)
	}
}

func TestCtrlCOfAGaugeLeavesNothing(t *testing.T) {
	s, m := sends(t, gauge.SendsDeviation)
	for range 2 {
		s.run(s.r.key(term.Token{Kind: term.Control, Name: "ctrl+c", At: noon, Burst: true}))
	}
	if s.r.asked || top[*measure](s) != m || strings.Contains(s.r.View(), "once more") {
		t.Errorf("a framed value asks to leave:\n%s", s.r.View())
	}
}
