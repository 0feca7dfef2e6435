package oil

import (
	"math"
)

const zero = 273.15 // K at 0 deg C

// Line is an oil's kinematic viscosity over temperature: the straight line of
// ASTM D341, log10 log10 Z = A - B log10 T with T in kelvin. It holds for a
// liquid, between its cloud point and where it begins to boil, for
// viscosities above 0.21 mm2/s.
type Line struct{ A, B float64 }

// LineThrough is the line through two viscosities (mm2/s) at two temperatures
// (deg C). The temperatures must differ and the viscosities be above 0.21.
func LineThrough(v1, t1, v2, t2 float64) Line {
	x1, x2 := float64(math.Log10(t1+zero)), float64(math.Log10(t2+zero))
	y1, y2 := loglog(v1), loglog(v2)
	b := (y1 - y2) / (x2 - x1)
	return Line{A: y1 + float64(b*x1), B: b}
}

// At is the viscosity (mm2/s) at a temperature (deg C).
func (l Line) At(tempC float64) float64 {
	z := math.Pow(10, math.Pow(10, l.A-float64(l.B*math.Log10(tempC+zero))))
	return fromZ(z)
}

// At is the sample's viscosity (mm2/s) at a temperature (deg C), by the line
// through its viscosities at 40 and 100 deg C; NaN where they give none.
func (s Sample) At(tempC float64) float64 {
	at40, at100 := s.Values[KV40], s.Values[KV100]
	if at100 < LeastForIndex || at40 <= at100 {
		return math.NaN()
	}
	return LineThrough(at40, 40, at100, 100).At(tempC)
}

// loglog is log10 log10 Z. ASTM D341, 2004 form, from memory.
func loglog(v float64) float64 {
	z := v + 0.7 + math.Exp(-1.47-float64(1.84*v)-float64(0.51*v*v))
	return float64(math.Log10(math.Log10(z)))
}

// fromZ undoes Z. ASTM D341, 2004 form, from memory; within 1 in 1,000 of the
// exact inverse.
func fromZ(z float64) float64 {
	x := z - 0.7
	return x - math.Exp(-0.7487-float64(3.295*x)+float64(0.6119*x*x)-float64(0.3193*x*x*x))
}
