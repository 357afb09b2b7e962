package record

import (
	"errors"
	"strings"
	"testing"
)

// stored is the stored bytes of a good reading, to be spoilt.
const stored = `{"n":1,"v":1,"at":"2026-11-25T08:44:00+01:00","by":"rk","is":"reading","of":"bore/1","level":"a","dir":"across","keyed":"67.118","via":"keypad","size":"67.118 mm","as":"first","prev":""}`

// malformed are ways to spoil it, with the sentence each is refused with.
var malformed = []struct{ name, old, new, want string }{
	// the form of the text
	{"nothing", stored, "", "the text ends too early"},
	{"cut in a key", `vel":"a","dir":"across","keyed":"67.118","via":"keypad","size":"67.118 mm","as":"first","prev":""}`, ``, "the text ends too early"},
	{"cut in a value", `irst","prev":""}`, ``, "as: the text ends too early"},
	{"cut after a key", `:"first","prev":""}`, ``, "as: the text ends too early"},
	{"cut in a word", `"67.118","via":"keypad","size":"67.118 mm","as":"first","prev":""}`, `tru`, "keyed: the text ends too early"},
	{"cut before the end", `,"prev":""}`, ``, "the text ends too early"},
	{"a list", stored, `[1]`, `"[1": here must stand an object, not a list`},
	{"a text", stored, `"reading"`, `"reading": here must stand an object, not a text`},
	{"something behind", `"prev":""}`, `"prev":""} {}`, `"{}": something follows the end`},
	{"a comma behind", `"prev":""}`, `"prev":"",}`, `"}": here must stand a key in quotation marks`},
	{"a key without marks", `"prev"`, `prev`, `"prev": here must stand a key in quotation marks`},
	{"no colon", `"as":"first"`, `"as","first"`, `as: ",": here must stand ":" after the key`},
	{"no comma", `"first","prev"`, `"first""prev"`, `"prev": here must stand "," or "}"`},
	{"an escape", `"keyed":"67.118"`, `"keyed":"\q67"`, `keyed: "\\q67": an escape in this text is none of JSON`},
	{"a lone half", `"keyed":"67.118"`, `"keyed":"\ud83d"`, `keyed: "\\ud83d": an escape in this text is none of JSON`},
	{"a lone second half", `"keyed":"67.118"`, `"keyed":"x\udca9"`, `keyed: "x\\udca9": an escape in this text is none of JSON`},
	{"two first halves", `"keyed":"67.118"`, `"keyed":"\ud83d\ud83d\udca9"`, `keyed: "\\ud83d\\ud83d\\udca9": an escape in this text is none of JSON`},
	{"a tab", `67.118"`, "67\t\"", `keyed: "67": a text has no line break or control character in it`},
	{"a line break", `,"as"`, ",\n\"as\"", "a stored event is one line"},
	{"not UTF-8", `67.118"`, "\xff\"", "byte 122 is not text in UTF-8"},
	{"a NUL", `"keyed":`, "\"keyed\":\x00", `keyed: "\x00": here must stand a value`},
	{"a comment", `"keyed":`, `"keyed":/* as read */`, `keyed: "/* as read */": here must stand a value`},
	{"not a number", `"keyed":"67.118"`, `"keyed":NaN`, `keyed: "NaN": not a number that can be measured`},
	{"endless", `"keyed":"67.118"`, `"keyed":-Infinity`, `keyed: "-Infinity": not a number that can be measured`},
	{"deep", `"by":"rk"`, `"by":` + strings.Repeat("[", 41), `by: "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[…": here must stand a text, not a list`},
	{"deep in the body", `"level":"a"`, `"level":` + strings.Repeat(`{"x":`, 40), `level` + strings.Repeat(".x", 31) + `: nested more than 32 deep`},
	{"long", `"keyed":"67.118"`, `"keyed":"` + strings.Repeat("6", 4097) + `"`, `keyed: "` + strings.Repeat("6", 40) + `…": a text is at most 4096 bytes long`},
	{"long when escaped", `"keyed":"67.118"`, `"keyed":"` + strings.Repeat(`\u00b5`, 2049) + `"`, `keyed: "` + strings.Repeat("µ", 40) + `…": a text is at most 4096 bytes long`},
	{"endlessly long", `"keyed":"67.118"`, `"keyed":"` + strings.Repeat(`6`, 30000) + `"`, `keyed: "` + strings.Repeat("6", 40) + `…": a text is at most 4096 bytes long`},
	{"huge", `"keyed":"67.118"`, `"keyed":"` + strings.Repeat("6", 1<<20) + `"`, "an event has at most 1048576 bytes, not 1048756"},

	// keys
	{"unknown", `"as"`, `"color":"red","as"`, "color: no such field is known"},
	{"of another kind", `"as"`, `"text":"red","as"`, "text: no such field is known"},
	{"unknown and wild", `"as"`, `"a\u001b[31m\u202e":"red","as"`, `["a\x1b[31m\u202e"]: no such field is known`},
	{"doubled", `"as"`, `"keyed":"68","as"`, "keyed: this key stands twice in the same object"},
	{"doubled by an escape", `"as"`, `"k\u0065yed":"68","as"`, "keyed: this key stands twice in the same object"},
	{"doubled in the envelope", `"as"`, `"n":2,"as"`, "n: this key stands twice in the same object"},
	{"wrong case", `"keyed"`, `"Keyed"`, `["Keyed"]: this key is written "keyed"`},
	{"wrong case in the envelope", `"is"`, `"IS"`, `["IS"]: this key is written "is"`},
	{"wrong case by a sign", `"keyed"`, `"\u212aeyed"`, "[\"\u212aeyed\"]: this key is written \"keyed\""},

	// the kind of values
	{"null", `"keyed":"67.118"`, `"keyed":null`, `keyed: "null": here must stand a text, not null`},
	{"a number", `"keyed":"67.118"`, `"keyed":67.118`, `keyed: "67.118": here must stand a text, not a number`},
	{"an object", `"keyed":"67.118"`, `"keyed":{}`, `keyed: "{": here must stand a text, not an object`},
	{"true", `"keyed":"67.118"`, `"keyed":true`, `keyed: "true": here must stand a text, not true or false`},
	{"no flag", `"as"`, `"blind":1,"as"`, `blind: "1": here must stand true or false, not a number`},
	{"a broken number", `"n":1`, `"n":01`, `n: "01": not a number as JSON writes it`},
	{"a fraction", `"n":1`, `"n":1.0`, `n: "1.0": not a whole number that fits here`},
	{"an exponent", `"n":1`, `"n":1e3`, `n: "1e3": not a whole number that fits here`},
	{"beyond", `"n":1`, `"n":9223372036854775808`, `n: "9223372036854775808": not a whole number that fits here`},
	{"endless digits", `"n":1`, `"n":` + strings.Repeat("9", 65), `n: "` + strings.Repeat("9", 40) + `…": a number has at most 64 characters`},

	// the envelope
	{"newer", `"v":1`, `"v":3,"sent_by":"cable"`, "this event is of version 3 and this program reads up to version 2: a newer borewright is needed"},
	{"no vocabulary", `"v":1,`, ``, "v: vocabularies are numbered from 1, not 0"},
	{"no number", `"n":1,`, ``, "n: events are numbered from 1, not 0"},
	{"below zero", `"n":1`, `"n":-1`, "n: events are numbered from 1, not -1"},
	{"no kind", `"is":"reading",`, ``, "is: no kind of event"},
	{"unknown kind", `"is":"reading"`, `"is":"guess"`, `is: "guess": no kind of event`},
	{"kind in capitals", `"is":"reading"`, `"is":"Reading"`, `is: "Reading": no kind of event`},
	{"no time", `"at":"2026-11-25T08:44:00+01:00",`, ``, "at: not a time such as 2026-11-25T08:44:00+01:00"},
	{"no offset", `+01:00`, ``, `at: "2026-11-25T08:44:00": not a time such as 2026-11-25T08:44:00+01:00`},
	{"parts of a second", `00+01:00`, `00.5+01:00`, `at: "2026-11-25T08:44:00.5+01:00": not a time such as 2026-11-25T08:44:00+01:00`},
	{"no day", `11-25`, `11-31`, `at: "2026-11-31T08:44:00+01:00": not a time such as 2026-11-25T08:44:00+01:00`},
	{"no hash", `"n":1`, `"n":2`, "prev: not a SHA-256 in base64url"},
	{"a hash too many", `"prev":""`, `"prev":"` + anyHash + `"`, `prev: "47DEQpj8HBSa-_TImW-5JCeuQeRkm5NMpJWZG3hS…": the first event holds no hash`},
	{"initials", `"by":"rk"`, `"by":"` + strings.Repeat("r", 33) + `"`, `by: "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr": at most 32 bytes long`},

	// values with a form of their own
	{"no length", `67.118 mm`, `67.1l8 mm`, `size: "67.1l8 mm": not a unit known here: use in, mm, µm or µin`},
	{"a length without a unit", `67.118 mm`, `67.118`, `size: "67.118": no unit given: use in, mm, µm or µin`},
	{"a length beyond", `67.118 mm`, `100000000 mm`, `size: "100000000 mm": longer than 100 m, the longest length taken`},
	{"a length in floating point", `67.118 mm`, `6.7118e1 mm`, `size: "6.7118e1 mm": not a unit known here: use in, mm, µm or µin`},
	{"a long length", `67.118 mm`, strings.Repeat(" ", 90) + `67.118 mm`, `size: "` + strings.Repeat(" ", 40) + `…": too long for what stands here`},
	{"no feature", `bore/1`, `bore`, `of: feature "bore" is not written family/position, such as bore/3`},
	{"no family", `bore/1`, `\u001b[2J/1`, `of: feature "\x1b[2J/1": no family is called "\x1b[2J"`},
	{"no position", `bore/1`, `bore/01`, `of: feature "bore/01": position "01" is not a whole number from 1 to 99`},
}

func TestDecodeStrictRefuses(t *testing.T) {
	if _, err := DecodeStrict([]byte(stored)); err != nil {
		t.Fatalf("the good event: %v", err)
	}
	for _, m := range malformed {
		if !strings.Contains(stored, m.old) {
			t.Fatalf("%s: %s is not in the event", m.name, m.old)
		}
		e, err := DecodeStrict([]byte(strings.Replace(stored, m.old, m.new, 1)))
		if err == nil || err.Error() != m.want {
			t.Errorf("%s: DecodeStrict gives %+v\nand says  %v\nnot       %s", m.name, e, err, m.want)
		}
		if strings.HasPrefix(m.name, "cut") && !errors.Is(err, ErrTruncated) {
			t.Errorf("%s: %v is not ErrTruncated", m.name, err)
		}
	}
}

// unusual are ways of writing the good reading that are right.
var unusual = []struct{ old, new string }{
	{`"keyed":"67.118"`, `"keyed":"\ud83d\udca9"`},
	{`"keyed":"67.118"`, `"keyed":"\u0036\/\\\"ÿ�"`},
	{`,"as"`, " ,\t\"as\""},
	{`"as"`, `"blind":false,"as"`},
	{`"as"`, `"dev":"","as"`},
	{`+01:00`, `Z`},
	{`+01:00`, `-00:30`},
	{`67.118 mm`, `2,5\"`},
	{`"by":"rk",`, ``},
	{`"prev":""`, `"despite":"` + strings.Repeat("ä", 2048) + `","prev":""`},
}

func TestDecodeStrictTakes(t *testing.T) {
	for _, c := range unusual {
		text := strings.Replace(stored, c.old, c.new, 1)
		strictly, err := DecodeStrict([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if plainly, err := Decode([]byte(text)); err != nil || plainly.At != strictly.At && !plainly.At.Equal(strictly.At) || plainly.Body != strictly.Body {
			t.Errorf("Decode of %s is %+v, %v, not %+v", text, plainly, err, strictly)
		}
	}
}

func TestPathString(t *testing.T) {
	var top *path
	for want, p := range map[string]*path{
		"":                       top,
		"readings[3].across[1]":  top.under("readings").item(3).under("across").item(1),
		"[0]":                    top.item(0),
		`labels["Left Bank"][2]`: top.under("labels").under("Left Bank").item(2),
		`[""].a`:                 top.under("").under("a"),
		`["` + strings.Repeat("é", 40) + `…"]`: top.under(strings.Repeat("é", 100)),
	} {
		if got := p.String(); got != want {
			t.Errorf("a path is %s, not %s", got, want)
		}
	}
}
