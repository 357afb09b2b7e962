package record

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
	"pgregory.net/rapid"
)

// drawLine draws a text of one line, any letters.
func drawLine(t *rapid.T, label string, least, most int) string {
	s := rapid.StringN(least, -1, most).Draw(t, label)
	s = strings.Map(func(r rune) rune {
		if r < ' ' || 0x7f <= r && r < 0xa0 {
			return 'x'
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	if least > 0 && strings.TrimSpace(s) == "" {
		return "x"
	}
	return s
}

// drawWritten draws a length as written, above zero when so asked.
func drawWritten(t *rapid.T, label string, low int64) length.Written {
	unit := rapid.SampledFrom([]length.Unit{length.In, length.MM, length.UM, length.UIn}).Draw(t, label+" unit")
	d := length.Decimal{Coef: rapid.Int64Range(low, 999_999).Draw(t, label), Places: rapid.IntRange(0, 2).Draw(t, label+" places")}
	l, err := d.Of(unit.Size())
	if err != nil {
		t.Skip("finer than a picometre")
	}
	return length.Written{Length: l, Unit: unit, Places: d.Places}
}

// drawPlace draws any place.
func drawPlace(t *rapid.T) plan.Place {
	family := rapid.SampledFrom(plan.Families()).Draw(t, "family")
	of := plan.Feature{Family: family.Family, At: rapid.IntRange(1, 99).Draw(t, "position")}
	if len(family.Parts) > 0 {
		of.Part = rapid.SampledFrom(family.Parts).Draw(t, "part")
	}
	angle := "0"
	if family.Figure == "" {
		angle = rapid.StringMatching(`[0-9]{1,2}|1[0-7][0-9]`).Draw(t, "direction")
	}
	dir, err := plan.ParseDirection(family.Family, angle)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Place{Of: of, Level: rapid.StringMatching(`[a-z0-9]{1,16}`).Draw(t, "level"), Dir: dir}
}

// drawBody draws a body of one of the kinds that hold free text and numbers.
func drawBody(t *rapid.T, n int64) Body {
	switch p := drawPlace(t); rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		return Details{UID: rapid.StringMatching(`[a-z]{10}`).Draw(t, "uid"), Title: drawLine(t, "title", 0, 200), Unit: length.MM}
	case 1:
		r := Reading{
			Of: p.Of, Level: p.Level, Dir: p.Dir, Set: drawLine(t, "set", 1, 64), Keyed: drawLine(t, "keyed", 1, 64),
			Via: ViaCable, As: Repeat, Blind: rapid.Bool().Draw(t, "blind"), Despite: drawLine(t, "despite", 0, 300),
		}
		if rapid.Bool().Draw(t, "direct") {
			r.Size = drawWritten(t, "size", 1)
		} else {
			r.Dev = drawWritten(t, "dev", -999_999)
		}
		return r
	case 2:
		return LeftOut{Of: p.Of, Level: p.Level, Dir: p.Dir, Why: drawLine(t, "why", 0, 4096)}
	case 3:
		if n > 1 {
			return Withdrawn{Event: rapid.Int64Range(1, n-1).Draw(t, "event")}
		}
		return State{State: Closed}
	case 4:
		return Table{Name: Ladder, Rows: []map[string]string{{drawLine(t, "key", 1, 64): drawLine(t, "value", 0, 200)}}}
	default:
		return Note{Text: drawLine(t, "text", 1, 4096) + rapid.SampledFrom([]string{"", "\n\t."}).Draw(t, "end")}
	}
}

// drawTime draws a moment with an offset, and parts of a second.
func drawTime(t *rapid.T) time.Time {
	zone := time.FixedZone("somewhere", 60*rapid.IntRange(-1439, 1439).Draw(t, "offset"))
	return time.Unix(rapid.Int64Range(-1e10, 2e11).Draw(t, "seconds"), rapid.Int64Range(0, 999_999_999).Draw(t, "parts")).In(zone)
}

// TestSealDecodeProperty: what is sealed is read back the same in both ways,
// sealed again to the same bytes, and its chain verifies.
func TestSealDecodeProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lines [][]byte
		var head Head
		for n := range rapid.Int64Range(1, 6).Draw(t, "events") {
			moment := drawTime(t)
			s, err := Seal(Event{At: moment, By: drawLine(t, "by", 0, 32), Body: drawBody(t, n+1)}, head)
			if err != nil {
				t.Fatalf("event %d: %v", n+1, err)
			}
			if d := moment.Sub(s.At); d < 0 || d >= time.Second {
				t.Fatalf("%v became %v", moment, s.At)
			}
			for name, decode := range decoders {
				if e, err := decode(s.Bytes); err != nil || !reflect.DeepEqual(e, s.Event) {
					t.Fatalf("%s of %s is\n%+v, %v\nnot\n%+v", name, s.Bytes, e, err, s.Event)
				}
			}
			if again, err := Seal(s.Event, head); err != nil || !bytes.Equal(again.Bytes, s.Bytes) {
				t.Fatalf("%s is sealed again as %s, %v", s.Bytes, again.Bytes, err)
			}
			lines, head = append(lines, s.Bytes), s.Head
		}
		events, err := Verify(lines)
		if err != nil || events[len(events)-1].Head != head {
			t.Fatalf("Verify gives %d events, %v", len(events), err)
		}
		var file bytes.Buffer
		if err := WriteFull(&file, lines); err != nil {
			t.Fatal(err)
		}
		if f, err := ReadFile(&file); err != nil || f.Full == nil || !reflect.DeepEqual(f.Full.Events, events) {
			t.Fatalf("the file is read as %+v, %v", f, err)
		}
	})
}

// TestAlteredProperty: no byte of a stream can be altered unseen while its
// digest is known.
func TestAlteredProperty(t *testing.T) {
	sealed := fiveEvents(t)
	text := fullText(t, sealed)
	from := strings.Index(text, `"events":[`) + len(`"events":[`)
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(from, len(text)-1).Draw(t, "at")
		b := rapid.Byte().Draw(t, "byte")
		if b == text[i] {
			t.Skip("the same byte")
		}
		altered := text[:i] + string([]byte{b}) + text[i+1:]
		f, err := ReadFile(strings.NewReader(altered))
		if err == nil && !reflect.DeepEqual(linesOf(f.Full.Events), linesOf(sealed)) {
			t.Fatalf("byte %d can be %q instead of %q unseen", i, b, text[i])
		}
	})
}

// drawPlain draws a plain file, and the readings that it has at each place.
func drawPlain(t *rapid.T) (Plain, map[plan.Place][]string) {
	dirs := plan.Families()[0].Usual[rapid.IntRange(0, 3).Draw(t, "directions")]
	levels, bores := rapid.IntRange(1, 6).Draw(t, "levels"), rapid.IntRange(1, 8).Draw(t, "bores")
	p := Plain{Version: 1, Unit: length.MM, Layout: &plan.Layout{Form: plan.Inline, Cylinders: bores}}
	p.Plan = []PlainGroup{{Family: plan.Bore, Levels: make([]PlainLevel, levels), Directions: dirs}}
	want := map[plan.Place][]string{}
	for b := 1; b <= bores; b++ {
		row := PlainRow{Of: plan.Feature{Family: plan.Bore, At: b}, Values: map[string]Column{}}
		for _, dir := range dirs {
			cells := make([]Cell, levels)
			for l := range cells {
				for range rapid.IntRange(0, 3).Draw(t, "repeats") {
					text := rapid.StringMatching(`6[0-9]\.[0-9]{0,6}( ?mm)?|2,[0-9]{1,3} in`).Draw(t, "value")
					cells[l] = append(cells[l], Number(text))
					place := plan.Place{Of: row.Of, Level: string(rune('a' + l)), Dir: dir}
					want[place] = append(want[place], text)
				}
			}
			row.Values[dir] = Column{Cells: cells}
		}
		p.Readings = append(p.Readings, row)
	}
	return p, want
}

// TestPlainProperty: every reading of a plain file becomes an event in its
// place, with its text, and the file prints back.
func TestPlainProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, want := drawPlain(t)
		text, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		f, err := ReadFile(bytes.NewReader(text))
		if err != nil || !reflect.DeepEqual(*f.Plain, p) {
			t.Fatalf("%s is read as %+v, %v", text, f.Plain, err)
		}
		events, err := f.Plain.Events("u1", at, "rk")
		if err != nil {
			t.Fatal(err)
		}
		got := map[plan.Place][]string{}
		for _, e := range events {
			if r, ok := e.Body.(Reading); ok {
				if (r.As == First) != (len(got[r.Place()]) == 0) {
					t.Fatalf("%+v is taken as %s", r.Place(), r.As)
				}
				got[r.Place()] = append(got[r.Place()], r.Keyed)
			}
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("the readings are\n%v\nnot\n%v", got, want)
		}
	})
}
