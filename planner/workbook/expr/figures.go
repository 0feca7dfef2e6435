package expr

import (
	"math"
	"strconv"
)

// Figures rounds to so many significant figures.
func Figures(v float64, n int) float64 {
	if v == math.Trunc(v) && math.Abs(v) < 1e11 {
		return v
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// Tidy drops what rounding left behind the eleventh figure, so that an input
// reads as it was written.
func Tidy(v float64) float64 { return Figures(v, 11) }
