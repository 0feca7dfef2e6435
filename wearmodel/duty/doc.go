// Package duty describes what a leg of a trip asks of a car, and works it out
// from a corner list, from a circuit's summary or from a stretch of road.
//
// A duty is a list of states, each a number of seconds at one speed and one
// longitudinal and lateral acceleration, per lap of a circuit or per kilometer
// of road. Axes follow ISO 8855: ax > 0 speeds the car up, ay > 0 in a left
// turn, which loads the right-hand wheels. All values are SI.
//
// The car is a rigid body with load transfer on four wheels, driven
// quasi-steadily at the limit of a chosen share of its grip; suspension
// transients, kerbs, gradient and banking are left out.
package duty
