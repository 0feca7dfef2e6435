package lists

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/tire"
)

// Corners adds up what the trip takes from each corner.
func Corners(usages []trip.Usage) [4]plan.Corner {
	var out [4]plan.Corner
	for _, p := range duty.Places {
		c := plan.Corner{Place: p.String()}
		var lost [3]float64
		for _, u := range usages {
			w := u.Nominal()
			for z := range lost {
				lost[z] += w.Tread[p][z]
			}
			c.Hub += w.Hub[p]
		}
		for z, l := range lost {
			c.Tread += l / 3
			if l > c.Worst {
				c.Worst, c.Zone = l, kind.Zones[z]
			}
		}
		out[p] = c
	}
	return out
}

// Scrub is what the toe of each wheel drags it sideways.
func Scrub(m trip.Machine) [4]float64 {
	var out [4]float64
	for p, t := range m.Tires {
		out[p] = tire.Scrub(t.Toe)
	}
	return out
}

// Suffers names the corner whose hub and tread together lose most against the
// car's mean, and says why.
func Suffers(cs [4]plan.Corner, legs []plan.Leg) (place, why string) {
	var tread, hub float64
	for _, c := range cs {
		tread += float64(c.Tread / 4)
		hub += float64(c.Hub / 4)
	}
	if tread == 0 || hub == 0 {
		return "", ""
	}
	best, most := 0, 0.0
	for i, c := range cs {
		if score := c.Tread/tread + c.Hub/hub; score > most {
			best, most = i, score
		}
	}
	p := duty.Place(best)
	other := cs[p.Mirror()]
	if cs[best].Tread < even*other.Tread && cs[best].Hub < even*other.Hub {
		across := (best + 2) % 4
		return axleName(p), fmt.Sprintf("its two sides lose about the same; it takes %s the tread and %s the hub life of the other axle",
			times(cs[best].Tread, cs[across].Tread), times(cs[best].Hub, cs[across].Hub))
	}
	why = fmt.Sprintf("it takes %s the tread and %s the hub life of %s across the axle", times(cs[best].Tread, other.Tread), times(cs[best].Hub, other.Hub), other.Place)
	if c, share, ok := bias(legs); ok {
		turn, side := "left", "right"
		if share < 0.5 {
			turn, side, share = "right", "left", 1-share
		}
		why += fmt.Sprintf("; %s takes %.0f %% of its cornering load in %s turns, which lean on the %s-hand wheels", c, 100*share, turn, side)
	}
	return p.String(), why
}

// even is the ratio up to which two sides of an axle are called the same.
const even = 1.1

func axleName(p duty.Place) string {
	if p.Front() {
		return "front axle"
	}
	return "rear axle"
}

func times(a, b float64) string {
	if b <= 0 {
		return "all"
	}
	return fmt.Sprintf("%.1fx", a/b)
}

// bias names the circuit that pulls the trip furthest to one side.
func bias(legs []plan.Leg) (name string, share float64, ok bool) {
	pull := map[string]float64{}
	most := 0.0
	for _, l := range legs {
		if l.Kind != profiles.CircuitLeg {
			continue
		}
		pull[l.Circuit] += float64(math.Abs(l.LeftShare-0.5) * l.Laps)
		if pull[l.Circuit] > most {
			most, name, share, ok = pull[l.Circuit], l.Circuit, l.LeftShare, true
		}
	}
	return name, share, ok && math.Abs(share-0.5) >= 0.05
}
