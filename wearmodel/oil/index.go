package oil

import (
	"math"
)

// basis is a stretch of the reference oils' viscosities at 40 deg C, L and H,
// as a parabola each of the viscosity at 100: L = a y2 + b y + c and
// H = d y2 + e y + f.
type basis struct {
	least            float64 // mm2/s at 100 deg C, where it begins
	a, b, c, d, e, f float64
}

// bases are the coefficients of ASTM D2270, from memory, checked against rows
// of its table.
var bases = [...]basis{
	{2, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
	{3.8, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
	{4.4, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
	{5.0, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
	{6.4, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
	{7.0, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
	{7.7, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
	{9.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
	{12, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
	{15, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
	{18, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
	{22, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
	{28, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
	{40, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
	{55, 0.85921, 11.1009, -83.19, 0.17130, 11.3680, -76.940},
	{70, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947},
}

// reference gives L and H (mm2/s at 40 deg C): the viscosities of the oils of
// index 0 and 100 that are as thick at 100 deg C, y mm2/s of 2 or more.
func reference(y float64) (l, h float64) {
	at := bases[0]
	for _, next := range bases[1:] {
		if y >= next.least {
			at = next
		}
	}
	return float64(at.a*y*y) + float64(at.b*y) + at.c, float64(at.d*y*y) + float64(at.e*y) + at.f
}

// LeastForIndex is the viscosity at 100 deg C (mm2/s) below which ASTM D2270
// gives no index.
const LeastForIndex = 2.0

// Index is the viscosity index of ASTM D2270 from the viscosities (mm2/s) at
// 40 and 100 deg C: procedure A up to 100, procedure B above. It says ok false
// below 2 mm2/s at 100, or where the oil is no thicker at 40 than at 100.
func Index(at40, at100 float64) (vi float64, ok bool) {
	if at100 < LeastForIndex || at40 <= at100 {
		return 0, false
	}
	l, h := reference(at100)
	if at40 >= h {
		return 100 * (l - at40) / (l - h), true // procedure A
	}
	n := (float64(math.Log10(h)) - float64(math.Log10(at40))) / math.Log10(at100)
	return (math.Pow(10, n)-1)/0.00715 + 100, true // procedure B
}
