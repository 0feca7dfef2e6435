package quantity

import (
	"fmt"
	"math"
)

// Chance prints a probability at the precision it has.
func Chance(p float64) string {
	switch {
	case p < 0.005:
		return "under 1 %"
	case p >= 0.995:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", math.Round(100*p)) // half up, as the workbook does
}

// ChanceOver prints a probability above a cap, with the decimals that keep it
// from reading as the cap itself.
func ChanceOver(p, limit float64) string {
	text := Chance(p)
	for decimals := 1; text == Chance(limit) && decimals <= 6; decimals++ {
		step := math.Pow(10, float64(2+decimals))
		if up := math.Ceil(p*step) / step; up > limit {
			text = fmt.Sprintf("%.*f %%", decimals, 100*up)
		}
	}
	return text
}

// Stated prints a share as it was written down, such as a cap of 0.5 %.
func Stated(share float64) string { return fmt.Sprintf("%.4g %%", 100*share) }

// Life prints a share of life left; what is below its limit has none.
func Life(share float64) string { return fmt.Sprintf("%.0f %%", 100*math.Max(0, share)) }
