package tui

// list is a cursor over rows of which some are in view.
type list struct {
	at, top int
}

// move moves the cursor by so many rows, stopping at the ends.
func (l *list) move(by, rows int) {
	l.at = max(0, min(l.at+by, rows-1))
}

// window returns the rows in view, from first up to last, when there is room
// for so many; the cursor is always among them.
func (l *list) window(rows, room int) (first, last int) {
	l.at = max(0, min(l.at, rows-1))
	room = max(1, room)
	l.top = max(0, min(l.top, rows-room))
	switch {
	case l.at < l.top:
		l.top = l.at
	case l.at >= l.top+room:
		l.top = l.at - room + 1
	}
	return l.top, min(rows, l.top+room)
}
