package sheet

// Picture is a drawing of straight lines, boxes, circles and words, in points
// of 1/72 in, the first at the top left.
type Picture struct {
	// Caption says what is drawn and by how much it is exaggerated.
	Caption string
	W, H    float64
	Boxes   []Box
	Rounds  []Round
	Lines   []Line
	Words   []Word
}

// Box is a filled rectangle.
type Box struct {
	X, Y, W, H float64
	Ink        Ink
}

// Round is a filled circle with an outline.
type Round struct {
	X, Y, R float64
	Ink     Ink
}

// Line goes through points, each an x and a y.
type Line struct {
	Points [][2]float64
	Ink    Ink
	Dashed bool
	Width  float64
}

// Word is a text whose base line begins, ends or has its middle at a point.
type Word struct {
	X, Y, Size float64
	Text       string
	Align      Align
	Ink        Ink
}

// Align says which end of a word is at its point.
type Align uint8

// The aligns.
const (
	Left Align = iota
	Middle
	Right
)

// Ink is a colour of a document: dark enough on white paper, and told apart in
// grey.
type Ink uint8

// The inks. Those of tones are pale, to stand behind words.
const (
	Black Ink = iota
	Grey
	Pale
	Blue
	Rust
	PaleGood
	PaleDoubtful
	PaleBad
)

// inks are the colours as red, green and blue.
var inks = [...][3]uint8{
	Black: {20, 24, 28}, Grey: {120, 126, 132}, Pale: {232, 235, 238}, Blue: {28, 84, 150}, Rust: {176, 72, 20},
	PaleGood: {214, 236, 220}, PaleDoubtful: {252, 236, 190}, PaleBad: {246, 205, 198},
}

// paleOf returns the ink that stands behind what has a tone.
func paleOf(t Tone) Ink {
	return [...]Ink{Plain: Pale, Good: PaleGood, Doubtful: PaleDoubtful, Bad: PaleBad}[t]
}
