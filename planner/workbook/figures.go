package workbook

import (
	"math"
	"strconv"
)

// kept is how many figures a cell keeps: logarithms and powers may differ in
// the sixteenth from one kind of processor to another, and the file may not.
const kept = 12

// figures rounds to so many significant figures.
func figures(v float64, n int) float64 {
	if v == math.Trunc(v) && math.Abs(v) < 1e11 {
		return v
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// tidy drops what rounding left behind the eleventh figure, so that an input
// reads as it was written.
func tidy(v float64) float64 { return figures(v, 11) }

// over divides, with nothing over nothing as nothing.
func over(a, b float64) float64 {
	if b == 0 || math.IsNaN(b) {
		return 0
	}
	return a / b
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// choose gives yes where the condition holds, else no.
func choose[T any](condition bool, yes, no T) T {
	if condition {
		return yes
	}
	return no
}
