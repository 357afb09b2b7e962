package engine_test

import (
	"bytes"
	"flag"
	"os"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

var update = flag.Bool("update", false, "write the files that this test compares with")

// bench writes a session as a hand at the bench would have made it.
type bench struct {
	t      *testing.T
	at     time.Time
	head   record.Head
	events []record.Sealed
	unit   length.Unit
	// dev reads by deviation from a master, size in full.
	sets map[plan.Family]hand
}

// hand is the set a family is read in and, for a comparator, its graduation.
type hand struct {
	set        string
	comparator bool
	grad       length.Length
}

func newBench(t *testing.T, start string, unit length.Unit) *bench {
	t.Helper()
	at, err := time.Parse(time.RFC3339, start)
	if err != nil {
		t.Fatal(err)
	}
	return &bench{t: t, at: at, unit: unit, sets: map[plan.Family]hand{}}
}

func (b *bench) do(bodies ...record.Body) {
	b.t.Helper()
	for _, body := range bodies {
		s, err := record.Seal(record.Event{At: b.at, By: "ek", Body: body}, b.head)
		if err != nil {
			b.t.Fatal(err)
		}
		b.events, b.head = append(b.events, s), s.Head
		b.at = b.at.Add(23 * time.Second)
	}
}

func (b *bench) w(text string) length.Written {
	b.t.Helper()
	w, err := length.Parse(text, b.unit)
	if err != nil {
		b.t.Fatal(err)
	}
	return w
}

// read takes the values of a feature in the plan's order of places; "" leaves
// the rest unread.
func (b *bench) read(of string, p plan.Plan, values ...string) {
	b.t.Helper()
	f, err := plan.ParseFeature(of)
	if err != nil {
		b.t.Fatal(err)
	}
	h := b.sets[f.Family]
	for i, place := range p.Places(f) {
		if i >= len(values) {
			return
		}
		r := record.Reading{
			Of: f, Level: place.Level, Dir: place.Dir, Set: h.set, Keyed: values[i],
			Via: record.ViaKeypad, As: record.First,
		}
		if h.comparator {
			d, err := length.ParseDecimal(values[i])
			if err != nil {
				b.t.Fatal(err)
			}
			l, err := d.Of(h.grad)
			if err != nil {
				b.t.Fatal(err)
			}
			r.Dev = b.w(length.Of(l).Format(b.unit, b.unit.Decimals()+d.Places))
		} else {
			r.Size = b.w(values[i])
		}
		b.do(r)
	}
}

func (b *bench) file() []byte {
	b.t.Helper()
	lines := make([][]byte, len(b.events))
	for i, e := range b.events {
		lines[i] = e.Bytes
	}
	var buf bytes.Buffer
	if err := record.WriteFull(&buf, lines); err != nil {
		b.t.Fatal(err)
	}
	return buf.Bytes()
}

// gauge sets an instrument up and opens a set with it for families.
func (b *bench) gauge(i gauge.Instrument, on string, size length.Written, plate string, families ...plan.Family) {
	id := i.ID
	b.do(record.Instrument{Instrument: i})
	b.do(record.Setting{Setting: gauge.Setting{ID: "s-" + id, Instrument: id, On: on, Size: size}})
	b.do(record.Set{Set: gauge.Set{ID: "t-" + id, Setting: "s-" + id, Plate: plate, At: gauge.Temperatures{Part: "19.5", Gauge: "19.5"}}})
	for _, f := range families {
		b.sets[f] = hand{"t-" + id, i.Kind == gauge.Comparator, i.Graduation.Length}
	}
}

func (b *bench) limit(on limit.Characteristic, of, low, high, wearLow, wearHigh string) {
	l := limit.Limits{On: on, Of: of, Source: "invented for the demo"}
	for _, x := range []struct {
		to   *length.Written
		text string
	}{{&l.New.Low, low}, {&l.New.High, high}, {&l.Wear.Low, wearLow}, {&l.Wear.High, wearHigh}} {
		if x.text != "" {
			*x.to = b.w(x.text)
		}
	}
	b.do(record.Limit{Limits: l})
}

func TestDemoSessionsAreCurrent(t *testing.T) {
	for name, b := range map[string]*bench{
		"launch":          launch(t, false),
		"launch-complete": launch(t, true),
		"hillclimb":       hillclimb(t),
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := engine.Replay(b.events); err != nil {
				t.Fatal(err)
			}
			path := "../testdata/sessions/" + name + ".json"
			if *update {
				if err := os.WriteFile(path, b.file(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			got, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, b.file()) {
				t.Errorf("%s is not what this test makes; run it with -update", path)
			}
		})
	}
}

// launch is a harbour launch's cast-iron straight six, invented. It is left
// half-way through the bores unless complete.
func launch(t *testing.T, complete bool) *bench {
	t.Helper()
	b := newBench(t, "2026-03-10T14:02:00+01:00", length.In)
	uid, title := "demo-launch", "Kittiwake, harbour launch"
	if complete {
		uid, title = "demo-launch-complete", "Kittiwake, harbour launch, measured"
	}
	b.do(record.Details{UID: uid, Title: title, Customer: "Ferry steps boatyard", Engine: "cast-iron straight six", Unit: length.In},
		record.Layout{Layout: plan.Default(plan.Inline, 6, false)})
	p := plan.Plan{Families: []plan.Group{
		{Family: plan.MainJournal, Nominal: b.w("2.7490"), Levels: plan.Grid(plan.MainJournal, 2), Directions: []string{"vertical", "horizontal"}, Instrument: "mic3"},
		{Family: plan.MainBearing, Nominal: b.w("2.7510"), Levels: plan.Grid(plan.MainBearing, 2), Directions: []string{"vertical"}, Instrument: "small"},
		{Family: plan.Piston, Nominal: b.w("3.7465"), Levels: plan.Grid(plan.Piston, 1), Directions: []string{"across"}, Instrument: "mic4"},
		{Family: plan.Bore, Nominal: b.w("3.7500"), Levels: []plan.Level{
			{ID: "a", Name: "top", Depth: b.w("0.5")}, {ID: "b", Name: "middle", Depth: b.w("2.5")}, {ID: "c", Name: "bottom", Depth: b.w("4.5")},
		}, Directions: []string{"across", "along"}, Instrument: "large"},
	}}
	bores := "3.7510"
	if complete {
		p, bores = b.withRings(p), "3.7515"
	}
	b.do(record.Plan{Plan: p})
	b.limit(limit.Size, "bore", "3.7500", bores, "", "3.7560")
	b.limit(limit.OutOfRound, "bore", "", "0.0005", "", "0.0030")
	b.limit(limit.Taper, "bore", "", "0.0005", "", "0.0020")
	b.limit(limit.Clearance, "bore", "0.0030", "0.0050", "", "0.0080")
	b.limit(limit.Size, "main-journal", "2.7485", "2.7495", "2.7475", "")
	b.limit(limit.OutOfRound, "main-journal", "", "0.0004", "", "0.0010")
	b.limit(limit.Taper, "main-journal", "", "0.0004", "", "0.0008")
	b.limit(limit.Clearance, "main-bearing", "0.0010", "0.0030", "", "0.0045")
	ten := b.w("0.0001")
	micrometer := gauge.Instrument{Kind: gauge.Direct, Contacts: 2, Unit: length.In, Graduation: ten, Step: ten, Turn: b.w("0.0250")}
	dial := gauge.Instrument{Kind: gauge.Comparator, Contacts: 2, Unit: length.In, Graduation: ten, Step: b.w("0.00005"), Turn: b.w("0.0100")}
	mic3, mic4, small, large := micrometer, micrometer, dial, dial
	mic3.ID, mic3.Name, mic3.Low, mic3.High = "mic3", "2 to 3 in micrometer", b.w("2"), b.w("3")
	mic4.ID, mic4.Name, mic4.Low, mic4.High = "mic4", "3 to 4 in micrometer", b.w("3"), b.w("4")
	small.ID, small.Name = "small", "bore gauge, 2 to 6 in"
	large.ID, large.Name = "large", "bore gauge with the long head"
	b.gauge(mic3, gauge.OnScale, length.Written{}, "", plan.MainJournal)
	for i, v := range [][4]string{
		{"2.7489", "2.7490", "2.7489", "2.7489"},
		{"2.7490", "2.7491", "2.7490", "2.7490"},
		{"2.7494", "2.7493", "2.7494", "2.7493"},
		{"2.7488", "2.7489", "2.7488", "2.7488"},
		{"2.7490", "2.7490", "2.7489", "2.7490"},
		{"2.7489", "2.7491", "2.7489", "2.7490"},
		{"2.7490", "2.7490", "2.7490", "2.7489"},
	} {
		b.read(plan.Feature{Family: plan.MainJournal, At: i + 1}.String(), p, v[:]...)
	}
	b.gauge(small, gauge.OnMicrometer, b.w("2.7500"), "", plan.MainBearing)
	for i, v := range [][2]string{
		{"+10", "+10.5"}, {"+11", "+10"}, {"+2", "+2.5"}, {"+10", "+9.5"}, {"+11", "+11"}, {"+10", "+10"}, {"+9", "+10"},
	} {
		b.read(plan.Feature{Family: plan.MainBearing, At: i + 1}.String(), p, v[:]...)
	}
	b.at = b.at.Add(time.Hour)
	b.gauge(mic4, gauge.OnScale, length.Written{}, "", plan.Piston)
	for i, v := range []string{"3.7466", "3.7465", "3.7465", "3.7464", "3.7466", "3.7465"} {
		b.read(plan.Feature{Family: plan.Piston, At: i + 1}.String(), p, v)
	}
	b.gauge(large, gauge.OnRing, b.w("3.7500"), "deck plate with gasket", plan.Bore)
	read := [][]string{
		{"+3", "+2", "+4", "+3", "+3", "+3"},
		{"+4", "+1", "+9", "0", "+5", "+2"},
		{"+3", "+3", "+5", "+4", "+4", "+3"},
		{"+2", "+3", "+3", "+3", "+4", "+3"},
		{"+4", "+3", "+4", "+4", "+5", "+4"},
		{"+3", "+2.5", "+4", "+3", "+3", "+2"},
	}
	if !complete {
		read = [][]string{read[0], read[1], read[2], read[3][:2]}
	}
	for i, v := range read {
		b.read(plan.Feature{Family: plan.Bore, At: i + 1}.String(), p, v...)
	}
	if complete {
		b.rings(p)
		b.stock()
	}
	return b
}

// hillclimb is a hill-climb special's aluminium straight three with liners,
// invented: one bore was honed again and read again.
func hillclimb(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, "2026-04-18T09:10:00+02:00", length.MM)
	b.do(record.Details{UID: "demo-hillclimb", Title: "Goat track special", Engine: "aluminium straight three, dry liners", Unit: length.MM},
		record.Layout{Layout: plan.Default(plan.Inline, 3, false)})
	p := plan.Plan{Order: plan.ByDirection, Families: []plan.Group{
		{Family: plan.MainJournal, Nominal: b.w("54.000"), Levels: plan.Grid(plan.MainJournal, 2), Directions: []string{"vertical", "horizontal"}, Instrument: "mic75"},
		{Family: plan.MainBearing, Nominal: b.w("54.040"), Levels: plan.Grid(plan.MainBearing, 2), Directions: []string{"vertical"}, Instrument: "gauge"},
		{Family: plan.Piston, Nominal: b.w("81.950"), Levels: plan.Grid(plan.Piston, 1), Directions: []string{"across"}, Instrument: "mic100"},
		{Family: plan.Bore, Nominal: b.w("82.000"), Levels: []plan.Level{
			{ID: "a", Name: "top", Depth: b.w("10")}, {ID: "b", Name: "middle", Depth: b.w("60")}, {ID: "c", Name: "bottom", Depth: b.w("115")},
		}, Directions: []string{"across", "30", "150"}, Instrument: "gauge"},
	}}
	b.do(record.Plan{Plan: p})
	b.limit(limit.Size, "bore", "82.000", "82.020", "", "82.060")
	b.limit(limit.OutOfRound, "bore", "", "0.010", "", "0.025")
	b.limit(limit.Taper, "bore", "", "0.012", "", "0.040")
	b.limit(limit.Clearance, "bore", "0.045", "0.075", "", "0.110")
	b.limit(limit.Clearance, "main-bearing", "0.025", "0.060", "", "0.080")
	b.limit(limit.OutOfRound, "main-journal", "", "0.005", "", "0.010")
	mic := gauge.Instrument{Kind: gauge.Direct, Contacts: 2, Unit: length.MM, Graduation: b.w("0.001"), Step: b.w("0.001"), Turn: b.w("0.500")}
	mic75, mic100 := mic, mic
	mic75.ID, mic75.Name = "mic75", "50 to 75 mm micrometer"
	mic100.ID, mic100.Name = "mic100", "75 to 100 mm micrometer"
	dial := gauge.Instrument{ID: "gauge", Name: "bore gauge, 0.001 mm dial", Kind: gauge.Comparator, Contacts: 2, Unit: length.MM, Graduation: b.w("0.001"), Step: b.w("0.001"), Turn: b.w("0.200")}
	b.gauge(mic75, gauge.OnScale, length.Written{}, "", plan.MainJournal)
	for i, v := range [][4]string{
		{"54.001", "54.000", "54.002", "54.001"},
		{"53.999", "54.000", "54.000", "54.001"},
		{"54.000", "54.001", "54.001", "54.002"},
		{"54.001", "54.001", "54.000", "54.001"},
	} {
		b.read(plan.Feature{Family: plan.MainJournal, At: i + 1}.String(), p, v[:]...)
	}
	b.gauge(dial, gauge.OnMicrometer, b.w("54.000"), "", plan.MainBearing)
	for i, v := range [][2]string{{"+40", "+41"}, {"+38", "+39"}, {"+42", "+41"}, {"+40", "+40"}} {
		b.read(plan.Feature{Family: plan.MainBearing, At: i + 1}.String(), p, v[:]...)
	}
	b.gauge(mic100, gauge.OnScale, length.Written{}, "", plan.Piston)
	for i, v := range []string{"81.951", "81.950", "81.949"} {
		b.read(plan.Feature{Family: plan.Piston, At: i + 1}.String(), p, v)
	}
	b.do(record.Setting{Setting: gauge.Setting{ID: "s-ring", Instrument: "gauge", On: gauge.OnRing, Size: b.w("82.000")}},
		record.Set{Set: gauge.Set{ID: "t-ring", Setting: "s-ring", Plate: "deck plate with gasket", At: gauge.Temperatures{Part: "21.0", Gauge: "20.5"}}})
	b.sets[plan.Bore] = hand{"t-ring", true, b.w("0.001").Length}
	b.read("bore/1", p, "+8", "+10", "+9", "+9", "+9", "+8", "+7", "+9", "+8")
	b.read("bore/2", p, "+4", "+2", "0", "+6", "+4", "+1", "-4", "-3", "-5")
	b.read("bore/3", p, "+10", "+11", "+9", "+9", "+10", "+8", "+10", "+11", "+9")
	two := []plan.Feature{{Family: plan.Bore, At: 2}}
	b.at = b.at.Add(90 * time.Minute)
	b.do(record.Work{Did: "honed", To: two, Amount: "0.010 mm", Changes: two, Metal: true, Note: "to the size of the others"},
		record.Set{Set: gauge.Set{ID: "t-after", Setting: "s-ring", Plate: "deck plate with gasket", At: gauge.Temperatures{Part: "22.5", Gauge: "21.0"}}})
	b.sets[plan.Bore] = hand{"t-after", true, b.w("0.001").Length}
	b.read("bore/2", p, "+9", "+10", "+9", "+10", "+9", "+8", "+8", "+9", "+8")
	return b
}
