package brake

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// intoRotor is the share of the friction heat that goes into the rotor; the
// pads take the rest. Engineering choice, of the order of Limpert's partition.
const intoRotor = 0.95

// stop is one braking as one rotor meets it.
type stop struct {
	energy  float64 // J rubbed
	rise    float64 // K of the whole ring
	surface float64 // K of the faces over the ring, at its highest
	cool    float64 // s from its start to the start of the next
}

// stops lists a lap's brakings for one rotor of the axle. The lap is counted
// from the first of them.
func (a Axle) stops(v duty.Vehicle, d duty.Duty) []stop {
	list := make([]stop, len(d.Brakings))
	for i, b := range d.Brakings {
		next := d.Seconds + d.Brakings[0].Start
		if i+1 < len(d.Brakings) {
			next = d.Brakings[i+1].Start
		}
		energy := v.BrakingEnergy(b) * a.share(v.FrontBrakeShare(b.Decel)) / 2
		heat := intoRotor * energy
		list[i] = stop{
			energy:  energy,
			rise:    heat / a.capacity(),
			surface: surfaceRise(b, heat/(2*a.FaceArea)),
			cool:    math.Max(0, next-b.Start),
		}
	}
	return list
}

// surfaceRise is the most (K) that a face is above the ring during a braking
// that puts heat (J/m2) into it, the flux falling in step with the speed.
// Heat conduction into a thick body, the form printed by Limpert, Brake
// Design and Safety (from memory; his rounded 0.527 gives 1 % less).
func surfaceRise(b duty.Braking, heat float64) float64 {
	if heat == 0 {
		return 0
	}
	toRest := b.From / b.Decel
	seconds := (b.From - b.To) / b.Decel
	flux := heat / (seconds - seconds*seconds/(2*toRest))
	return fluxRise(flux, math.Min(seconds, toRest/2), toRest)
}

// fluxRise is the rise (K) of a face after t seconds of a flux that starts at
// flux (W/m2) and would fall linearly to nothing after whole seconds.
func fluxRise(flux, t, whole float64) float64 {
	return 2 * flux * math.Sqrt(t/(math.Pi*conduction*density*heatCapacity)) * (1 - 2*t/(3*whole))
}
