package term

import (
	"testing"

	"github.com/muesli/termenv"
)

func from(vars map[string]string) func(string) string {
	return func(name string) string { return vars[name] }
}

func TestBackground(t *testing.T) {
	tests := []struct {
		flag      Background
		colorfgbg string
		dark      bool
	}{
		{FromEnvironment, "", true},
		{FromEnvironment, "15;0", true},
		{FromEnvironment, "0;15", false},
		{FromEnvironment, "0;default;15", false},
		{FromEnvironment, "15;default;0", true},
		{FromEnvironment, "0;7", false},
		{FromEnvironment, "7;8", true},
		{FromEnvironment, "0;9", false},
		{FromEnvironment, "0;6", true},
		{FromEnvironment, "0;16", true},
		{FromEnvironment, "0;default", true},
		{FromEnvironment, "0;", true},
		{FromEnvironment, ";;;", true},
		{FromEnvironment, "15", false},
		{Dark, "0;15", true},
		{Light, "15;0", false},
		{Light, "", false},
	}
	for _, tt := range tests {
		dark, _, _ := Profile(from(map[string]string{"COLORFGBG": tt.colorfgbg}), Flags{Background: tt.flag})
		if dark != tt.dark {
			t.Errorf("flag %d, COLORFGBG %q: dark %v, want %v", tt.flag, tt.colorfgbg, dark, tt.dark)
		}
	}
}

func TestASCII(t *testing.T) {
	tests := []struct {
		vars map[string]string
		flag bool
		want bool
	}{
		{nil, false, false},
		{nil, true, true},
		{map[string]string{"LANG": "en_GB.UTF-8"}, false, false},
		{map[string]string{"LANG": "de_DE.utf8@euro"}, false, false},
		{map[string]string{"LANG": "C.UTF-8"}, false, false},
		{map[string]string{"LC_CTYPE": "UTF-8"}, false, false},
		{map[string]string{"LANG": "C"}, false, true},
		{map[string]string{"LANG": "POSIX"}, false, true},
		{map[string]string{"LANG": "en_GB"}, false, true},
		{map[string]string{"LANG": "en_GB.ISO-8859-1"}, false, true},
		{map[string]string{"LANG": "ja_JP.UTF-8"}, false, true},
		{map[string]string{"LANG": "ko.UTF-8"}, false, true},
		{map[string]string{"LANG": "zh_Hant_TW.UTF-8"}, false, true},
		{map[string]string{"LANG": "kok_IN.UTF-8"}, false, false}, // Konkani
		{map[string]string{"LANG": "ja_JP.UTF-8", "LC_CTYPE": "en_GB.UTF-8"}, false, false},
		{map[string]string{"LC_ALL": "en_GB.UTF-8", "LC_CTYPE": "zh_CN.UTF-8"}, false, false},
		{map[string]string{"LC_ALL": "zh_CN.UTF-8", "LANG": "en_GB.UTF-8"}, false, true},
		{map[string]string{"RUNEWIDTH_EASTASIAN": "1"}, false, true},
		{map[string]string{"RUNEWIDTH_EASTASIAN": "0", "LANG": "ja_JP.UTF-8"}, false, false},
		{map[string]string{"RUNEWIDTH_EASTASIAN": "0", "LANG": "ja_JP.eucJP"}, false, true},
	}
	for _, tt := range tests {
		if _, _, got := Profile(from(tt.vars), Flags{ASCII: tt.flag}); got != tt.want {
			t.Errorf("%v, flag %v: ascii %v, want %v", tt.vars, tt.flag, got, tt.want)
		}
	}
}

func TestNoColour(t *testing.T) {
	rich := map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor"}
	for name, value := range map[string]string{"NO_COLOR": "1", "CLICOLOR": "0"} {
		vars := map[string]string{name: value}
		for k, v := range rich {
			vars[k] = v
		}
		if _, got, _ := Profile(from(vars), Flags{}); got != termenv.Ascii {
			t.Errorf("%s=%s: profile %v, want no colours", name, value, got.Name())
		}
	}
	if _, got, _ := Profile(from(rich), Flags{NoColour: true}); got != termenv.Ascii {
		t.Errorf("flag: profile %v, want no colours", got.Name())
	}
}
