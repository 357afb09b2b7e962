package gauge

// ReadZero says what a text means that was keyed at a zero check: graduations
// from zero, for a direct instrument too. The sign means size. What came by the
// instrument's cable is a deviation where it sends one; where it sends sizes it
// is refused, because only what the scale is off counts.
func ReadZero(keyed string, i Instrument, cable bool) Result {
	i.Kind = Comparator
	if cable && i.Sends == SendsSize {
		return refused((&TextError{keyed, "this cable sends sizes; key what the gauge is off, in graduations"}).Error())
	}
	return Read(keyed, Context{Instrument: i, Cable: cable && i.Sends != ""})
}

// CheckTemperature says why a text is no temperature in °C, or nil.
func CheckTemperature(text string) error {
	f := &faults{of: "temperature"}
	f.name("°C", text)
	f.decimal("°C", text, coldest, warmest)
	return f.err
}
