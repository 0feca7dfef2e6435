package kind

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles/quantity"
)

// Measure says what a point's level counts.
type Measure string

// The measures of a point.
const (
	Tread      Measure = "tread"       // m of depth
	PadLining  Measure = "pad"         // m of friction material
	Crack      Measure = "crack life"  // share left, 1 new, 0 the limit
	Thickness  Measure = "thickness"   // m of rotor
	HubLife    Measure = "hub life"    // L10 lives left until the drawn failure
	OilLife    Measure = "oil life"    // equivalent m left to the ceiling
	BoilMargin Measure = "boil margin" // K between fluid and its boiling point
)

// depths are the measures that a gauge reads.
var depths = map[Measure]quantity.Shown{Tread: quantity.Tread, PadLining: quantity.Pad, Thickness: quantity.Thickness}

// Show is a level in the owner's units.
func (m Measure) Show(u quantity.System, level float64) string {
	if depth, ok := depths[m]; ok {
		return depth[u].Text(level)
	}
	return fmt.Sprintf("%.0f %% of its life", 100*math.Max(0, level))
}
