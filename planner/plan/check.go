package plan

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles/quantity"
)

// Check is an inspection tied to what the plan found.
type Check struct {
	When string `json:"when"` // before leaving, at each fuel stop, before each session, after each circuit day, at STOP, back home
	What string `json:"what"`

	Short   string       `json:"short"`   // the same in a few words, where the answer tells it as work at home
	Set     string       `json:"set"`     // the set that it is about; "" where it is the whole car
	Looks   kind.Way     `json:"looks"`   // gauge, look or hand; "" where it is no check of a set
	Before  []int        `json:"before"`  // the legs before or on which it is made; the number of legs is back home
	Measure kind.Measure `json:"measure"` // what is read; "" where nothing is measured
	Place   string       `json:"place"`   // of the point that is read
	Zone    string       `json:"zone"`
	Expect  []Reading    `json:"expect"`   // what to expect, in the order of the trip
	Act     float64      `json:"act"`      // level at which to act: the owner's margin
	Stop    float64      `json:"stop"`     // level at which the car does not go on: the limit
	Wet     *Wet         `json:"wet"`      // for a leg with rain; nil otherwise
	Oil     float64      `json:"oil"`      // m3 of oil to expect to add on the trip; 0 otherwise
	OilEach float64      `json:"oil_each"` // m3 of it at one such check
}

// Reading is what a gauge should find before a leg; nominal. Where a spare that
// was brought may be on by then, both parts have their figure.
type Reading struct {
	Leg   int     `json:"leg"`   // the number of legs for back home
	Level float64 `json:"level"` // expected of the part that is on as decided, without a spare
	Spare float64 `json:"spare"` // expected of the spare; 0 where it is hardly on yet
	Need  float64 `json:"need"`  // under which the day turns, see Need; 0 where it is not asked
}

// Say puts a check in words, with its readings in the owner's units.
func (p *Plan) Say(c Check, u quantity.System) string {
	if c.Wet != nil {
		return c.Wet.say(c.What, u)
	}
	if oil := quantity.OilFill[u]; c.Oil > 0 {
		return fmt.Sprintf("%s: expect to add about %s in all, %s a fuel stop", c.What, oil.Text(c.Oil), oil.Text(c.OilEach))
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
		one := c.Measure.Show(u, r.Level)
		if r.Spare > 0 {
			one += fmt.Sprintf(" (%s on the spare)", c.Measure.Show(u, r.Spare))
		}
		one += " " + at
		if r.Need > 0 {
			one += fmt.Sprintf(" (which wants %s)", c.Measure.Wants(u, r.Need))
		}
		out = append(out, one)
	}
	return fmt.Sprintf("%s: expect about %s; act at %s, stop at %s", c.What, strings.Join(out, ", "), c.Measure.Show(u, c.Act), c.Measure.Show(u, c.Stop))
}
