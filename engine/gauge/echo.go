package gauge

import "borewright/engine/length"

// Echo says in full what Read would make of the text, while it is being keyed:
// "+3 → 3.7503 in, LARGER". It is empty as long as there is nothing to say, and
// names both sizes where last digits end two alike.
func Echo(keyed string, c Context) string {
	n, err := c.number(keyed)
	if err != nil {
		return ""
	}
	r := c.mean(n)
	switch {
	case r.Kind == Refused:
		return ""
	case r.Meaning.IsZero():
		return n.text + " → " + r.Likely
	case !r.Meaning.Size.IsZero():
		return n.text + " → " + c.show(r.Meaning.At)
	}
	at := c.showSigned(r.Meaning.At)
	if c.HasZero {
		at = c.show(r.Meaning.At)
	}
	return c.counted(n, r.Meaning) + " → " + at + ", " + sense(r.Meaning.Dev.Length)
}

// counted writes a deviation as it counts, its sign first.
func (c Context) counted(n number, m Meaning) string {
	if c.form() == inDeviation {
		return length.Of(m.Dev.Length).FormatSigned(m.Dev.Unit, m.Dev.Places) + " " + m.Dev.Unit.String()
	}
	if n.dec.Coef > 0 {
		return "+" + n.dec.String()
	}
	return n.dec.String()
}

// sense says which way a deviation goes; a sign means size.
func sense(dev length.Length) string {
	switch {
	case dev > 0:
		return "LARGER"
	case dev < 0:
		return "SMALLER"
	default:
		return "THE SAME"
	}
}
