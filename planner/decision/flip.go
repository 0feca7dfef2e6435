package decision

import (
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
)

const (
	flipDraws = 1000 // enough to find a turning point to a few percent
	flipMost  = 3.0  // how many times the planned usage is looked at
	flipLeast = 0.1  // of it: nobody drives to a circuit for fewer laps
	flipSteps = 6    // halvings
)

// flip finds the usage, of the circuit or road that takes most of a set, at
// which its decision changes. There is none for a fluid, whose margin does not
// follow usage, nor where the set's own best action is another than the plan's.
func (c chooser) flip(w *projection.Worker, chosen plan.Action) *plan.Flip {
	most := c.set.Most
	if most < 0 || c.set.PerLeg || len(c.set.Stop) > 0 {
		return nil
	}
	c.set = c.set.Scaled(nil, 1)
	c.set.Redraw(w)
	group := c.sameCircuit(most)
	planned := c.bestAction(w, group, 1)
	goes := goesOn(planned)
	if goes != goesOn(chosen) {
		return nil
	}
	// Going on changes to something else with more usage; anything else
	// changes to going on with less.
	from, to := 1.0, flipMost
	if !goes {
		to = flipLeast
	}
	other := c.bestAction(w, group, to)
	if goesOn(other) == goes {
		return nil
	}
	for range flipSteps {
		mid := (from + to) / 2
		a := c.bestAction(w, group, mid)
		if goesOn(a) == goes {
			from = mid
		} else {
			to, other = mid, a
		}
	}
	f, laps := &plan.Flip{Leg: group[0], Less: !goes, Action: other}, 0.0
	for _, j := range group {
		laps += c.way.Legs[j].Laps
		if c.way.Legs[j].Kind == profiles.RoadLeg {
			f.Meters += float64(c.way.Legs[j].Meters * to)
		}
	}
	f.Laps = int(math.Round(laps * to))
	return f
}

// goesOn says whether an action changes nothing on the car.
func goesOn(a plan.Action) bool { return a == plan.Run || a == plan.Watch }

// sameCircuit is the leg itself, or all days on its circuit.
func (c chooser) sameCircuit(leg int) []int {
	l := c.way.Legs[leg]
	if l.Kind != profiles.CircuitLeg {
		return []int{leg}
	}
	var out []int
	for j, other := range c.way.Legs {
		if other.Circuit == l.Circuit && other.Kind == l.Kind {
			out = append(out, j)
		}
	}
	return out
}

// bestAction is the set's own best action with the usage of some legs scaled.
func (c chooser) bestAction(w *projection.Worker, group []int, scale float64) plan.Action {
	return Alone(c.set.Scaled(group, scale), w, c.way, c.today).Action
}
