package limit

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Class is a tolerance class of ISO 286-1:2010, such as H6: a letter for where
// the tolerance lies from the nominal size, and a grade for how wide it is. It
// may keep the nominal size that stood before it, as in "60 H6".
type Class struct {
	// Nominal is the size written before the class, and zero where none was.
	Nominal length.Written
	// Letter is the fundamental deviation: capital for a hole, small for a
	// shaft. See Covered.
	Letter string
	// Grade is the standard tolerance grade: 6 is IT6.
	Grade int
}

// ClassError says which tolerance class has no limits here, and why.
type ClassError struct {
	Text   string // the class as it was given
	Reason string // what is wrong with it, in plain words
}

// Error quotes the class and gives the reason.
func (e *ClassError) Error() string { return fmt.Sprintf("tolerance class %q: %s", e.Text, e.Reason) }

// Covered names the letters that ParseClass takes, holes first. The others are
// rare in engines, or need rules of their own (holes K to ZC take a correction
// that depends on the grade), and are not covered.
func Covered() []string {
	return []string{"D", "E", "F", "G", "H", "JS", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p"}
}

// ParseClass reads a tolerance class with or without its nominal size:
//
//	class   = [ nominal ] letter grade
//	nominal = [ "Ø" ] number [ " mm " | " µm " ]
//	letter  = one of Covered
//	grade   = "1" to "13"
//
// "60 H6", "60H6", "Ø50.5 g6", "57 mm h5" and "H7" are read; a nominal without
// a unit is in millimetres. Classes are metric: a nominal in inches is refused,
// and so is a fit of two classes. The error is a *ClassError.
func ParseClass(text string) (Class, error) {
	refuse := func(reason string, args ...any) (Class, error) {
		return Class{}, &ClassError{Text: text, Reason: fmt.Sprintf(reason, args...)}
	}
	nominal, letter, grade := cutClass(strings.TrimSpace(text))
	switch {
	case strings.Contains(text, "/"):
		return refuse("this is a fit of two classes: give the hole and the shaft each its own")
	case letter == "" || grade == "":
		return refuse("a class is a letter and a grade, such as H6, with its nominal size before it or not")
	case !covers(letter):
		return refuse("the letter %s is not covered: there are the holes D, E, F, G, H, JS and the shafts d, e, f, g, h, js, k, m, n, p", letter)
	}
	c := Class{Letter: letter}
	var err error
	if c.Grade, err = strconv.Atoi(grade); err != nil || c.Grade < 1 || c.Grade > mostGrade {
		return refuse("the grade %s is not covered: there are 1 to %d", grade, mostGrade)
	}
	if letter == "k" && (c.Grade < 4 || c.Grade > 7) {
		return refuse("k is covered in the grades 4 to 7, not in %d", c.Grade)
	}
	if nominal == "" {
		return c, nil
	}
	if c.Nominal, err = length.Parse(nominal, length.MM); err != nil {
		return refuse("the nominal size is not read: %v", err)
	}
	if reason := unfit(c.Nominal); reason != "" {
		return refuse("%s", reason)
	}
	return c, nil
}

// cutClass takes the grade and the letter off the end of a class.
func cutClass(text string) (nominal, letter, grade string) {
	rest := strings.TrimRight(text, "0123456789")
	grade = text[len(rest):]
	nominal = strings.TrimRightFunc(rest, func(r rune) bool { return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' })
	letter = rest[len(nominal):]
	nominal = strings.TrimSpace(nominal)
	for _, sign := range []string{"Ø", "ø", "⌀"} {
		nominal = strings.TrimPrefix(nominal, sign)
	}
	return strings.TrimSpace(nominal), letter, grade
}

// covers reports whether a letter is one of Covered.
func covers(letter string) bool {
	for _, l := range Covered() {
		if l == letter {
			return true
		}
	}
	return false
}

// String writes the class as ParseClass reads it: "60 mm H6", or "H6" alone.
func (c Class) String() string {
	return strings.TrimSpace(c.Nominal.String() + " " + c.Letter + strconv.Itoa(c.Grade))
}

// Shape returns what the class is for: capital letters are holes, small ones
// shafts.
func (c Class) Shape() plan.Shape {
	switch {
	case c.Letter == "":
		return plan.NoShape
	case c.Letter == strings.ToUpper(c.Letter):
		return plan.Hole
	}
	return plan.Shaft
}

// Range returns the limits that the class gives a nominal size, in millimetres
// with three decimals, or more where the nominal or a half micrometre needs
// them; both ends are allowed. The class's own nominal goes before the one
// given. A nominal in inches is refused, with its millimetres: the classes and
// their ranges of sizes are metric. The error is a *ClassError.
//
// JS and js are half the tolerance either way, exactly; where that is a half
// micrometre some tables print the whole micrometre below it.
func (c Class) Range(nominal length.Written) (Range, error) {
	if !c.Nominal.IsZero() {
		nominal = c.Nominal
	}
	fail := func(reason string) (Range, error) {
		return Range{}, &ClassError{Text: c.String(), Reason: reason}
	}
	if reason := unfit(nominal); reason != "" {
		return fail(reason)
	}
	low, high, ok := c.deviations(nominal.Length)
	if !ok {
		return fail("its letter or grade is not covered")
	}
	places := 3
	if nominal.Unit == length.MM {
		places = max(places, nominal.Places)
	}
	return Range{
		Low:  rewritten(nominal.Length+low, length.MM, places),
		High: rewritten(nominal.Length+high, length.MM, places),
	}, nil
}

// unfit says why a nominal size has no classes, and nothing where it has.
func unfit(nominal length.Written) string {
	switch {
	case nominal.IsZero():
		return "it needs a nominal size in millimetres, such as 60 H6"
	case nominal.Unit == length.In || nominal.Unit == length.UIn:
		return fmt.Sprintf("classes are metric and the nominal is in inches: write %s as %s mm",
			nominal, length.Of(nominal.Length).Format(length.MM, nominal.Places+1))
	case nominal.Length <= 0 || nominal.Length > mostNominal:
		return fmt.Sprintf("the nominal size %s is not covered: there are sizes above 0 up to and including 500 mm", nominal)
	}
	return ""
}

// deviations returns how far the limits lie from the nominal size; ok is false
// for a class or size that is not covered.
func (c Class) deviations(nominal length.Length) (low, high length.Length, ok bool) {
	row, found := rowOf(nominal)
	it := row.tolerance(c.Grade)
	if !found || it == 0 {
		return 0, 0, false
	}
	from := length.Length(row.deviation[strings.ToLower(c.Letter)]) * length.Micrometre
	switch {
	case !covers(c.Letter):
		return 0, 0, false
	case strings.EqualFold(c.Letter, "js"):
		return -it / 2, it / 2, true
	case c.Shape() == plan.Hole:
		return from, from + it, true
	case strings.Contains("kmnp", c.Letter):
		return from, from + it, true
	}
	return -from - it, -from, true
}
