//go:build unix

// The stories in testdata/stories tell what the whole program does, as scripts
// that a user could read. The test binary is itself the program, and a station
// is the program on a terminal of its own. Beside the commands of testscript
// (exec, stdout, cmp, exists, env and so on) a story may use
//
//	station NAME WxH [K=V...] PROGRAM ARGS...
//	                  start a program on a terminal, wait for its first frame
//	at NAME           let the next commands speak to that station
//	keys TEXT         write TEXT in one burst; \r, \n, \x1b as in Go strings
//	type TEXT         press one key after another, each when the one before shows
//	see REGEXP        wait until the screen matches
//	witness REGEXP    like see; proof says what was witnessed
//	proof FAULT TRIES write a row of the table of .ci/proofs: nothing was lost
//	restored          the terminal is as a shell wants it
//	shell             do to the terminal of a stopped program what a shell does
//	seated            the terminal is as the station wants it
//	unseen REGEXP     wait until the screen does not match
//	screen FILE       save the screen at rest, for cmp
//	pressed N         exactly N keys were pressed since the station started, a
//	                  burst of keys counting as one
//	bells N           exactly N bells rang since bells was last asked; any: some, or none
//	[!] sent TEXT     the program wrote these bytes to the terminal
//	resize WxH        resize the window
//	term SIGNAL       send HUP, INT, QUIT, TERM, KILL, STOP or CONT
//	quit              send TERM and wait for an orderly end
//	kill9             kill outright and wait
//	hangup            close the window
//	plug NAME         make a serial port of this name, with a gauge on it
//	unplug NAME       take it away
//	gauge NAME TEXT   have the gauge send TEXT
//	wait-exit CODE    wait for the end; CODE is a number or killed
//	spoil FILE TEXT   damage a file in the middle of every TEXT in it
//	cut FILE BYTES    leave so much of the beginning of a file; below zero,
//	                  overwrite so much of it with zeros
//	exits CODE PROGRAM ARGS...
//	                  like exec, for a program that ends with CODE
//
// The condition [own-disk] holds where a process may mount a disk of its own,
// [meddling] where strace may come between a program and the system.
//
// A REGEXP is multi-line: ^ and $ stand for the ends of a screen line. Waiting
// ends after ten seconds. The clock of the program starts at STORY_CLOCK: each
// event is a second later than the one before, and keys written in one burst
// are a cable's however long the program takes, keys typed one by one a hand's.
// Its identities are STORY_UID, STORY_UID-2, STORY_UID-3 ...
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// sideBySide is how many stories are told at once for each processor: they wait
// more than they compute. One after another they take twice as long.
const sideBySide = 3

func TestMain(m *testing.M) {
	if err := flag.Set("test.parallel", strconv.Itoa(sideBySide*runtime.GOMAXPROCS(0))); err != nil {
		panic(err)
	}
	testscript.Main(m, map[string]func(){
		"borewright":  func() { os.Exit(run(os.Args, storyWorld())) },
		"echostation": func() { os.Exit(echo(storyWorld())) },
	})
}

const storyFolder = "../../testdata/stories"

func TestStories(t *testing.T) {
	p := told("80x24")
	p.Dir = storyFolder
	testscript.Run(t, p)
}

// TestStoriesLarge tells the stories of the three ways in which the station is
// used, one-handed keying, review of the worst, and resuming next morning, on a
// large terminal too.
func TestStoriesLarge(t *testing.T) {
	p := told("140x45")
	for _, name := range []string{"whole-bore", "worst", "morning", "first-reading"} {
		p.Files = append(p.Files, filepath.Join(storyFolder, name+".txtar"))
	}
	testscript.Run(t, p)
}

// told is how stories are told on a terminal of a size, which they call $SIZE.
func told(size string) testscript.Params {
	return testscript.Params{
		Setup: func(env *testscript.Env) error {
			env.Setenv("SIZE", size)
			return setStory(env)
		},
		Cmds:                storyCommands,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Condition:           storyCondition,
	}
}

// storyCondition answers [own-disk], whether a process may mount a disk of its
// own here, and [meddling].
func storyCondition(name string) (bool, error) {
	switch name {
	case "own-disk":
		return ownDisk(), nil
	case "meddling":
		return meddling(), nil
	}
	return false, fmt.Errorf("there is no condition %s", name)
}

var meddling = sync.OnceValue(func() bool {
	return exec.Command("strace", "-o", os.DevNull, "-e", "inject=write:error=ENOSPC", "true").Run() == nil
})

var ownDisk = sync.OnceValue(func() bool {
	return exec.Command("unshare", "-Urm", "mount", "-t", "tmpfs", "none", os.TempDir()).Run() == nil
})

// storyVars is the environment a story starts with. The terminal's name is one
// that the drawing library asks no questions of; under the race detector a
// program would sleep a second before it ends.
var storyVars = []string{
	"TERM=tmux-256color",
	"COLORTERM=",
	"COLORFGBG=",
	"NO_COLOR=",
	"RUNEWIDTH_EASTASIAN=",
	"LANG=C.UTF-8",
	"LC_ALL=C.UTF-8",
	"TZ=UTC",
	"GORACE=atexit_sleep_ms=0",
	"XDG_DATA_HOME=",
	"BOREWRIGHT_DB=",
	"STORY_CLOCK=2026-03-02T08:00:00+01:00",
	"STORY_UID=story",
}

func setStory(env *testscript.Env) error {
	env.Vars = append(env.Vars, storyVars...)
	env.Setenv("HOME", env.WorkDir+"/home")
	bench := &bench{stations: map[string]*station{}}
	for _, v := range env.Vars {
		name, _, _ := strings.Cut(v, "=")
		bench.vars = append(bench.vars, name)
	}
	env.Values[benchKey{}] = bench
	env.Defer(bench.clear)
	return os.Mkdir(env.WorkDir+"/home", 0o755)
}
