package trace

import (
	"slices"
)

// median sorts its values; it is 0 of none.
func median(values []float64) float64 {
	upper := quantile(values, 0.5)
	if n := len(values); n > 0 && n%2 == 0 {
		return (values[n/2-1] + upper) / 2
	}
	return upper
}

// quantile sorts its values and picks one.
func quantile(values []float64, share float64) float64 {
	if len(values) == 0 {
		return 0
	}
	slices.Sort(values)
	return values[min(len(values)-1, int(share*float64(len(values))))]
}
