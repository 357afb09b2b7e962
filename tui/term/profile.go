package term

import (
	"io"
	"strconv"
	"strings"

	"github.com/muesli/termenv"
)

// Background is what a flag says of the terminal's background.
type Background uint8

// The backgrounds. The zero value leaves the choice to the environment.
const (
	FromEnvironment Background = iota
	Dark                       // light signs on dark
	Light                      // dark signs on light
)

// Flags are the choices made on the command line.
type Flags struct {
	Background Background // dark or light
	NoColour   bool       // no colours, as NO_COLOR
	ASCII      bool       // frames and signs in ASCII only
}

// Profile chooses how to draw, from the flags, then the environment, without
// asking the terminal. It takes for granted that the output is a terminal.
//
// dark: the flag, else the last field of COLORFGBG (7 and 9 to 15 are light),
// else true. profile: termenv.Ascii with the flag, NO_COLOR or CLICOLOR=0,
// else what COLORTERM and TERM promise. ascii: signs whose width depends on
// the terminal must not be used; true with the flag, with
// RUNEWIDTH_EASTASIAN=1, in a Chinese, Japanese or Korean locale unless
// RUNEWIDTH_EASTASIAN says otherwise, and in a locale that is not UTF-8. The
// locale is the first of LC_ALL, LC_CTYPE and LANG that is set; with none set
// UTF-8 is taken for granted, as Bubble Tea does.
func Profile(env func(string) string, flags Flags) (dark bool, profile termenv.Profile, ascii bool) {
	return isDark(env, flags), colours(env, flags), flags.ASCII || eastAsian(env) || !utf8Locale(locale(env))
}

func isDark(env func(string) string, flags Flags) bool {
	switch flags.Background {
	case Dark:
		return true
	case Light:
		return false
	case FromEnvironment:
	}
	fields := strings.Split(env("COLORFGBG"), ";")
	back, err := strconv.Atoi(strings.TrimSpace(fields[len(fields)-1]))
	light := back == 7 || back >= 9 && back <= 15
	return err != nil || !light
}

// environment is a lookup function as termenv wants it.
type environment func(string) string

func (e environment) Getenv(key string) string { return e(key) }
func (e environment) Environ() []string        { return nil }

// sixteen are the beginnings of TERM values of terminals that have at least
// sixteen colours though their names do not say so.
var sixteen = []string{
	"screen", "tmux", "xterm", "rxvt", "foot", "konsole", "gnome", "vte", "putty", "st-", "mlterm", "cygwin", "Eterm",
}

func colours(env func(string) string, flags Flags) termenv.Profile {
	out := termenv.NewOutput(io.Discard, termenv.WithTTY(true), termenv.WithEnvironment(environment(env)))
	if flags.NoColour || out.EnvNoColor() {
		return termenv.Ascii
	}
	if out.Profile != termenv.Ascii {
		return out.Profile
	}
	for _, name := range sixteen {
		if strings.HasPrefix(env("TERM"), name) {
			return termenv.ANSI
		}
	}
	return termenv.Ascii
}

// locale returns the locale that governs characters, or "" if none is set.
func locale(env func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := env(name); v != "" {
			return v
		}
	}
	return ""
}

// eastAsian reports whether the terminal may draw signs of ambiguous width
// two cells wide.
func eastAsian(env func(string) string) bool {
	if v := env("RUNEWIDTH_EASTASIAN"); v != "" {
		return v == "1"
	}
	language, _, _ := strings.Cut(locale(env), "_")
	language, _, _ = strings.Cut(language, ".")
	switch strings.ToLower(language) {
	case "zh", "ja", "ko":
		return true
	default:
		return false
	}
}

// utf8Locale reports whether a locale such as "en_GB.UTF-8@euro", "C.utf8" or
// a bare "UTF-8" names UTF-8, or is not set.
func utf8Locale(locale string) bool {
	if locale == "" {
		return true
	}
	name, _, _ := strings.Cut(locale, "@")
	if _, codeset, found := strings.Cut(name, "."); found {
		name = codeset
	}
	name = strings.ToLower(strings.ReplaceAll(name, "-", ""))
	return name == "utf8"
}
