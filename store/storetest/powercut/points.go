package powercut

import "math/rand/v2"

// Each calls look with n states of the disk, as cuts at the steps of the trace
// leave them: at every flush three times as often as at any other step. Seed
// chooses what lands. It ends early when look returns false.
func Each(ops []Op, n int, seed uint64, look func(state State) bool) {
	at := turns(ops, n)
	disk := NewDisk()
	for i, o := range ops {
		for turn := range at[i] {
			s := State{Step: i, Turn: turn, Acked: disk.Acked()}
			s.Files = disk.Cut(rand.New(rand.NewPCG(seed, uint64(i)<<32|uint64(turn))))
			if !look(s) {
				return
			}
		}
		disk.Do(o)
	}
}

// State is what one cut leaves.
type State struct {
	// Step is the step before which the power was cut, Turn which cut there it
	// is.
	Step, Turn int
	// Acked is the highest number acknowledged before the cut.
	Acked int64
	Files map[string][]byte
}

// turns deals n cuts out to the steps.
func turns(ops []Op, n int) []int {
	var order []int
	for weight := range 4 {
		for i, o := range ops {
			if weight == 3 || o.flushes() {
				order = append(order, i)
			}
		}
	}
	at := make([]int, len(ops))
	for i := range n {
		at[order[i%len(order)]]++
	}
	return at
}
