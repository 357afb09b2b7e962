package record

import (
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/schema"
)

// must and may are rows of fields that must and may be there; of names the
// definition of the objects in it.
func must(name, about string, as *schema.Node, of ...string) schema.Row {
	row := may(name, about, as, of...)
	row.Must = true
	return row
}

func may(name, about string, as *schema.Node, of ...string) schema.Row {
	row := schema.Row{Name: name, About: about, As: as}
	if len(of) > 0 {
		row.Of = of[0]
	}
	return row
}

// Patterns of texts; see validText and short.
const (
	linePattern   = `[^\x00-\x1f\x7f-\x9f]*`
	namePattern   = linePattern + `[^ \x00-\x1f\x7f-\x9f]` + linePattern
	prosePattern  = `[^\x00-\x08\x0b-\x1f\x7f-\x9f]*`
	momentPattern = `[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.0+)?(?:Z|[+\-][0-9]{2}:[0-9]{2})`
	dayPattern    = `[0-9]{4}-[0-9]{2}-[0-9]{2}`
	figurePattern = length.NumberPattern + `(?:[^0-9.,+\-−\x00-\x1f\x7f-\x9f]` + linePattern + `)?`
	// A hash is 43 signs, of which the last holds four bits.
	hashPattern = `[A-Za-z0-9_\-]{42}[AEIMQUYcgkosw048]`
)

// line takes texts of one line, and nameText those that are not blank; prose
// takes texts of several lines, and told those that are not empty. A bound in
// bytes is none tighter in characters.
func line(most int) *schema.Node     { return schema.Text(linePattern, most) }
func nameText(most int) *schema.Node { return schema.Text(namePattern, most) }
func prose() *schema.Node            { return schema.Text(prosePattern, maxText) }
func told() *schema.Node             { return prose().With(schema.Filled()) }

// hashText takes hashes, or what stands before them in the pattern.
func hashText(or string) *schema.Node { return schema.Text(or+hashPattern, 0) }

// figureText takes numbers with any unit behind them, and decimalText numbers
// alone; both take the empty text.
func figureText() *schema.Node { return schema.Text("|"+figurePattern, 0) }

func decimalText() *schema.Node {
	return schema.Text("|"+length.BlankPattern+length.NumberPattern+length.BlankPattern, 0)
}

// sessionUnit takes inches and millimetres, or what stands before them.
func sessionUnit(or string) *schema.Node {
	return schema.Text(or+length.UnitPattern(length.In, length.MM), 0)
}

// ofText takes a family or a feature, or what stands before them.
func ofText(or string) *schema.Node {
	return schema.Text(or+plan.FamilyPattern()+"|"+plan.FeaturePattern(), maxName)
}

// filled takes what may be empty elsewhere and is not here.
func filled() *schema.Node { return schema.Filled() }

// notBelowZero and aboveZero take lengths that are so; both take the empty text.
// A text below zero has a minus sign and a digit that is not 0.
func notBelowZero() *schema.Node {
	below := &schema.Node{Type: schema.Types{"string"}, AllOf: []*schema.Node{{Pattern: `[\-−]`}, {Pattern: `[1-9]`}}}
	return schema.From(0).With(&schema.Node{Not: below})
}

func aboveZero() *schema.Node {
	n := notBelowZero()
	n.Pattern = `^$|[1-9]`
	return n
}

// texts takes lists of texts that are as n says.
func texts(n *schema.Node) *schema.Node { return schema.Each(n, 0, 0) }

// defineTexts adds the definitions of texts with a form of their own.
func defineTexts(m *schema.Maker) {
	text := func(name, about string, n *schema.Node) {
		m.Define(name, n.With(&schema.Node{Description: about, Type: schema.Types{"string"}}))
	}
	text("length", `A length with its unit, such as "3.7503 in", "95.25 mm", "-13 µm" or "50 µin"; trailing zeros are its resolution. Empty where nothing was written.`,
		schema.Text("|"+length.Pattern(false), maxNumeral))
	text("unit", "A unit of length: in, mm, µm or µin.", schema.Text("|"+length.UnitPattern(), 0))
	text("feature", `A feature by position, counted from the front, left bank first: "bore/3", "shell-main/2/upper", "ring-gap/1/top".`,
		schema.Text(plan.FeaturePattern(), 0))
	number := schema.Text("|"+length.Pattern(true), maxText).With(&schema.Node{
		Description: `A length, as text or number, with a unit of its own or in that of the file: "3.7503", 3.7503, "0.02 mm".`,
		Type:        schema.Types{"string", "number"},
	})
	m.Define("number", number)
	m.Define("amount", schema.Text("|"+figurePattern, 0).With(&schema.Node{
		Description: `How much, as text with its unit or as a number: "0.002 in", "3 strokes".`,
		Type:        schema.Types{"string", "number"},
	}))
	m.Define("level-number", &schema.Node{Description: "A level, by its id or by its number from 1.", Type: schema.Types{"string", "number"}})
	reading := schema.In("number").With(schema.Filled())
	repeats := schema.Each(reading, 1, 0).With(&schema.Node{Type: schema.Types{"array"}})
	none := &schema.Node{Type: schema.Types{"null"}}
	m.Define("cell", &schema.Node{
		Description: "What was read at one place: a number, null where nothing was measured, or a list of the first reading and its repeats.",
		AnyOf:       []*schema.Node{reading, none, repeats},
	})
	m.Define("column", &schema.Node{
		Description: "What was read in one direction: a list with a cell for each level in their order; in a row that names its level, one cell.",
		AnyOf:       []*schema.Node{reading, none, {Type: schema.Types{"array"}, Items: schema.In("cell")}},
	})
}
