package oil

import (
	"math"
)

const mile = 1609.344 // m, exact by the international definition

// Circuit time counts as this many miles an hour, at least this many times
// over however cool the oil. Engineering choice.
const (
	circuitMiles = 60.0
	circuitLeast = 2.0
)

// Ageing by heat.
const (
	ageTemp   = 100.0 // deg C
	ageDouble = 10.0  // K
	ageMost   = 16.0
)

// Acceleration is how many times faster oil ages at a sump temperature (deg C)
// than at 100: twice for each 10 K, never below 1 or above 16. Common
// practice, no source (the trade's 10 degree rule); it stands for oxidation
// and holds to about a factor of 1.5.
func Acceleration(tempC float64) float64 {
	return math.Min(ageMost, math.Max(1, math.Exp2((tempC-ageTemp)/ageDouble)))
}

// Spent says whether a sump temperature (deg C) was so high that the fill
// should be changed before the way home. Engineering choice.
func Spent(tempC float64) bool { return Acceleration(tempC) >= ageMost }

// RoadEquivalent is the equivalent distance (m) of meters of road with the
// oil at a temperature (deg C). k is 1 on the highway and 2 in severe service:
// city, dust, crawling. Engineering choice.
func RoadEquivalent(meters, k, tempC float64) float64 {
	return float64(meters * k * Acceleration(tempC))
}

// CircuitEquivalent is the equivalent distance (m) of seconds on circuit,
// out and in laps included, with the oil at a temperature (deg C).
// Engineering choice.
func CircuitEquivalent(seconds, tempC float64) float64 {
	return float64(seconds / 3600 * circuitMiles * mile * math.Max(circuitLeast, Acceleration(tempC)))
}

// CircuitAt is the equivalent distance (m) of seconds on circuit at an ambient
// temperature (deg C) and a pace of which ln has the standard deviation sd: the
// mean over the pace, since oil ages from a floor up to a ceiling, between
// which its heat doubles the wear with each tenth of pace. What half of a
// normal's weight lies on is not where the mean is.
func (h Heat) CircuitAt(seconds, ambient, pace, sd float64) float64 {
	at := func(z float64) float64 {
		return CircuitEquivalent(seconds, h.On(ambient, pace*math.Exp(float64(sd*z))))
	}
	if sd == 0 || h.Gauge > 0 {
		return at(0)
	}
	sum, weights := 0.0, 0.0
	for i := -paceSteps; i <= paceSteps; i++ {
		z := 3 * float64(i) / paceSteps
		weight := math.Exp(-z * z / 2)
		sum += float64(weight * at(z))
		weights += weight
	}
	return sum / weights
}

// paceSteps of a mean over the pace lie on either side of it, up to three
// standard deviations away.
const paceSteps = 12
