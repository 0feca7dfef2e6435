package circuits

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
	mapline "example.com/tripwear/wearmodel/duty/line"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// What is listed as one turn. Engineering choices.
const (
	leastTurn  = 10 * math.Pi / 180 // rad, less is a kink
	oneTurn    = 15.0               // m of straight within one turn at most
	tightShare = 0.2                // of a turn's angle, taken as tightly as its radius or more so
	leadsTo    = 5.0                // times that radius, at its ends: the way to it and from it
)

// direction says which way round a circuit goes.
func direction(segs []duty.Segment) string {
	switch turning := duty.Turning(segs); {
	case turning > math.Pi:
		return Anticlockwise
	case turning < -math.Pi:
		return Clockwise
	}
	return "both ways, it crosses itself"
}

// bend is a piece of a turn.
type bend struct{ at, end, turn, radius float64 }

// turns lists the turns: pieces to one side with next to no straight between
// are one.
func turns(c *plan.Circuit, d duty.Duty) {
	var all [][]bend
	at := 0.0
	for _, s := range c.Segs {
		at += s.Straight
		if s.Turn == 0 {
			continue
		}
		b := bend{at, at + float64(math.Abs(s.Turn)*s.Radius), s.Turn, s.Radius}
		at = b.end
		if n := len(all); n > 0 {
			last := all[n-1][len(all[n-1])-1]
			if last.turn*b.turn > 0 && b.at-last.end < oneTurn {
				all[n-1] = append(all[n-1], b)
				continue
			}
		}
		all = append(all, []bend{b})
	}
	for _, bends := range all {
		radius := tightest(bends)
		for len(bends) > 1 && bends[0].radius > leadsTo*radius {
			bends = bends[1:]
		}
		for len(bends) > 1 && bends[len(bends)-1].radius > leadsTo*radius {
			bends = bends[:len(bends)-1]
		}
		angle, end := 0.0, bends[len(bends)-1].end
		for _, b := range bends {
			angle += b.turn
		}
		if math.Abs(angle) < leastTurn {
			continue
		}
		c.Turns = append(c.Turns, plan.Turn{At: bends[0].at, Left: angle > 0, Angle: math.Abs(angle), Radius: radius, Apex: slowest(d, bends[0].at, end)})
	}
}

// tightest is the radius that a share of a turn's angle is taken with at most.
func tightest(bends []bend) float64 {
	tight := slices.Clone(bends)
	slices.SortStableFunc(tight, func(a, b bend) int { return cmp.Compare(a.radius, b.radius) })
	whole, gone := 0.0, 0.0
	for _, b := range tight {
		whole += math.Abs(b.turn)
	}
	for _, b := range tight {
		if gone += math.Abs(b.turn); gone >= tightShare*whole {
			return b.radius
		}
	}
	return tight[len(tight)-1].radius
}

// slowest is the least speed between two places of a lap whose states are in order.
func slowest(d duty.Duty, from, to float64) float64 {
	least, gone := math.Inf(1), 0.0
	for _, s := range d.States {
		step := float64(s.V * s.Seconds)
		if gone+step > from && gone < to {
			least = min(least, s.V)
		}
		gone += step
	}
	return least
}

// stops lists the heavy brakings with their places.
func stops(c *plan.Circuit, v duty.Vehicle, d duty.Duty) {
	gone, now, k := 0.0, 0.0, 0
	for _, b := range d.Brakings {
		for k < len(d.States) && now+float64(d.States[k].Seconds/2) < b.Start {
			now += d.States[k].Seconds
			gone += float64(d.States[k].V * d.States[k].Seconds)
			k++
		}
		c.Brakings = append(c.Brakings, plan.Stop{At: gone, From: b.From, To: b.To, Decel: b.Decel, Energy: v.BrakingEnergy(b)})
	}
}

// track is what is told of a recorded track.
func track(recorded *trace.Trace, lap *survey.Lap) *plan.Track {
	t := &plan.Track{Laps: lap.Used, OutIn: lap.OutIn, Noise: lap.Noise, Rate: 1 / lap.Period, Lost: lap.Lost, Elsewhere: lap.Elsewhere, Against: lap.Against,
		Lat: recorded.Fixes[0].Lat, Lon: recorded.Fixes[0].Lon}
	for _, d := range lap.Dropped {
		t.Dropped = append(t.Dropped, fmt.Sprintf("%.0f s at %.0f min: %s", d.Seconds, d.Start/60, d.Why))
	}
	return t
}

// mapped is what is told of a map.
func mapped(l *trace.Line, lap *mapline.Lap) *plan.Map {
	m := &plan.Map{Line: l.Name, Points: lap.Points, Gap: lap.Gap, Widths: lap.Widths, TimeSD: lap.TimeSD}
	if !lap.Widths {
		m.Assumed = mapline.Assumed
	}
	if !l.Plane {
		m.Lat, m.Lon = &l.Points[0].Y, &l.Points[0].X
	}
	return m
}
