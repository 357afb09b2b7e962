package record

import (
	"reflect"
	"strings"
	"testing"
	"time"
)

// TestCutEnvelope: bytes as Seal writes them take the short way.
func TestCutEnvelope(t *testing.T) {
	for _, c := range []struct{ text, fields string }{
		{stored, `"of":"bore/1","level":"a","dir":"across","keyed":"67.118","via":"keypad","size":"67.118 mm","as":"first"`},
		{`{"n":412,"v":1,"at":"","by":"µ","is":"rules","prev":"` + anyHash + `"}`, ``},
		{`{"n":0,"v":1,"at":"","by":"","is":"note","text":",\"prev\":\"\"}","prev":""}`, `"text":",\"prev\":\"\"}"`},
	} {
		var d decoder
		f, ok := d.cutEnvelope([]byte(c.text))
		if !ok || string(f.fields) != c.fields {
			t.Errorf("of %s is cut %s, %v, not %s", c.text, f.fields, ok, c.fields)
		}
		for _, part := range []string{`"by":"` + f.By + `"`, `"prev":"` + f.Prev + `"}`, `"is":"` + string(f.is) + `"`, `"at":"` + string(f.at) + `"`} {
			if !strings.Contains(c.text, part) {
				t.Errorf("%s is not in %s", part, c.text)
			}
		}
	}
}

// TestDecodeLongWay: bytes written in any other way take the long way, which
// gives the same where they are right, and an error where they are not.
func TestDecodeLongWay(t *testing.T) {
	want, err := Decode([]byte(stored))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		old, new string
		right    bool
	}{
		{`{"n":1`, ` {"n":1`, true},
		{`{"n":1`, `{"n": 1`, true},
		{`,"v":1`, ` ,"v":1`, true},
		{`"by":"rk"`, `"by":"r\u006b"`, true},
		{`"is":"reading",`, `"is":"reading" ,`, true},
		{`"prev":""}`, `"prev":""} `, true},
		{`"prev":""}`, `"prev": ""}`, true},
		{`"prev":""}`, `"prev":"" }`, true},
		{`,"prev":""}`, `}`, true},
		{`{"n":1`, `{"n":01`, false},
		{`{"n":1`, `{"n":-`, false},
		{`{"n":1`, `{"n":99999999999999999999`, false},
		{`"v":1`, `"v":4294967297`, false},
		{`"at":"2`, `"at":2`, false},
		{`"is":"reading"`, `"is":"Reading"`, false},
		{`"is":"reading",`, `"is":"reading"`, false},
		{`"prev":""}`, `"prev":""`, false},
		{`"as":"first","prev":""}`, `"as":{"prev":""}`, false},
		{`"as":"first"`, `"as":first`, false},
	} {
		text := strings.Replace(stored, c.old, c.new, 1)
		var d decoder
		if _, ok := d.cutEnvelope([]byte(text)); ok && c.right {
			t.Errorf("%s takes the short way", text)
		}
		got, err := Decode([]byte(text))
		if c.right != (err == nil) || c.right && !reflect.DeepEqual(got, want) {
			t.Errorf("Decode of %s is\n%+v, %v\nnot\n%+v", text, got, err, want)
		}
	}
}

// TestDecodeEnvelope: of an event of whatever vocabulary everything but its body is
// read.
func TestDecodeEnvelope(t *testing.T) {
	stored := `{"n":7,"v":99,"at":"2026-03-10T14:02:00+01:00","by":"ek","is":"survey","far":[1],"prev":"abc"}`
	e, is, err := DecodeEnvelope([]byte(stored))
	if err != nil || e.N != 7 || e.V != 99 || e.By != "ek" || is != "survey" || e.Prev != "abc" || e.At.Format(time.RFC3339) != "2026-03-10T14:02:00+01:00" || e.Body != nil {
		t.Errorf("%+v, %q, %v", e, is, err)
	}
	for _, bad := range []string{"", `{"n":"7"}`, `{"n":7,"v":99,"at":"today"}`} {
		if _, _, err := DecodeEnvelope([]byte(bad)); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}
