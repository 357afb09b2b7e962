package doubt

// MeanOf returns the mean of figures, each counting once; of none it is of no
// readings.
func MeanOf(fs ...Figure) Figure {
	var sum Figure
	for _, f := range fs {
		sum = sum.Plus(f)
	}
	sum.over *= float64(len(fs))
	return sum
}
