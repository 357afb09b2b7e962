package plan

// Family is one kind of feature, such as "bore". Its zero value is no family.
type Family string

// The families that can be planned and read.
const (
	Bore        Family = "bore"
	Piston      Family = "piston"
	MainBearing Family = "main-bearing"
	MainJournal Family = "main-journal"
)

// Shape says which way wear moves a size: it opens a hole and thins a shaft.
type Shape uint8

// The shapes of a feature.
const (
	NoShape Shape = iota
	Hole
	Shaft
)

// Line is the list a summary shows a feature in.
type Line uint8

// The two lines of a summary.
const (
	NoLine Line = iota
	CylinderLine
	CrankLine
)

// String returns the word for one member of the line.
func (l Line) String() string {
	switch l {
	case CylinderLine:
		return "cylinder"
	case CrankLine:
		return "main"
	default:
		return ""
	}
}

// Traits are what holds for every feature of one family. A family is added by
// adding its row to the table of this file.
type Traits struct {
	Family Family
	// Noun names one feature before its label, Plural the whole family.
	Noun, Plural string
	Shape        Shape
	// Line is the summary line the feature belongs to.
	Line Line
	// Labels is the key of Layout.Labels that names the positions.
	Labels string
	// Count is how many positions a layout has.
	Count func(Layout) int
	// Named gives the directions that have a name, by their angle in degrees.
	Named map[int]string
	// Ends name the first and the last level when a plan does not.
	Ends [2]string
	// Judged is the direction alone that a clearance reads, or "" for all.
	Judged string
	// Usual are the directions proposed for 1 to 4 directions.
	Usual [4][]string
}

var (
	thrust   = map[int]string{90: "across", 0: "along"}
	upright  = map[int]string{90: "vertical", 0: "horizontal"}
	ofBores  = [4][]string{{"across"}, {"across", "along"}, {"across", "30", "150"}, {"across", "45", "along", "135"}}
	ofCranks = [4][]string{{"vertical"}, {"vertical", "horizontal"}, {"vertical", "30", "150"}, {"vertical", "45", "horizontal", "135"}}
)

func cylinders(l Layout) int { return l.Cylinders }
func mains(l Layout) int     { return l.Mains }

var families = []Traits{
	{
		Family: Bore, Noun: "bore", Plural: "bores", Shape: Hole, Line: CylinderLine, Labels: "cylinders",
		Count: cylinders, Named: thrust, Ends: [2]string{"top", "bottom"}, Usual: ofBores,
	},
	{
		Family: Piston, Noun: "piston", Plural: "pistons", Shape: Shaft, Line: CylinderLine, Labels: "cylinders",
		Count: cylinders, Named: thrust, Ends: [2]string{"skirt", "bottom"}, Usual: ofBores,
	},
	{
		Family: MainBearing, Noun: "main bearing", Plural: "main bearings", Shape: Hole, Line: CrankLine, Labels: "mains",
		Count: mains, Named: upright, Ends: [2]string{"front", "rear"}, Judged: "vertical", Usual: ofCranks,
	},
	{
		Family: MainJournal, Noun: "main journal", Plural: "main journals", Shape: Shaft, Line: CrankLine, Labels: "mains",
		Count: mains, Named: upright, Ends: [2]string{"front", "rear"}, Usual: ofCranks,
	},
}

// Families returns the rows of every family, in the order a plan proposes.
func Families() []Traits { return append([]Traits(nil), families...) }

// Traits returns the family's row; ok is false for a family nobody knows.
func (f Family) Traits() (t Traits, ok bool) {
	for _, t := range families {
		if t.Family == f {
			return t, true
		}
	}
	return Traits{}, false
}

// Noun returns the word for one feature of the family.
func (f Family) Noun() string {
	if t, ok := f.Traits(); ok {
		return t.Noun
	}
	return string(f)
}

// Plural returns the word for all features of the family.
func (f Family) Plural() string {
	if t, ok := f.Traits(); ok {
		return t.Plural
	}
	return string(f)
}

// Shape returns the family's shape.
func (f Family) Shape() Shape {
	t, _ := f.Traits()
	return t.Shape
}

// Line returns the summary line of the family.
func (f Family) Line() Line {
	t, _ := f.Traits()
	return t.Line
}
