package store

import "os"

// Pace is called between the pages of long work, and may wait there, so that the
// work leaves the machine to whoever is keying. Nil does not wait.
type Pace func()

// pacedWriter writes a stretch of a file at a time, and makes it durable before the
// next: a reading that is kept meanwhile waits for no more than that.
type pacedWriter struct {
	file *os.File
	pace Pace
	open int // bytes that are not durable yet
}

// stretch is how many bytes a pacedWriter writes at a time.
const stretch = 1 << 20

func (w *pacedWriter) Write(p []byte) (int, error) {
	n, err := w.file.Write(p)
	if w.open += n; err == nil && w.open >= stretch {
		w.open, err = 0, w.file.Sync()
	}
	w.pace()
	return n, err
}
