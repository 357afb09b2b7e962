package gauge

// ReadZero says what a text means that was keyed at a zero check: graduations
// from zero, for a direct instrument too. The sign means size.
func ReadZero(keyed string, i Instrument) Result {
	i.Kind = Comparator
	return Read(keyed, Context{Instrument: i})
}

// CheckTemperature says why a text is no temperature in °C, or nil.
func CheckTemperature(text string) error {
	f := &faults{of: "temperature"}
	f.name("°C", text)
	f.decimal("°C", text, coldest, warmest)
	return f.err
}
