package record

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// What is printed as JSON reads back the same and shows no terminal anything
// to obey.
func TestWriteJSONProperty(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("\x1b\u009b\u202e\u200b\U000e0041\n\"\\<é")))).Draw(t, "text")
		var out bytes.Buffer
		if err := WriteJSON(&out, map[string]string{"text": text}); err != nil {
			t.Fatal(err)
		}
		if i := strings.IndexFunc(out.String(), func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }); i >= 0 {
			t.Fatalf("printed %q", out.String())
		}
		var back map[string]string
		if err := json.Unmarshal(out.Bytes(), &back); err != nil || back["text"] != text {
			t.Fatalf("%q came back as %q, %v", text, back["text"], err)
		}
	})
}

func TestWriteJSONKeepsSigns(t *testing.T) {
	t.Parallel()
	var out bytes.Buffer
	if err := WriteJSON(&out, []string{"a < b & c"}); err != nil || out.String() != "[\n  \"a < b & c\"\n]\n" {
		t.Errorf("printed %q, %v", out.String(), err)
	}
	if err := WriteJSON(&out, func() {}); err == nil {
		t.Error("a function is no JSON")
	}
}
