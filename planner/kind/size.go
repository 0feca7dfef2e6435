package kind

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/wearmodel/brake"
)

// The car that the stock rotors are assumed for. A heavier or stronger one has
// larger ones, by its mass and the third root of its power. Engineering choice.
const (
	midMass  = 1400.0 // kg
	midPower = 150e3  // W
)

// sizeSettles ends a refusal that an assumed rotor may be the reason of.
const sizeSettles = "the size of the %s rotors is assumed: their diameter and thickness, as stamped or measured, would settle it"

// assumedSize says whether a rotor's size is assumed, and how many times the
// stock one's mass it is then taken to have.
func assumedSize(car profiles.Car, rotors profiles.Part) (times float64, assumed bool) {
	if rotors.Rotors.Diameter > 0 || rotors.Sources["ring_mass"].Tag == decode.Owner {
		return 1, false
	}
	return math.Max(1, float64(car.Mass)/midMass) * math.Cbrt(math.Max(1, float64(car.Power)/midPower)), true
}

// sized is a rotor of its part on a car.
func sized(car profiles.Car, part profiles.Part) brake.Rotor {
	r := part.Rotors
	times, _ := assumedSize(car, part)
	faces := math.Cbrt(times * times)
	return brake.Rotor{
		RingMass:      float64(r.RingMass) * times,
		Area:          float64(r.Area) * faces,
		FaceArea:      float64(r.FaceArea) * faces,
		RadiatingArea: float64(r.RadiatingArea) * faces,
		Vented:        r.Vented,
		Crack:         float64(r.Crack),
	}
}

// sizeSpread is what an assumed size adds to the spread of the rates of what
// its heat wears, sd of ln: the more, the further the car is from the stock's.
func sizeSpread(a At) float64 {
	part, _ := a.Folder.On(profiles.Rotors, a.Place)
	times, _ := assumedSize(a.Folder.Car, part)
	return float64(a.Folder.Model.Spread.RotorSize) * math.Log(times)
}

// onSize says what would settle a refusal, where it may hang on the assumed size
// of the rotors at some places.
func onSize(a At, places ...string) string {
	for _, place := range places {
		part, _ := a.Folder.On(profiles.Rotors, place)
		if _, assumed := assumedSize(a.Folder.Car, part); assumed {
			return fmt.Sprintf(sizeSettles, map[byte]string{'F': "front", 'R': "rear"}[place[1]])
		}
	}
	return ""
}
