package tire

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// Road is the tread (m) that each wheel loses over one unit of a road duty
// (a kilometer). Surface multiplies the base wear: about 0.9 on a highway, 1.2
// on mixed roads, 2.0 on winding roads and in town (engineering choice).
//
// The base is a mass per distance and wheel load (Sustainability 2024 16(2)
// 522), carried to other treads by the ratio of grades. The toe's scrub adds
// the work of the side force it makes, which grows by its square (Schallamach
// and Turner, from memory). The zones share both by the tilt of each state,
// weighted by distance.
func Road(v duty.Vehicle, car [4]Fitted, d duty.Duty, surface float64) [4]Rate {
	static := v.Loads(duty.State{})
	lean := roadTilt(v, car, d)
	var out [4]Rate
	for p, f := range car {
		load := static[p].Fz
		base := float64(f.RoadRate * load / duty.G * roadGrade / f.Grade * surface / f.Density)
		scrub := float64(f.abrasion() * f.Cornering * load * f.Toe * math.Sin(f.Toe))
		out[p] = spread((base+scrub)*d.Meters/f.area(), lean[p])
	}
	return out
}

// roadTilt is each wheel's tilt of wear, the mean over the duty's distance.
func roadTilt(v duty.Vehicle, car [4]Fitted, d duty.Duty) [4]float64 {
	var distance, leaning [4]float64
	for _, s := range d.States {
		wheels := v.Loads(s)
		for _, p := range duty.Places {
			if wheels[p].Fz <= 0 {
				continue
			}
			distance[p] += float64(s.V * s.Seconds)
			leaning[p] += float64(s.V * s.Seconds * car[p].tilt(p, wheels[p], s.Ay))
		}
	}
	for p := range leaning {
		if distance[p] > 0 {
			leaning[p] /= distance[p]
		}
	}
	return leaning
}
