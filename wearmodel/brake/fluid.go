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
	Uptake              float64 // share of water taken up in the first year
	HeatThick, HeatWorn float64 // share of the rotor's rise that reaches the fluid, through new pads and through pads at their limit
}

// fall is how far, from dry to wet, the boiling point is down at a water
// content: the first water costs most. Published curve of a DOT 3 fluid, 187,
// 160 and 145 deg C at 1, 2 and 3 %, secondary source.
var fall = []struct{ water, share float64 }{{0, 0}, {0.01, 0.28}, {0.02, 0.69}, {0.03, 0.92}, {wetWater, 1}}

// Boils is the boiling point (deg C) at a water content (share by mass), by
// straight lines between the points of fall, held at wet beyond.
func (f Fluid) Boils(water float64) float64 {
	down := 0.0
	for i := 1; i < len(fall); i++ {
		from, to := fall[i-1], fall[i]
		into := math.Min(1, math.Max(0, (water-from.water)/(to.water-from.water)))
		down += float64((to.share - from.share) * into)
	}
	return f.Dry - float64((f.Dry-f.Wet)*down)
}

// thirsty are the years in which a fill takes up water at its full rate; after
// that at half of it. Published: 2 % in the first year, 3 % at 18 months, 1 % a
// year after; secondary source.
const thirsty = 1.5

// Water is the water content of a fill of some years, share by mass.
func (f Fluid) Water(years float64) float64 {
	years = math.Max(0, years)
	return f.Uptake * (math.Min(years, thirsty) + float64(math.Max(0, years-thirsty)/2))
}

// Years is the age at which a fill holds some water, share by mass; 0 where it
// takes up none.
func (f Fluid) Years(water float64) float64 {
	if f.Uptake <= 0 {
		return 0
	}
	years := math.Max(0, water) / f.Uptake
	return math.Min(years, thirsty) + float64(2*math.Max(0, years-thirsty))
}

// Hottest is the temperature of the fluid at its hottest caliper (deg C), by the
// rotors' means over the hottest session, front and rear (deg C), and how far
// each wheel's pads are worn: one caliper boils the circuit.
func (f Fluid) Hottest(bulk [2]float64, ambient float64, worn [4]float64) float64 {
	hottest := ambient
	for p, w := range worn {
		hottest = math.Max(hottest, f.Temperature(Outcome{Bulk: bulk[p/2]}, ambient, w))
	}
	return hottest
}

// Temperature is that of the fluid at a caliper (deg C), parked hot after the
// outcome's hottest session. worn is 0 with new pads and 1 at their limit.
// Engineering choice.
func (f Fluid) Temperature(o Outcome, ambient, worn float64) float64 {
	if o.Bulk <= ambient {
		return ambient
	}
	k := f.HeatThick + float64((f.HeatWorn-f.HeatThick)*math.Min(1, math.Max(0, worn)))
	return ambient + float64(k*(o.Bulk-ambient)) + soak
}

// Worn is how far pads are between new (0) and their limit (1), from
// thicknesses of friction material, m.
func Worn(now, fresh, limit float64) float64 {
	if fresh <= limit {
		return 1
	}
	return math.Min(1, math.Max(0, (fresh-now)/(fresh-limit)))
}
