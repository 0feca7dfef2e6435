package trip

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// ViewPoints is how many points a lap is drawn with.
const ViewPoints = 240

// Views draws every circuit of the trip whose corners are known, once for each
// direction it is driven in.
func Views(m Machine, f *profiles.Folder, trip profiles.Trip) ([]plan.View, error) {
	type way struct {
		id      string
		reverse bool
	}
	seen := map[way]bool{}
	var out []plan.View
	for _, leg := range trip.Legs {
		c := f.Circuits[leg.Name]
		if leg.Kind != profiles.CircuitLeg || c.BySummary() || seen[way{c.ID, leg.Reverse}] {
			continue
		}
		seen[way{c.ID, leg.Reverse}] = true
		v, err := View(m, f, leg)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		out = append(out, v)
	}
	return out, nil
}

// View draws a circuit as a leg drives it; its corners must be known.
func View(m Machine, f *profiles.Folder, leg profiles.Leg) (plan.View, error) {
	c := f.Circuits[leg.Name]
	d, err := CircuitDuty(m, f, leg, 0)
	if err != nil {
		return plan.View{}, err
	}
	v := plan.View{ID: leg.Name, Name: c.Name, Reverse: leg.Reverse, Points: fromAbove(d)}
	drawn, err := m.outline(c)
	if err != nil || drawn == nil {
		return v, err
	}
	v.North = c.Map == nil || !c.Map.Plane
	// A corner list has lost where its corners lie to the meter; the line has not.
	for i := range v.Points {
		k := i * len(drawn) / len(v.Points)
		if leg.Reverse && k > 0 {
			k = len(drawn) - k
		}
		v.Points[i].X, v.Points[i].Y = drawn[k][0], drawn[k][1]
	}
	return v, nil
}

// outline is a circuit's line, m east and north of its start, evenly spaced;
// nil where neither a recording nor a map has it.
func (m Machine) outline(c profiles.Circuit) ([][2]float64, error) {
	switch {
	case c.Trace != nil:
		lap, err := m.Survey(c.Trace)
		if err != nil {
			return nil, err
		}
		return lap.Line, nil
	case c.Map != nil:
		lap, err := m.Drawn(c)
		if err != nil {
			return nil, err
		}
		return lap.Line, nil
	}
	return nil, nil
}

// fromAbove walks a lap's states, which must be in order, and draws it as a closed
// line: what is missing at the end, since figures are rounded, is spread over
// the lap.
func fromAbove(d duty.Duty) []plan.ViewPoint {
	turned := 0.0
	for _, s := range d.States {
		turned += float64(s.Ay / s.V * s.Seconds)
	}
	full := float64(2 * math.Pi * math.Round(turned/(2*math.Pi)))
	drift := (full - turned) / d.Meters // rad per m

	var x, y, heading, driven float64
	points := make([]plan.ViewPoint, 0, ViewPoints)
	at := make([]float64, 0, ViewPoints)
	for _, s := range d.States {
		if driven >= float64(len(points))*d.Meters/ViewPoints && len(points) < ViewPoints {
			points = append(points, plan.ViewPoint{X: x, Y: y, V: s.V, Load: s.Ay})
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
