//go:build unix

package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/store/storetest"
)

var (
	kills    = flag.Int("kills", 50, "how often TestKill kills the station")
	killSeed = flag.Uint64("kill-seed", 0, "the seed of TestKill, to see a run again; 0 takes one by chance")
)

// stepsAhead is how many steps a station lives through at most.
const stepsAhead = 4

// benches is how many databases are tormented side by side.
const benches = 5

// TestKill keys the whole bore of the story, and the station is killed at
// moments that chance chooses, again and again for each database. What was shown
// as kept is there afterwards, once and at its place; it goes on at the very
// place.
func TestKill(t *testing.T) {
	t.Parallel()
	seed := *killSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("to see this run again: -kills %d -kill-seed %d", *kills, seed)
	var sum tormentSum
	t.Cleanup(func() {
		storetest.Proof(t, "killed outright at a random moment while keys stream in", int(sum.kills.Load()), int(sum.lost.Load()),
			fmt.Sprintf("the session again at the very place, %d readings shown as kept all there", sum.shown.Load()))
	})
	for i := range benches {
		t.Run(strconv.Itoa(i+1), func(t *testing.T) {
			t.Parallel()
			chance := rand.New(rand.NewPCG(seed, uint64(i)))
			for left := (*kills + i) / benches; left > 0; {
				left -= newTormented(t, chance, &sum).untilDone(left)
			}
		})
	}
}

// TestKillCatchesEarlyKeeping: were readings shown as kept before they are on
// the disk, TestKill would find some of them lost.
func TestKillCatchesEarlyKeeping(t *testing.T) {
	t.Parallel()
	var sum tormentSum
	b := newTormented(t, rand.New(rand.NewPCG(1, 1)), &sum)
	b.vars, b.early = []string{earlyVariable + "=yes"}, true
	const most = 10
	for n := 1; n <= most && b.kept+2 <= len(wholeBore); n++ {
		b.die(moment{writes: writesFrom(b.kept, b.kept+2)})
		if lost := sum.lost.Load(); lost > 0 {
			storetest.Caught(t, "the same on a store that acknowledges before it commits", n,
				fmt.Sprintf("%d of %d readings shown as kept gone", lost, sum.shown.Load()))
			return
		}
	}
	t.Errorf("%d kills of a store that acknowledges before it commits lost nothing", sum.kills.Load())
}

// tormentSum is what came of all kills.
type tormentSum struct {
	kills, shown, lost atomic.Int64
}

// tormented is one database whose station is killed.
type tormented struct {
	t      *testing.T
	sum    *tormentSum
	vars   []string // more of the program's environment
	early  bool     // the store acknowledges before it commits: a loss is counted only
	chance *rand.Rand
	path   string
	given  int             // events of the session before the first key
	want   []record.Sealed // all that the whole bore comes to, the given ones first
	kept   int             // steps whose event is kept
	lives  int
}

func newTormented(t *testing.T, chance *rand.Rand, sum *tormentSum) *tormented {
	t.Helper()
	session, want := wholeBoreStory(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "pond.json")
	if err := os.WriteFile(file, session, 0o600); err != nil {
		t.Fatal(err)
	}
	b := &tormented{t: t, sum: sum, chance: chance, path: filepath.Join(dir, "pond.db"), given: len(sealedIn(t, session)), want: want}
	b.output("import", file)
	return b
}

// program is the program on this database, at an hour of this life.
func (b *tormented) program(args ...string) *exec.Cmd {
	b.t.Helper()
	path, err := exec.LookPath("borewright")
	if err != nil {
		b.t.Fatal(err)
	}
	cmd := exec.Command(path, append([]string{"--db", b.path}, args...)...)
	cmd.Env = append(append(append(os.Environ(), storyVars...), b.vars...), "BOREWRIGHT_BY=ek",
		fmt.Sprintf("STORY_CLOCK=2026-03-02T%02d:%02d:00+01:00", 8+b.lives/60, b.lives%60))
	return cmd
}

func (b *tormented) output(args ...string) []byte {
	b.t.Helper()
	out, err := b.program(args...).Output()
	if err != nil {
		b.t.Fatalf("%v: %v\n%s", args, err, out)
	}
	return out
}

// untilDone lives and dies until the whole bore is kept, at most so often, and
// returns how often it was killed.
func (b *tormented) untilDone(most int) int {
	killed := 0
	for ; killed < most && b.kept < len(wholeBore); killed++ {
		b.die(b.moment())
	}
	l := b.begin()
	defer l.end()
	l.resume()
	for l.step < len(wholeBore) {
		l.write()
		l.settle()
	}
	if l.signal(syscall.SIGTERM); ending(l.program.ProcessState) != "0" {
		b.t.Errorf("the station ended with %s", ending(l.program.ProcessState))
	}
	b.check(len(wholeBore), len(wholeBore))
	return killed
}

// moment is when a station is killed: so long after so many writes, or after its
// start when there is none.
type moment struct {
	writes int
	after  time.Duration
}

// moment chooses one, within the next steps; of two often behind the last write
// of a step, where the event is made.
func (b *tormented) moment() moment {
	m := moment{after: time.Duration(b.chance.Int64N(int64(10 * time.Millisecond)))}
	if b.chance.IntN(8) == 0 {
		m.after *= 15
		return m
	}
	ahead := b.kept + 1 + b.chance.IntN(min(stepsAhead, len(wholeBore)-b.kept))
	m.writes = writesFrom(b.kept, ahead)
	if b.chance.IntN(2) == 0 {
		m.writes = 1 + b.chance.IntN(m.writes)
	}
	return m
}

// writesFrom counts the writes of the steps from first up to last.
func writesFrom(first, last int) int {
	n := 0
	for _, s := range wholeBore[first:last] {
		n += len(s.keys)
	}
	return n
}

// die lives until the moment and looks at what is left.
func (b *tormented) die(m moment) {
	l := b.begin()
	defer l.end()
	if m.writes > 0 {
		l.resume()
	}
	for range m.writes - 1 {
		l.write()
		l.settle()
	}
	if m.writes > 0 {
		l.write()
	}
	time.Sleep(m.after)
	l.signal(syscall.SIGKILL)
	shown, could := l.shown()
	before := b.kept
	b.sum.kills.Add(1)
	b.sum.shown.Add(int64(shown - before))
	b.check(shown, could)
	if most := b.kept - before + 2*l.refused; l.bells > most && !b.early {
		b.t.Errorf("%d bells rang for %d events and %d refusals, in life %d", l.bells, b.kept-before, l.refused, b.lives)
	}
	if b.t.Failed() {
		b.t.FailNow()
	}
}

// check compares what is kept with what must be and what may be: the events of
// so many steps at least and at most. All else is as it was keyed.
func (b *tormented) check(least, most int) {
	b.t.Helper()
	got := sealedIn(b.t, b.output("export", "pond-pump"))
	if _, err := engine.Replay(got); err != nil {
		b.t.Error(err)
	}
	kept := len(got) - b.given
	b.sum.lost.Add(int64(max(0, least-kept)))
	if kept < least && !b.early || kept > most {
		b.t.Fatalf("%d events are kept in life %d, want %d to %d", kept, b.lives, least, most)
	}
	for i, e := range got {
		if !reflect.DeepEqual(e.Body, b.want[i].Body) {
			b.t.Errorf("event %d in life %d is\n%+v, want\n%+v", e.N, b.lives, e.Body, b.want[i].Body)
		}
	}
	b.kept = kept
}
