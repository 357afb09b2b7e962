package gauge

import "borewright/engine/length"

// shownPlaces is how many decimals a length is shown with at most.
const shownPlaces = 7

// show writes a length in the instrument's unit, with the decimals of one
// graduation and as many more as it needs.
func (c Context) show(l length.Length) string { return c.showExact(length.Of(l)) }

func (c Context) showExact(e length.Exact) string {
	u := c.unit()
	return e.Format(u, c.places(e.Round())) + " " + u.String()
}

// showRounded writes a length that was computed, with the decimals of one
// graduation.
func (c Context) showRounded(e length.Exact) string {
	return e.Format(c.unit(), c.Instrument.Places()) + " " + c.unit().String()
}

// showSigned is show with a plus before what is larger than zero.
func (c Context) showSigned(l length.Length) string {
	u := c.unit()
	return length.Of(l).FormatSigned(u, c.places(l)) + " " + u.String()
}

func (c Context) places(l length.Length) int {
	return placesOf(l, c.unit(), c.Instrument.Places(), shownPlaces)
}

// unit is the unit lengths are shown in.
func (c Context) unit() length.Unit {
	if c.Instrument.Unit.Size() != 0 {
		return c.Instrument.Unit
	}
	return length.MM
}

// inWords is what a unit is called in a sentence.
var inWords = map[length.Unit]string{
	length.In: "inches", length.MM: "millimetres", length.UM: "micrometres", length.UIn: "microinches",
}
