package draw

import (
	"reflect"
	"strings"
	"testing"
)

func TestASCIISignsAreOneCellEverywhere(t *testing.T) {
	s := reflect.ValueOf(NewSigns(true))
	for i := range s.NumField() {
		if s.Field(i).Kind() == reflect.String {
			oneCellEverywhere(t, []string{s.Field(i).String()})
		}
	}
	for tone := range tones {
		oneCellEverywhere(t, []string{NewSigns(true).For(tone)})
	}
	oneCellEverywhere(t, []string{Rule("bore 3", 30, true)})
}

func TestEverySignIsSet(t *testing.T) {
	for _, ascii := range []bool{false, true} {
		s := reflect.ValueOf(NewSigns(ascii))
		for i := range s.NumField() {
			if f := s.Field(i); f.Kind() == reflect.String && f.String() == "" {
				t.Errorf("ascii %v: %s is empty", ascii, s.Type().Field(i).Name)
			}
		}
	}
}

func TestVerdictsDifferInShape(t *testing.T) {
	for _, ascii := range []bool{false, true} {
		seen := map[string]Tone{}
		for _, tone := range []Tone{Good, Warn, Bad, Dim, Plain} {
			sign := NewSigns(ascii).For(tone)
			if Width(sign) != 1 {
				t.Errorf("the sign %q of tone %d is not one cell", sign, tone)
			}
			if other, ok := seen[sign]; ok {
				t.Errorf("tones %d and %d share the sign %q", tone, other, sign)
			}
			seen[sign] = tone
		}
	}
}

func TestText(t *testing.T) {
	in := "+3 → 3.7503 in, LARGER ± 0.0001, 20 °C, form × 500, µm and μm, ½ … · – ≤ ≥"
	if got := NewSigns(false).Text(in); got != in {
		t.Errorf("the usual signs changed the text to %q", got)
	}
	got := NewSigns(true).Text(in)
	oneCellEverywhere(t, []string{got})
	if want := "+3 -> 3.7503 in, LARGER +/- 0.0001"; !strings.HasPrefix(got, want) {
		t.Errorf("got %q, want it to start with %q", got, want)
	}
}

func TestWantsASCII(t *testing.T) {
	tests := []struct {
		env  map[string]string
		want bool
	}{
		{map[string]string{}, false},
		{map[string]string{"LANG": "en_US.UTF-8"}, false},
		{map[string]string{"LANG": "C.UTF-8"}, false},
		{map[string]string{"LANG": "C"}, false},
		{map[string]string{"LANG": "de_DE.utf8@euro"}, false},
		{map[string]string{"LANG": "de_DE.ISO-8859-1"}, true},
		{map[string]string{"LANG": "ja_JP.UTF-8"}, true},
		{map[string]string{"LANG": "ko"}, true},
		{map[string]string{"LANG": "zh_TW.UTF-8", "LC_ALL": "en_GB.UTF-8"}, false},
		{map[string]string{"LANG": "en_GB.UTF-8", "LC_CTYPE": "zh_CN.UTF-8"}, true},
		{map[string]string{"LANG": "kok_IN.UTF-8"}, false},
		{map[string]string{"LANG": "ja_JP.UTF-8", "RUNEWIDTH_EASTASIAN": "0"}, false},
		{map[string]string{"LANG": "en_GB.UTF-8", "RUNEWIDTH_EASTASIAN": "1"}, true},
	}
	for _, tt := range tests {
		if got := WantsASCII(func(name string) string { return tt.env[name] }); got != tt.want {
			t.Errorf("WantsASCII(%v) = %v, want %v", tt.env, got, tt.want)
		}
	}
}
