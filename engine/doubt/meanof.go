package doubt

// MeanOf returns the mean of figures, each counting once; of none it is of no
// readings.
func MeanOf(fs ...Figure) Figure {
	n := 0 // room for all at once
	for _, f := range fs {
		n += len(f.terms)
	}
	sum := Figure{terms: make([]term, 0, n)}
	for _, f := range fs {
		sum.add(f, 1)
	}
	sum.over *= float64(len(fs))
	return sum
}
