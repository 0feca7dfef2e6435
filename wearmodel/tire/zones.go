package tire

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// The tilt of wear across the tread. A degree of negative camber at the road
// moves wear in by tiltPerDegree; a side force towards the car's center equal
// to the wheel's load moves it out by tiltPerGrip. Engineering choice.
const (
	tiltPerDegree = 0.15
	tiltPerGrip   = 0.45
	maxTilt       = 0.9
)

// rollLoss is the negative camber (degrees at 1 m/s2 of lateral acceleration)
// that body roll takes from the outside wheel and gives the inside one: 1.3
// degrees at 0.85 g. Engineering choice.
const rollLoss = 1.3 / (0.85 * duty.G)

// tilt says how far wear leans to the inside zone (+) or the outside one (-)
// while the wheel at place p carries w at lateral acceleration ay (m/s2).
// The wheel must carry load.
func (f *Fitted) tilt(p duty.Place, w duty.Wheel, ay float64) float64 {
	// A left turn's force and acceleration point to the center for the
	// right-hand wheels, which are then outside.
	inward, loss := w.Fy, rollLoss*ay
	if p.Left() {
		inward, loss = -inward, -loss
	}
	negative := -f.Camber*180/math.Pi - loss
	grip := float64(inward/w.Fz) + float64(f.Cornering*f.Toe)
	return max(-maxTilt, min(maxTilt, float64(tiltPerDegree*negative)-float64(tiltPerGrip*grip)))
}

// spread turns a wheel's mean depth and the tilt of its wear into zones.
func spread(mean, tilt float64) Rate {
	return Rate{Mean: mean, Zones: [3]float64{mean * (1 + tilt), mean, mean * (1 - tilt)}}
}
