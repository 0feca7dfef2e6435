package tire

import (
	"math"
)

// smallest is below anything that is measured: rounding near the end of
// float64's range is not an error.
const smallest = 1e-200

// near fails unless got is within a relative tolerance of want.
func near(t interface{ Errorf(string, ...any) }, what string, got, want, tol float64) {
	if math.IsNaN(got) || math.Abs(got-want) > tol*math.Abs(want)+smallest {
		t.Errorf("%s = %.6g, want %.6g within %g of it", what, got, want, tol)
	}
}

const mile = 1609.344 // m
