package parts

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles/quantity"
)

// SetRates are how fast a part on an axle wears by a car's logbook.
type SetRates struct {
	Class    string          `need:"yes" doc:"the stock part whose values the part starts from"`
	Axle     string          `need:"yes" words:"front rear" doc:"where it is"`
	Readings int             `range:"1 to 100000" doc:"times it was read after driving"`
	Visits   int             `range:"0 to 100000" doc:"circuit visits that they stand on"`
	Distance quantity.Length `range:"0 mi to 2000000 mi" doc:"that they stand on"`
	Road     Rate
	Circuit  Rate
}

// Rate is a multiple of the wear that the model has.
type Rate struct {
	Times  quantity.Number `need:"yes" range:"0.05 to 20" doc:"the middle of what is believed, as a multiple of the model's wear"`
	Spread quantity.Number `need:"yes" range:"0.005 to 3" doc:"one standard deviation of its natural logarithm"`
	Before quantity.Number `need:"yes" range:"0.01 to 3" doc:"the same before any reading, around 1"`
}

// Log is the natural logarithm of the multiple.
func (r Rate) Log() float64 { return math.Log(float64(r.Times)) }

// String is the rate as a file has it.
func (r Rate) String() string {
	return fmt.Sprintf("{times: %.3f, spread: %.3f, before: %.3f}", r.Times, r.Spread, r.Before)
}
