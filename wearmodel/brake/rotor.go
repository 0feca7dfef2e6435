package brake

import (
	"math"
)

// Rotor cracking: a Coffin-Manson-like sum over brakings and over heat cycles.
// The form and its references are an engineering choice; 150 heat cycles are
// those of the rotor crack test SAE J2928.
const (
	surfaceReference = 200.0  // K of surface rise
	surfaceLife      = 5000.0 // brakings of that rise at 500 deg C
	crackPower       = 3.0
	crackTemp        = 500.0 // deg C
	crackGrowth      = 100.0 // K for a factor of e
	cycleReference   = 525.0 // K from ambient to the hottest
	cycleLife        = 150.0 // sessions of that size

	// iron melts near 1,150 deg C (from memory): above it the sum means
	// nothing and must not run off.
	melts = 1150.0
)

// crackStop is the damage one braking does to a plain blank.
func crackStop(surface, peak float64) float64 {
	peak = math.Min(peak, melts)
	return math.Pow(surface/surfaceReference, crackPower) / surfaceLife * math.Exp((peak-crackTemp)/crackGrowth)
}

// crackCycle is the damage of heating a plain blank once by a rise (K) and
// letting it cool.
func crackCycle(rise float64) float64 {
	return math.Pow(rise/cycleReference, crackPower) / cycleLife
}

// thickness is what an energy (J) rubs off a rotor, m, both faces together.
func (a Axle) thickness(energy float64) float64 { return a.RotorWear * energy / a.FaceArea }

// Look is what an inspection of a rotor found.
type Look int

// The findings, from good to bad.
const (
	Smooth     Look = iota
	HeatChecks      // fine cracks that a fingernail does not catch
	Catches         // cracks that catch a fingernail
	EdgeCrack       // a crack that reaches an edge
)

// Damage is the crack damage to go on with after a look at the rotor that a
// forecast puts at the given damage. What is seen overrides the forecast only
// for the worse: cracks that catch a fingernail leave a tenth of the life at
// most, and an edge crack none. Common practice, no source.
func (l Look) Damage(forecast float64) float64 {
	switch l {
	case Catches:
		return math.Max(forecast, 0.9)
	case EdgeCrack:
		return math.Max(forecast, 1)
	default:
		return forecast
	}
}
