// Package planner turns a car folder and a trip into a plan: what every part
// has left after every leg, with its uncertainty, and what to do about it.
//
// Nominal wear comes from the wear models; the draws put the owner's
// uncertainty around it. The same input and seed give the same plan.
package planner

import "time"

// Defaults and range of Options.
const (
	DefaultDraws = 10_000
	DefaultSeed  = 1
	LeastDraws   = 100
	MostDraws    = 2_000_000
)

// Options steer the projection, not the car or the trip.
type Options struct {
	Draws int
	Seed  uint64
	Today time.Time // for order dates already past; zero where the caller has no clock
	Prior bool      // leave aside what the logbook teaches of the rates
}

// orDefault fills in what is not given.
func (o Options) orDefault() Options {
	if o.Draws <= 0 {
		o.Draws = DefaultDraws
	}
	if o.Seed == 0 {
		o.Seed = DefaultSeed
	}
	return o
}

// timeless leaves order dates out of the choice.
func (o Options) timeless() Options {
	o.Today = time.Time{}
	return o
}
