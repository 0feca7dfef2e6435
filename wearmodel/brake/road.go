package brake

import (
	"example.com/tripwear/wearmodel/duty"
)

// roadDecel is the deceleration (m/s2) of ordinary road braking, which splits
// it over the axles. Engineering choice.
const roadDecel = 0.2 * duty.G

// Road is what meters of road take from pads and rotor. Road braking is taken
// as cool: it cracks no rotor and reports no temperature.
func Road(v duty.Vehicle, a Axle, d duty.Duty, meters float64) Outcome {
	if d.Meters <= 0 {
		return Outcome{}
	}
	energy := d.BrakeEnergy * meters / d.Meters * a.share(v.FrontBrakeShare(roadDecel)) / 2
	mean := a.Wear * energy / (2 * a.Pad.Area)
	return Outcome{
		PadMean:     mean,
		PadThinnest: thinnest * mean,
		Thickness:   a.thickness(energy),
		Energy:      energy,
	}
}
