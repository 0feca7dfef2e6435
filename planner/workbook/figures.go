package workbook

import (
	"math"
)

// kept is how many figures a cell keeps: logarithms and powers may differ in
// the sixteenth from one kind of processor to another, and the file may not.
const kept = 12

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
