package bearing

import (
	"math"
	"testing"
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

func TestL10(t *testing.T) {
	for _, c := range []struct {
		source         string
		capacity, load float64 // kN
		want, tol      float64 // millions of revolutions
	}{
		{"open course notes on ISO 281", 22.4, 3.2, 343, 1e-9},
		{"textbook problem", 16, 2, 512, 1e-9},
		{"ISO 281 factors X 0.57, Y 0.93", 60, 5.43, 1349.13, 1e-5},
	} {
		near(t, c.source, L10(c.capacity, c.load), c.want, c.tol)
	}
	// The course notes' 343 million revolutions at 650 rpm.
	near(t, "hours", L10(22.4, 3.2)*1e6/650/60, 8795, 1e-4)
}

// ISO 281, contact angle 40 degrees.
func TestEquivalent(t *testing.T) {
	for _, c := range []struct {
		name          string
		f             Factors
		radial, axial float64
		want          float64
	}{
		{"two rows, mostly axial", DoubleRow40, 3, 4, 5.43},
		{"two rows, mostly radial", DoubleRow40, 3, 1, 3.55},
		{"one row, mostly axial", SingleRow40, 3, 4, 3.33},
		{"one row, its own induced load", SingleRow40, 3, 3.42, 3},
	} {
		near(t, c.name, c.f.Equivalent(c.radial, c.axial), c.want, 1e-9)
	}
}

// Y of a row at its induced load hands over without a jump of more than the
// rounding of the printed factors. ISO 281.
func TestFactorsMeet(t *testing.T) {
	for _, f := range []Factors{SingleRow40, DoubleRow40} {
		near(t, "above E", f.X2+f.Y2*f.E, f.X1+f.Y1*f.E, 0.01)
	}
}
