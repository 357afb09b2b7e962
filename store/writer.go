package store

import (
	"context"
	"errors"
	"slices"
	"time"
)

// maxBatch is how many events are committed at once when many wait.
const maxBatch = 1024

// write is the one writer: it attempts what is queued, in order, until the
// book is closed and nothing is left or nothing moves.
func (b *book) write() {
	defer close(b.done)
	b.lull()
	_, err := b.safely(func() (bool, error) { return false, b.shelf.ready(b.ended) }) // a commit says what is wrong
	if b.damaged != nil && errors.Is(err, ErrDamaged) {
		b.damaged(err)
	}
	for b.await() {
		if _, err := b.safely(func() (bool, error) { b.step(); return true, nil }); err != nil {
			b.stop(err)
		}
	}
	_, _ = b.safely(func() (bool, error) { b.shelf.settle(); return true, nil })
}

// restFor is how long the writer leaves the machine to whoever opened the book:
// on two processors the walk of a large file took from the first frame.
const restFor = 500 * time.Millisecond

// lull waits a moment, or until there is something to do.
func (b *book) lull() {
	over := time.NewTimer(b.rest)
	defer over.Stop()
	for {
		b.mu.Lock()
		wanted, changed := b.closed || len(b.queue) > 0 || len(b.tasks) > 0, b.changed
		b.mu.Unlock()
		if wanted {
			return
		}
		select {
		case <-changed:
		case <-over.C:
			return
		}
	}
}

// ended reports whether the book is closed and nothing is left to be kept.
func (b *book) ended() bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.closed && len(b.queue) == 0
}

// await waits until there is something to attempt; false ends the writer.
func (b *book) await() bool {
	for {
		b.mu.Lock()
		ready := len(b.tasks) > 0 || len(b.queue) > 0 && b.stopped == nil
		end := b.closed && !ready
		if b.busy != ready {
			b.busy = ready
			b.change()
		}
		changed := b.changed
		b.mu.Unlock()
		if ready || end {
			return ready
		}
		<-changed
	}
}

// step does a task, or attempts the first jobs of the queue in one piece and
// reports what became of each.
func (b *book) step() {
	jobs, t := b.next()
	if t != nil {
		_, err := b.safely(func() (bool, error) { return false, t.do() })
		t.result <- err
		return
	}
	start := time.Now()
	reserve, err := b.safely(func() (bool, error) { return b.shelf.commit(jobs) })
	took := time.Since(start)
	b.settle(jobs, err)
	for _, j := range jobs {
		b.report(Outcome{
			UID: j.uid, First: j.sealed[0].N, Last: j.sealed[len(j.sealed)-1].N,
			Err: err, Took: took, Reserve: reserve,
		})
	}
}

// next returns the task, or the jobs at the front of the queue, that come next.
func (b *book) next() ([]*job, *task) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.tasks) > 0 {
		t := b.tasks[0]
		b.tasks = b.tasks[1:]
		return nil, t
	}
	b.again = false
	n, events := 1, len(b.queue[0].sealed)
	for ; n < len(b.queue); n++ {
		if events += len(b.queue[n].sealed); events > maxBatch {
			break
		}
	}
	return append([]*job(nil), b.queue[:n]...), nil
}

// settle takes the jobs out of the queue when they are kept, or stops it unless
// another attempt was asked for meanwhile.
func (b *book) settle(jobs []*job, err error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	defer b.change()
	switch {
	case err != nil && b.again:
		return
	case err != nil:
		b.stopped = err
		b.withdraw(err)
		return
	}
	for _, j := range jobs {
		b.streams[j.uid].waiting -= len(j.sealed)
		j.answer(nil)
	}
	b.queue = append([]*job(nil), b.queue[len(jobs):]...)
}

// stop makes the queue stand still for a reason that is not its jobs'.
func (b *book) stop(why error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.stopped = why
	b.change()
}

// withdraw answers the imports in the queue and takes those out that are alone
// with their stream. The stream is forgotten, so that the shelf says what of it
// is kept: a failure can come after the fact.
func (b *book) withdraw(err error) {
	jobs := map[string]int{}
	for _, j := range b.queue {
		jobs[j.uid]++
	}
	b.queue = slices.DeleteFunc(b.queue, func(j *job) bool {
		alone := j.result != nil && jobs[j.uid] == 1
		if alone {
			delete(b.streams, j.uid)
		}
		j.answer(err)
		return alone
	})
}

// answer tells whoever waits for the job what became of its first attempt.
func (j *job) answer(err error) {
	if j.result != nil {
		j.result <- err
		j.result = nil
	}
}

// Retry makes a queue that a failure stopped try again.
func (b *book) Retry() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.move()
}

// Pending returns how many of the session's last events are not kept yet.
func (b *book) Pending(uid string) int {
	b.mu.Lock()
	defer b.mu.Unlock()
	if s, ok := b.streams[streamName(uid)]; ok {
		return s.waiting
	}
	return 0
}

// Wait returns nil when everything that was queued is kept and reported. A
// queue that stands still, and the end of the context, give an *UnkeptError
// with the cause.
func (b *book) Wait(ctx context.Context) error {
	for {
		b.mu.Lock()
		idle := !b.busy && len(b.queue) == 0
		unkept := b.unkept()
		stopped := !b.busy && b.stopped != nil
		changed := b.changed
		b.mu.Unlock()
		switch {
		case idle:
			return nil
		case stopped:
			return unkept
		}
		select {
		case <-changed:
		case <-ctx.Done():
			unkept.Cause = ctx.Err()
			return unkept
		}
	}
}

// unkept counts what waits. Call it with mu.
func (b *book) unkept() *UnkeptError {
	u := &UnkeptError{Cause: b.stopped}
	for _, j := range b.queue {
		u.Events += len(j.sealed)
	}
	return u
}
