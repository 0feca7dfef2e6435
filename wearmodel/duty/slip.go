package duty

import (
	"math"
)

// Brush is a tire as the brush model sees it.
type Brush struct {
	Friction  float64 // peak friction of the model; 1.10 times the car's, so that full grip does not sit on the pole
	Cornering float64 // cornering stiffness over load, per rad
	Driving   float64 // longitudinal stiffness over load, per unit slip
}

// maxUse caps the used share of grip, where the brush model's slip runs away.
const maxUse = 0.98

// Slip gives the slip (dimensionless) of a wheel and the power (W) it grinds
// into the road at speed v (m/s): the brush model inverted in closed form.
// Slip angle is atan(slip). Source: the brush tire of Pacejka, Tire and
// Vehicle Dynamics; the compliance is weighted by the direction of the force.
func (b Brush) Slip(w Wheel, v float64) (slip, power float64) {
	force := math.Sqrt(float64(w.Fx*w.Fx) + float64(w.Fy*w.Fy))
	if force == 0 || w.Fz <= 0 {
		return 0, 0
	}
	cos := w.Fx / force
	cos2 := float64(cos * cos)
	compliance := cos2/b.Driving + (1-cos2)/b.Cornering // times 1/Fz
	grip := b.Friction
	use := min(maxUse, force/(grip*w.Fz))
	slip = 3 * grip * compliance * (1 - math.Cbrt(1-use))
	return slip, force * v * slip
}
