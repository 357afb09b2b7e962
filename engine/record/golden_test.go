package record

import (
	"reflect"
	"testing"
	"time"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// at is a moment in an autumn shop, with the offset of central Europe.
var at = time.Date(2026, time.November, 25, 8, 44, 0, 0, time.FixedZone("", 3600))

// written parses a length that a test knows to be one.
func written(text string) length.Written {
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		panic(err)
	}
	return w
}

// feature parses a feature that a test knows to be one.
func featureOf(text string) plan.Feature {
	f, err := plan.ParseFeature(text)
	if err != nil {
		panic(err)
	}
	return f
}

// anyHash stands for the hash of an event that is not looked at.
const anyHash = "47DEQpj8HBSa-_TImW-5JCeuQeRkm5NMpJWZG3hSuFU"

// golden holds an event of every kind with its stored bytes, less the envelope
// at the front and the hash at the end.
var golden = []struct {
	body   Body
	fields string
}{
	{
		Details{
			UID: "b7x2", Title: "Harbour launch <6>", Customer: "Pier 4", Engine: "straight six", Unit: length.In,
			Earlier: "a1", Copied: "412 of a1", Ran: "2021 to 2026",
		},
		`"is":"details","uid":"b7x2","title":"Harbour launch <6>","customer":"Pier 4","engine":"straight six","unit":"in","earlier":"a1","copied":"412 of a1","ran":"2021 to 2026"`,
	},
	{
		Layout{plan.Layout{
			Form: plan.Vee, Cylinders: 4, Mains: 3, RodJournals: 2, RodsPerJournal: 2, CamBearings: 3, Shared: true,
			Labels: map[string][]string{"cylinders": {"L1", "L2", "R1", "R2"}},
		}},
		`"is":"layout","form":"vee","cylinders":4,"mains":3,"rod_journals":2,"rods_per_journal":2,"cam_bearings":3,"shared":true,"labels":{"cylinders":["L1","L2","R1","R2"]}`,
	},
	{
		Plan{plan.Plan{
			Families: []plan.Group{{
				Family: plan.Bore, Nominal: written("3.7500 in"), Directions: []string{"across", "45"}, Instrument: "bg1",
				Levels: []plan.Level{{ID: "a", Name: "top", Depth: written("0.50 in")}, {ID: "b", Half: "front"}},
			}},
			Order: plan.ByDirection,
		}},
		`"is":"plan","families":[{"family":"bore","nominal":"3.7500 in","levels":[{"id":"a","name":"top","depth":"0.50 in"},{"id":"b","half":"front"}],"directions":["across","45"],"instrument":"bg1"}],"order":"direction"`,
	},
	{
		Limit{limit.Limits{
			On: limit.Taper, Of: "bore", By: limit.Spread,
			New: limit.Range{High: written("0.0005 in")}, Wear: limit.Range{High: written("0.0010 in")}, Target: written("0 in"),
			Per: written("1 in"), Travel: written("4.0 in"), JudgeBy: limit.Wear, Source: "sheet 12",
		}},
		`"is":"limit","on":"taper","of":"bore","definition":"spread","new":{"high":"0.0005 in"},"wear":{"high":"0.0010 in"},"target":"0 in","per":"1 in","travel":"4.0 in","judge":"wear","source":"sheet 12"`,
	},
	{
		Rules{
			Unit: length.MM, Definitions: map[string]string{"taper": "end to end"}, Clearance: limit.MeanMean, Judge: limit.New,
			Decision: Guarded, Coverage: "2", Drift: written("0.002 mm"), StaleHours: 4, BlindRate: "0.05",
		},
		`"is":"rules","unit":"mm","definitions":{"taper":"end to end"},"clearance":"mean - mean","judge":"new","decision":"guarded","coverage":"2","drift":"0.002 mm","stale_hours":4,"blind_rate":"0.05"`,
	},
	{
		Given{Name: "stroke", Of: "bore", Value: "3.480 in", Doubt: "0.001 in", Source: "measured off the crank"},
		`"is":"given","name":"stroke","of":"bore","value":"3.480 in","doubt":"0.001 in","source":"measured off the crank"`,
	},
	{
		Table{Name: Shells, Of: "main-bearing", Rows: []map[string]string{{"name": "standard", "count": "3"}, {"name": "0.002 under"}}, Source: "shelf 2"},
		`"is":"table","name":"shells","of":"main-bearing","rows":[{"count":"3","name":"standard"},{"name":"0.002 under"}],"source":"shelf 2"`,
	},
	{
		Instrument{gauge.Instrument{
			ID: "bg1", Name: "Bore gauge 2-6", Kind: gauge.Comparator, Contacts: 2, Unit: length.In,
			Graduation: written("0.0005 in"), Step: written("0.00025 in"), Turn: written("0.020 in"),
			Low: written("2 in"), High: written("6 in"), Sense: "clockwise smaller", Sends: gauge.SendsGraduations,
			Material: "steel", Alpha: "11.5", AlphaDoubt: "1", Due: "2027-03-31", S: written("0.00008 in"), DF: 40,
		}},
		`"is":"instrument","id":"bg1","name":"Bore gauge 2-6","kind":"comparator","contacts":2,"unit":"in","graduation":"0.0005 in","step":"0.00025 in","turn":"0.020 in","low":"2 in","high":"6 in","sense":"clockwise smaller","sends":"graduations","material":"steel","alpha":"11.5","alpha_doubt":"1","due":"2027-03-31","s":"0.00008 in","df":40`,
	},
	{
		Setting{gauge.Setting{
			ID: "z1", Instrument: "bg1", On: gauge.OnRing, Size: written("3.7500 in"), Doubt: written("0.00005 in"),
			At: gauge.Temperatures{Part: "21.5", Master: "20", Gauge: "-3"},
		}},
		`"is":"setting","id":"z1","instrument":"bg1","on":"ring","size":"3.7500 in","doubt":"0.00005 in","temperatures":{"part":"21.5","master":"20","gauge":"-3"}`,
	},
	{
		Set{gauge.Set{
			ID: "s1", Setting: "z1", Plate: "deck plate", Caps: "torqued", Torque: "65 ft lb", Fastener: "studs",
			Lube: "moly", Oiled: "dry", At: gauge.Temperatures{Part: "19"},
		}},
		`"is":"set","id":"s1","setting":"z1","plate":"deck plate","caps":"torqued","torque":"65 ft lb","fastener":"studs","lube":"moly","oiled":"dry","temperatures":{"part":"19"}`,
	},
	{
		Zero{Set: "s1", Keyed: "-.5", Deviation: written("-0.00025 in")},
		`"is":"zero","set":"s1","keyed":"-.5","deviation":"-0.00025 in"`,
	},
	{
		Zero{Set: "s1", Skipped: true, Why: "the ring is locked away"},
		`"is":"zero","set":"s1","skipped":true,"why":"the ring is locked away"`,
	},
	{
		Reading{
			Of: featureOf("bore/2"), Level: "b", Dir: "across", Set: "s1", Keyed: "+3", Via: ViaKeypad,
			Dev: written("0.0015 in"), As: Replace, Blind: true, Despite: "far from its neighbours",
		},
		`"is":"reading","of":"bore/2","level":"b","dir":"across","set":"s1","keyed":"+3","via":"keypad","dev":"0.0015 in","as":"replace","blind":true,"despite":"far from its neighbours"`,
	},
	{
		Reading{Of: featureOf("main-journal/5"), Level: "a", Dir: "30", Keyed: "62,990", Via: ViaFile, Size: written("62.990 mm"), As: First},
		`"is":"reading","of":"main-journal/5","level":"a","dir":"30","keyed":"62,990","via":"file","size":"62.990 mm","as":"first"`,
	},
	{
		LeftOut{Of: featureOf("bore/1"), Level: "c", Dir: "along", Why: "a nick\nat the bottom"},
		`"is":"left out","of":"bore/1","level":"c","dir":"along","why":"a nick\nat the bottom"`,
	},
	{
		Moved{Readings: []int64{3, 4}, Places: []plan.Place{{Of: featureOf("bore/3"), Level: "a", Dir: "across"}, {Of: featureOf("bore/3"), Level: "a", Dir: "along"}}},
		`"is":"moved","readings":[3,4],"places":[{"of":"bore/3","level":"a","dir":"across"},{"of":"bore/3","level":"a","dir":"along"}]`,
	},
	{
		Withdrawn{Event: 8, Why: "slipped"},
		`"is":"withdrawn","event":8,"why":"slipped"`,
	},
	{
		Work{
			Did: "honed", To: []plan.Feature{featureOf("bore/2")}, Amount: "0.001 in",
			Changes: []plan.Feature{featureOf("bore/2")}, Metal: true, After: 7, Note: "last 6 strokes dry",
		},
		`"is":"work","did":"honed","to":["bore/2"],"amount":"0.001 in","changes":["bore/2"],"metal":true,"after":7,"note":"last 6 strokes dry"`,
	},
	{
		Fitted{Part: featureOf("piston/3"), At: featureOf("bore/1")},
		`"is":"fitted","part":"piston/3","to":"bore/1"`,
	},
	{
		Intended{Actions: []Action{{Did: "hone", To: []plan.Feature{featureOf("bore/2"), featureOf("bore/4")}, Amount: "0.02 mm"}}},
		`"is":"intended","actions":[{"did":"hone","to":["bore/2","bore/4"],"amount":"0.02 mm"}]`,
	},
	{
		Steps{List: prep.List{
			{
				ID: "plugs", Name: "plugs out", Text: "Take out the gallery plugs", Kind: prep.Counted, On: prep.Block, Count: 6,
				Tally: "gallery plugs", Way: prep.Out, Cautions: []string{prep.Lifting}, Source: prep.CommonPractice,
			},
			{
				ID: "seat", Name: "seat", Kind: prep.Value, Places: []string{"cam-bearing/1", "bore/3 top"}, Unit: "in", Low: "0 in", High: "0.002 in",
				Match: true, NotBefore: []string{"plugs"}, Metal: true, Did: "deburred", Note: "not yet washed",
			},
			{ID: "kind", Name: "lifter kind", Kind: prep.Choice, Choices: []string{"solid", "hydraulic"}},
		}},
		`"is":"steps","list":[{"id":"plugs","name":"plugs out","text":"Take out the gallery plugs","kind":"counted","on":"block","count":6,"tally":"gallery plugs","way":"out","cautions":["lifting"],"source":"common practice, no source"},{"id":"seat","name":"seat","kind":"value","places":["cam-bearing/1","bore/3 top"],"unit":"in","low":"0 in","high":"0.002 in","match":true,"not_before":["plugs"],"metal":true,"did":"deburred","note":"not yet washed"},{"id":"kind","name":"lifter kind","kind":"choice","choices":["solid","hydraulic"]}]`,
	},
	{
		Done{prep.Tick{Step: "plugs", Place: "front", Count: 6, Way: prep.Out, Keyed: "6", Value: "0.0015 in", Choice: "flat", Forced: "one is seized"}},
		`"is":"done","step":"plugs","place":"front","count":6,"way":"out","keyed":"6","value":"0.0015 in","choice":"flat","forced":"one is seized"`,
	},
	{
		Study{Instrument: "bg1", Method: "range", Rows: []StudyRow{{Operator: "A", Part: "1", Trial: 1, Value: "3.7503"}, {Operator: "A", Part: "1", Trial: 2, Value: "3.7504 in"}}},
		`"is":"study","instrument":"bg1","method":"range","rows":[{"operator":"A","part":"1","trial":1,"value":"3.7503"},{"operator":"A","part":"1","trial":2,"value":"3.7504 in"}]`,
	},
	{
		Note{On: "bore/2", Text: "ridge at the top & \"shiny\" \u2028 \\ µ"},
		`"is":"note","on":"bore/2","text":"ridge at the top & \"shiny\" \u2028 \\ µ"`,
	},
	{
		State{State: Closed},
		`"is":"state","state":"closed"`,
	},
}

func TestGolden(t *testing.T) {
	kinds := map[Kind]bool{}
	for _, g := range golden {
		kinds[g.body.Is()] = true
		want := `{"n":9,"v":1,"at":"2026-11-25T08:44:00+01:00","by":"rk",` + g.fields + `,"prev":"` + anyHash + `"}`
		s, err := Seal(Event{At: at.Add(999 * time.Millisecond), By: "rk", Body: g.body}, Head{N: 8, Hash: anyHash})
		if err != nil {
			t.Errorf("%s: %v", g.body.Is(), err)
			continue
		}
		if string(s.Bytes) != want {
			t.Errorf("%s is stored as\n%s\nnot\n%s", g.body.Is(), s.Bytes, want)
		}
		event := Event{N: 9, V: 1, At: at, By: "rk", Body: g.body, Prev: anyHash}
		for name, decode := range decoders {
			got, err := decode([]byte(want))
			if err != nil || !reflect.DeepEqual(got, event) {
				t.Errorf("%s of %s is\n%+v, %v\nnot\n%+v", name, want, got, err, event)
			}
		}
		if s.Head != (Head{N: 9, Hash: SumOf(s.Bytes)}) || !reflect.DeepEqual(s.Event, event) {
			t.Errorf("%s is sealed as %+v with head %+v", g.body.Is(), s.Event, s.Head)
		}
	}
	for kind := range codecs {
		if !kinds[kind] {
			t.Errorf("no golden event is of kind %q", kind)
		}
	}
}

// decoders are the two ways to read stored bytes, which agree on good ones.
var decoders = map[string]func([]byte) (Event, error){"Decode": Decode, "DecodeStrict": DecodeStrict}

// TestGoldenAnyOrder reads bytes that stand otherwise than Seal writes them.
func TestGoldenAnyOrder(t *testing.T) {
	for _, g := range golden {
		foreign := `{ "prev" : "` + anyHash + `", ` + g.fields + `, "by":"r\u006b", "at":"2026-11-25T08:44:00+01:00", "v":1, "n":9 }`
		event := Event{N: 9, V: 1, At: at, By: "rk", Body: g.body, Prev: anyHash}
		for name, decode := range decoders {
			got, err := decode([]byte(foreign))
			if err != nil || !reflect.DeepEqual(got, event) {
				t.Errorf("%s of %s is\n%+v, %v\nnot\n%+v", name, foreign, got, err, event)
			}
		}
	}
}

func TestSumOf(t *testing.T) {
	// SHA-256 of the empty text and of "abc": FIPS 180-4 examples, e3b0c442...
	// and ba7816bf..., in base64url (RFC 4648 section 5).
	for text, want := range map[string]string{
		"":    "47DEQpj8HBSa-_TImW-5JCeuQeRkm5NMpJWZG3hSuFU",
		"abc": "ungWv48Bz-pBQUDeXa4iI7ADYaOWF3qctBD_YfIAFa0",
	} {
		if got := SumOf([]byte(text)); got != want {
			t.Errorf("SumOf(%q) = %s, not %s", text, got, want)
		}
	}
}
