package planner

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// View is a circuit of the trip seen from above: a closed lap, its first point
// not repeated at the end.
type View struct {
	ID      string      `json:"id"` // of the circuit
	Name    string      `json:"name"`
	Reverse bool        `json:"reverse"` // driven the other way round
	North   bool        `json:"north"`   // y is north, as a recorded track has it
	Points  []ViewPoint `json:"points"`
}

// ViewPoint is a place on a lap with what the car does there.
type ViewPoint struct {
	X    float64 `json:"x"`
	Y    float64 `json:"y"`    // m; the first point is 0, 0; without a recorded track the lap sets off along x
	V    float64 `json:"v"`    // m/s
	Load float64 `json:"load"` // m/s2, lateral, + in a left turn, which loads the right-hand wheels
}

// viewPoints is how many points a lap is drawn with.
const viewPoints = 240

// views draws every circuit of the trip whose corners are known, once for each
// direction it is driven in.
func views(m machine, f *profiles.Folder, trip profiles.Trip) ([]View, error) {
	type way struct {
		id      string
		reverse bool
	}
	seen := map[way]bool{}
	var out []View
	for _, leg := range trip.Legs {
		c := f.Circuits[leg.Name]
		if leg.Kind != profiles.CircuitLeg || c.BySummary() || seen[way{c.ID, leg.Reverse}] {
			continue
		}
		seen[way{c.ID, leg.Reverse}] = true
		v, err := view(m, f, leg)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		out = append(out, v)
	}
	return out, nil
}

// view draws a circuit as a leg drives it; its corners must be known.
func view(m machine, f *profiles.Folder, leg profiles.Leg) (View, error) {
	c := f.Circuits[leg.Name]
	d, err := circuitDuty(m, f, leg, 0)
	if err != nil {
		return View{}, err
	}
	v := View{ID: leg.Name, Name: c.Name, Reverse: leg.Reverse, Points: fromAbove(d)}
	if c.Trace != nil {
		lap, err := m.surveys.of(c.Trace)
		if err != nil {
			return View{}, err
		}
		v.North = true
		// A corner list has lost where its corners lie to the metre; the track has not.
		for i := range v.Points {
			k := i * len(lap.Line) / len(v.Points)
			if leg.Reverse && k > 0 {
				k = len(lap.Line) - k
			}
			v.Points[i].X, v.Points[i].Y = lap.Line[k][0], lap.Line[k][1]
		}
	}
	return v, nil
}

// fromAbove walks a lap's states, which must be in order, and draws it as a closed
// line: what is missing at the end, since figures are rounded, is spread over
// the lap.
func fromAbove(d duty.Duty) []ViewPoint {
	turned := 0.0
	for _, s := range d.States {
		turned += float64(s.Ay / s.V * s.Seconds)
	}
	full := float64(2 * math.Pi * math.Round(turned/(2*math.Pi)))
	drift := (full - turned) / d.Metres // rad per m

	var x, y, heading, driven float64
	points := make([]ViewPoint, 0, viewPoints)
	at := make([]float64, 0, viewPoints)
	for _, s := range d.States {
		if driven >= float64(len(points))*d.Metres/viewPoints && len(points) < viewPoints {
			points = append(points, ViewPoint{X: x, Y: y, V: s.V, Load: s.Ay})
			at = append(at, driven)
		}
		step := float64(s.V * s.Seconds)
		turn := float64(s.Ay/s.V*s.Seconds) + float64(drift*step)
		heading += float64(turn / 2)
		x += float64(step * math.Cos(heading))
		y += float64(step * math.Sin(heading))
		heading += float64(turn / 2)
		driven += step
	}
	for i := range points {
		points[i].X -= x * at[i] / driven
		points[i].Y -= y * at[i] / driven
	}
	return points
}
