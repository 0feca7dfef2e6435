package planner

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Check is an inspection tied to what the plan found.
type Check struct {
	When string `json:"when"` // before leaving, at each fuel stop, before each session, after each circuit day, at STOP, back home
	What string `json:"what"`

	Set     string    `json:"set"`     // the set that it is about; "" where it is the whole car
	Measure Measure   `json:"measure"` // what is read; "" where nothing is measured
	Expect  []Reading `json:"expect"`  // what to expect, in the order of the trip
	Act     float64   `json:"act"`     // level at which to act: the owner's margin
	Stop    float64   `json:"stop"`    // level at which the car does not go on: the limit
	Wet     *Wet      `json:"wet"`     // for a leg with rain; nil otherwise
}

// Reading is what a gauge should find before a leg, as decided; nominal.
type Reading struct {
	Leg   int     `json:"leg"`   // the number of legs for back home
	Level float64 `json:"level"` // expected
	Need  float64 `json:"need"`  // to do that leg and end it above the margin; 0 where it is not asked
}

// Say puts a check in words, with its readings in the owner's units.
func (p *Plan) Say(c Check, u quantity.System) string {
	if c.Wet != nil {
		return c.Wet.say(c.What, u)
	}
	if c.Measure == "" || len(c.Expect) == 0 {
		return c.What
	}
	var out []string
	for _, r := range c.Expect {
		at := "back home"
		if r.Leg < len(p.Legs) {
			at = "before " + p.Legs[r.Leg].Name
		}
		one := fmt.Sprintf("%s %s", c.Measure.Show(u, r.Level), at)
		if r.Need > 0 {
			one += fmt.Sprintf(" (which wants %s)", c.Measure.Show(u, r.Need))
		}
		out = append(out, one)
	}
	return fmt.Sprintf("%s: expect about %s; act at %s, stop at %s", c.What, strings.Join(out, ", "), c.Measure.Show(u, c.Act), c.Measure.Show(u, c.Stop))
}

// course is a point's nominal level before every leg and back home, as
// decided. What wears below nothing is gone.
func course(s Set, p Point) []float64 {
	out := make([]float64, 0, len(p.Loss)+1)
	level := p.Start
	if s.Decision.Action == RenewBefore {
		level = p.New
	}
	for j, taken := range p.Loss {
		if s.Decision.Action == Carry && s.Decision.Leg == j {
			level = p.New
		}
		out = append(out, max(0, level))
		level -= taken
		if s.Decision.Action == RenewAtStop && s.Decision.Leg == j {
			level = p.New
		}
	}
	return append(out, max(0, level))
}

// closest is the point of a measure that comes nearest to its limit on the
// way, as decided, with its course.
func closest(s Set, m Measure) (Point, []float64) {
	var point Point
	var way []float64
	least := 2.0
	for _, p := range s.Points {
		if p.Measure != m {
			continue
		}
		c := course(s, p)
		for _, level := range c {
			if left := (level - p.Limit) / (p.New - p.Limit); left < least {
				least, point, way = left, p, c
			}
		}
	}
	return point, way
}

// reads completes a check with what its point should show: at fuel stops
// before the roads that have them, before a session before the circuit days,
// and after a circuit day then, with what the next one wants of it.
func (c Check) reads(legs []Leg, s Set, p Point, way []float64) Check {
	c.Measure, c.Act, c.Stop = p.Measure, p.Margin, p.Limit
	for j, l := range legs {
		switch {
		case c.When == kind.Night && isCircuit(l):
			r := Reading{Leg: j + 1, Level: way[j+1]}
			if j+1 < len(legs) && isCircuit(legs[j+1]) {
				r.Need = p.Margin + p.Loss[j+1]
			}
			c.Expect = append(c.Expect, r)
		case c.When == kind.Session && isCircuit(l), c.When == kind.Fuel && l.Kind == profiles.RoadLeg && l.Refuels > 0:
			c.Expect = append(c.Expect, Reading{Leg: j, Level: way[j]})
		}
	}
	if c.When != kind.Night {
		c.Expect = append(c.Expect, Reading{Leg: len(legs), Level: way[len(legs)]})
	}
	return c
}
