package planner

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/duty"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// What is listed as one turn. Engineering choices.
const (
	leastTurn  = 10 * math.Pi / 180 // rad, less is a kink
	oneTurn    = 15.0               // m of straight within one turn at most
	tightShare = 0.2                // of a turn's angle, that counts for its radius
)

// direction says which way round the circuit goes.
func direction(c *plan.Circuit) {
	switch turning := duty.Turning(c.Segs); {
	case turning > math.Pi:
		c.Direction = "anticlockwise"
	case turning < -math.Pi:
		c.Direction = "clockwise"
	case math.Abs(turning) <= math.Pi:
		c.Direction = "both ways, it crosses itself"
	}
}

// turns lists the turns: pieces to one side with next to no straight between
// are one.
func turns(c *plan.Circuit, d duty.Duty) {
	type piece struct{ at, turn, radius, end float64 }
	var all [][]piece
	at := 0.0
	for _, s := range c.Segs {
		at += s.Straight
		if s.Turn == 0 {
			continue
		}
		p := piece{at, s.Turn, s.Radius, at + float64(math.Abs(s.Turn)*s.Radius)}
		at = p.end
		if n := len(all); n > 0 {
			last := all[n-1][len(all[n-1])-1]
			if last.turn*p.turn > 0 && p.at-last.end < oneTurn {
				all[n-1] = append(all[n-1], p)
				continue
			}
		}
		all = append(all, []piece{p})
	}
	for _, pieces := range all {
		angle := 0.0
		for _, p := range pieces {
			angle += p.turn
		}
		if math.Abs(angle) < leastTurn {
			continue
		}
		t := plan.Turn{At: pieces[0].at, Left: angle > 0, Angle: math.Abs(angle), Radius: math.Inf(1)}
		for _, p := range pieces {
			if math.Abs(p.turn) >= tightShare*t.Angle {
				t.Radius = min(t.Radius, p.radius)
			}
		}
		if math.IsInf(t.Radius, 1) { // a spiral of many pieces
			t.Radius = (pieces[len(pieces)-1].end - pieces[0].at) / t.Angle
		}
		t.Apex = slowest(d, t.At, pieces[len(pieces)-1].end)
		c.Turns = append(c.Turns, t)
	}
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
func track(lap *survey.Lap) *plan.Track {
	t := &plan.Track{Laps: lap.Used, OutIn: lap.OutIn, Noise: lap.Noise, Rate: 1 / lap.Period, Lost: lap.Lost}
	for _, d := range lap.Dropped {
		t.Dropped = append(t.Dropped, fmt.Sprintf("%.0f s at %.0f min: %s", d.Seconds, d.Start/60, d.Why))
	}
	return t
}
