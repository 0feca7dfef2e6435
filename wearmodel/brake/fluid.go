package brake

import (
	"math"
)

// wetWater is the water content at which a wet boiling point is measured,
// share by mass. FMVSS 116 (49 CFR 571.116).
const wetWater = 0.037

// soak is how much (K) the fluid gains parked hot, without air.
// Engineering choice.
const soak = 15.0

// Fluid is a fill of brake fluid and how it takes heat.
type Fluid struct {
	Dry, Wet            float64 // deg C, boiling without water and at 3.7 %
	Uptake              float64 // share of water taken up in a year
	HeatThick, HeatWorn float64 // share of the rotor's rise that reaches the fluid, through new pads and through pads at their limit
}

// Boils is the boiling point (deg C) at a water content (share by mass): a
// straight line through dry and wet, held at wet beyond. The line lies above
// the true curve, which falls steeply at first: by some 10 K at half the
// water, from memory.
func (f Fluid) Boils(water float64) float64 {
	return f.Dry - float64((f.Dry-f.Wet)*math.Min(1, math.Max(0, water)/wetWater))
}

// Water is the water content of a fill of some years, share by mass.
func (f Fluid) Water(years float64) float64 { return f.Uptake * math.Max(0, years) }

// Temperature is that of the fluid at the hottest caliper (deg C), parked hot
// after the outcome's hottest session. worn is 0 with new pads and 1 at their
// limit. Engineering choice.
func (f Fluid) Temperature(o Outcome, ambient, worn float64) float64 {
	if o.Bulk <= ambient {
		return ambient
	}
	k := f.HeatThick + float64((f.HeatWorn-f.HeatThick)*math.Min(1, math.Max(0, worn)))
	return ambient + float64(k*(o.Bulk-ambient)) + soak
}

// Reserve is what (K) a fill of some years has left below boiling after an
// outcome; negative where it boils.
func (f Fluid) Reserve(o Outcome, ambient, worn, years float64) float64 {
	return f.Boils(f.Water(years)) - f.Temperature(o, ambient, worn)
}

// Worn is how far pads are between new (0) and their limit (1), from
// thicknesses of friction material, m.
func Worn(now, fresh, limit float64) float64 {
	if fresh <= limit {
		return 1
	}
	return math.Min(1, math.Max(0, (fresh-now)/(fresh-limit)))
}
