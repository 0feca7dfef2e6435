package tire

import (
	"example.com/tripwear/wearmodel/duty"
)

// Circuit is the tread (m) that each wheel loses on one lap: the energy that
// slip grinds into the road, times the tread's abrasion, times its factor for
// hot rubber. The zones share it by the tilt of each state, weighted by that
// state's slip energy. That wear goes with slip energy is the result of
// Schallamach and Turner (from memory); the figures are engineering choices.
func Circuit(v duty.Vehicle, car [4]Fitted, d duty.Duty) [4]Rate {
	var energy, leaning [4]float64 // J, and J weighted by tilt
	var brushes [4]duty.Brush
	for p, f := range car {
		brushes[p] = f.brush()
	}
	for _, s := range d.States {
		wheels := v.Loads(s)
		for _, p := range duty.Places {
			w := wheels[p]
			_, power := brushes[p].Slip(w, s.V)
			if power == 0 {
				continue
			}
			e := float64(power * s.Seconds)
			energy[p] += e
			leaning[p] += float64(e * car[p].tilt(p, w, s.Ay))
		}
	}
	var out [4]Rate
	for p, f := range car {
		if energy[p] == 0 {
			continue
		}
		volume := f.abrasion() * f.HotFactor * energy[p]
		out[p] = spread(volume/f.area(), leaning[p]/energy[p])
	}
	return out
}
