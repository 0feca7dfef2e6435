package quantity

import "math"

// UnknownWord is how a measure is written that its owner does not know.
const UnknownWord = "unknown"

// Unknown is that measure: not a number, so that no sum takes it for 0.
func Unknown() float64 { return math.NaN() }

// Known says whether a measure has a value.
func Known[T ~float64](v T) bool { return !math.IsNaN(float64(v)) }

// OrZero is a measure in a sum of those that are known.
func OrZero[T ~float64](v T) T {
	if !Known(v) {
		return 0
	}
	return v
}
