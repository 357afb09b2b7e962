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

// windowTall is [list.window] for rows that take several lines each: high says
// how many of the room one takes.
func (l *list) windowTall(rows, room int, high func(i int) int) (first, last int) {
	if rows == 0 {
		return 0, 0
	}
	l.at = max(0, min(l.at, rows-1))
	first, last = l.at, l.at+1
	used, top := high(l.at), min(l.top, l.at)
	for first > top && used+high(first-1) <= room {
		first--
		used += high(first)
	}
	for last < rows && used+high(last) <= room {
		used += high(last)
		last++
	}
	for last == rows && first > 0 && used+high(first-1) <= room {
		first--
		used += high(first)
	}
	l.top = first
	return first, last
}
