package plan

import "strconv"

// Scheme is a way to number cylinders. It makes labels; positions stay what
// they are, so that changing it moves no reading.
type Scheme struct {
	// ID is the short name, Name what a list shows, About where it comes from.
	ID, Name, About string
	// Banked says that it needs two banks.
	Banked bool
	label  func(cylinderAt) string
}

// cylinderAt is where a cylinder stands.
type cylinderAt struct {
	position int  // from the front, left bank first
	row      int  // from the front, in its own bank
	rows     int  // cylinders in a bank
	second   bool // of the bank whose rods do not lead
	right    bool
	banks    int
}

// Schemes returns the ways to number cylinders, the plainest first. What SAE
// J824 and ISO 1204 say is from memory: their text was not seen.
func Schemes() []Scheme {
	return []Scheme{
		{
			ID: "sequence", Name: "in sequence", About: "1, 2, 3 ... from the front, the left bank first",
			label: func(c cylinderAt) string { return strconv.Itoa(c.position) },
		},
		{
			ID: "right first", Name: "by bank, right bank first", About: "1, 2, 3 ... from the front, the right bank first", Banked: true,
			label: func(c cylinderAt) string { return strconv.Itoa(c.row + c.rows*nth(!c.right)) },
		},
		{
			ID: "alternating", Name: "alternating", About: "odd numbers in the left bank, even ones in the right", Banked: true,
			label: func(c cylinderAt) string { return strconv.Itoa(2*c.row - 1 + nth(c.right)) },
		},
		{
			ID: "SAE J824 sequence", Name: "SAE J824, in the order of the rods", About: "from the front along the crank, as the rods stand on it; SAE J824, from memory", Banked: true,
			label: func(c cylinderAt) string { return strconv.Itoa(2*c.row - 1 + nth(c.second)) },
		},
		{
			ID: "SAE J824 banks", Name: "SAE J824, row and bank", About: "the row from the front with L or R for the bank; SAE J824, from memory", Banked: true,
			label: func(c cylinderAt) string { return strconv.Itoa(c.row) + pick(c.right, "R", "L") },
		},
		{
			ID: "ISO 1204", Name: "ISO 1204, letter and number", About: "a letter for the bank and the row counted from the driving end; ISO 1204, from memory",
			label: func(c cylinderAt) string {
				row := strconv.Itoa(c.rows - c.row + 1)
				if c.banks == 1 {
					return row
				}
				return pick(c.right, "B", "A") + row
			},
		},
	}
}

func nth(second bool) int {
	if second {
		return 1
	}
	return 0
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// Numbered returns the layout with its cylinders labelled by a scheme, its
// other labels as they are. A scheme that needs two banks leaves an inline
// layout numbered in sequence.
func (l Layout) Numbered(s Scheme) Layout {
	labels := make([]string, l.Cylinders)
	for i := range labels {
		if s.Banked && l.Banks() == 1 {
			labels[i] = strconv.Itoa(i + 1)
			continue
		}
		labels[i] = s.label(l.cylinderAt(i + 1))
	}
	out := map[string][]string{}
	for key, list := range l.Labels {
		out[key] = list
	}
	out["cylinders"] = labels
	l.Labels = out
	return l
}

func (l Layout) cylinderAt(position int) cylinderAt {
	rows := l.Cylinders / l.Banks()
	right := position > rows
	return cylinderAt{
		position: position, row: (position-1)%rows + 1, rows: rows, right: right,
		second: right != (l.Lead == RightBank), banks: l.Banks(),
	}
}

// Numbering returns the scheme that a layout's cylinders are labelled by; ok is
// false when they are labelled freely.
func (l Layout) Numbering() (s Scheme, ok bool) {
	for _, s := range Schemes() {
		if s.Banked && l.Banks() == 1 {
			continue
		}
		if equalLabels(l, l.Numbered(s)) {
			return s, true
		}
	}
	return Scheme{}, false
}

func equalLabels(a, b Layout) bool {
	for at := 1; at <= a.Cylinders; at++ {
		f := Feature{Family: Bore, At: at}
		if a.Label(f) != b.Label(f) {
			return false
		}
	}
	return true
}
