package projection

import "slices"

// Lasting is how many days a share of the draws lasts, between whole days by
// straight lines.
func Lasting(curve []float64, share float64) float64 {
	k := slices.IndexFunc(curve, func(c float64) bool { return c < share })
	if k < 0 {
		return float64(len(curve) - 1)
	}
	if k == 0 {
		return 0
	}
	before := curve[k-1]
	return float64(k-1) + (before-share)/(before-curve[k])
}
