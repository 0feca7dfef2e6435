package duty

import (
	"fmt"
	"math"
)

// limits is what a car can do at one pace, per kilogram of car, so that the
// lap solver knows nothing of tires and engines.
type limits struct {
	cornering float64 // m/s2, lateral
	driving   float64 // m/s2, by traction in a straight line
	braking   float64 // m/s2, by the tires in a straight line
	power     float64 // W/kg at the road
	drag      float64 // 1/m, air drag per (m/s)2
	rolling   float64 // m/s2
	rotating  float64 // mass factor of the rotating parts
}

// Pace outside this range is not a way to drive a circuit. Assumed.
const (
	minPace = 0.2
	maxPace = 1.3
)

// limits gives what the car can do on a share of its grip and, since a slower
// driver also uses less of the engine, on that share of its power.
// Source of the traction limits: statics of a rigid body, the driven axle's
// load at the limit itself. Power by pace: engineering choice.
func (v Vehicle) limits(pace float64) (limits, error) {
	if err := v.check(); err != nil {
		return limits{}, err
	}
	if !(pace >= minPace && pace <= maxPace) {
		return limits{}, fmt.Errorf("a pace of %.4g is outside %g to %g", pace, minPace, maxPace)
	}
	grip := pace * v.Friction * G
	pitch := pace * v.Friction * v.CGHeight / v.Wheelbase
	driving := grip
	switch v.Drive {
	case FrontDrive:
		driving = grip * v.FrontShare / (1 + pitch)
	case RearDrive:
		if rear := (1 - v.FrontShare) / (1 - pitch); pitch < 1 && rear < 1 { // else the front lifts and all load is driven
			driving = grip * rear
		}
	}
	l := limits{
		cornering: grip,
		driving:   driving,
		braking:   grip,
		power:     v.Driveline * pace * v.Power / v.Mass,
		drag:      v.dragFactor() / v.Mass,
		rolling:   v.rollingForce() / v.Mass,
		rotating:  v.Rotating,
	}
	const crawl = 5 // m/s, assumed
	if top := l.topSpeed(); l.driving < 2*l.rolling || top < crawl {
		return limits{}, fmt.Errorf("at a pace of %.4g the car cannot get going: top speed %.2g m/s", pace, top)
	}
	return l, nil
}

// topSpeed is where power meets drag and rolling resistance, m/s; +Inf where
// nothing limits it. Newton's method from above on a convex cubic.
func (l limits) topSpeed() float64 {
	if math.IsInf(l.power, 1) {
		return l.power
	}
	if l.drag == 0 {
		return l.power / l.rolling
	}
	speed := math.Cbrt(l.power / l.drag)
	for {
		next := speed - (float64(l.drag*speed*speed*speed)+float64(l.rolling*speed)-l.power)/(float64(3*l.drag*speed*speed)+l.rolling)
		if !(next < speed*(1-1e-14)) {
			return speed
		}
		speed = next
	}
}

// speedUp is the acceleration (m/s2) at the squared speed u with the share
// spare of the grip left over from cornering.
func (l *limits) speedUp(u, spare float64) float64 {
	resistance := float64(l.drag*u) + l.rolling
	traction := float64(l.driving*spare) - resistance
	if engine := (l.power/math.Sqrt(u) - resistance) / l.rotating; engine < traction {
		return engine
	}
	return traction
}

// slowDown is the deceleration (m/s2, positive) likewise.
func (l *limits) slowDown(u, spare float64) float64 {
	return float64(l.braking*spare) + float64(l.drag*u) + l.rolling
}

// check says what is wrong with the figures the lap needs.
func (v Vehicle) check() error {
	for _, f := range []struct {
		name            string
		value, min, max float64
	}{ // ranges assumed: wide enough for any road car, and free of poles
		{"mass (kg)", v.Mass, 100, 20000},
		{"front share of weight", v.FrontShare, 0.05, 0.95},
		{"wheelbase (m)", v.Wheelbase, 0.5, 20},
		{"height of the center of gravity (m)", v.CGHeight, 0, 5},
		{"power (W)", v.Power, 1, 1e7},
		{"drag area (m2)", v.DragArea, 0, 20},
		{"tire friction", v.Friction, 0.1, 5},
		{"rolling resistance", v.Rolling, 0, 0.05},
		{"air density (kg/m3)", v.AirDensity, 0, 2},
		{"driveline share", v.Driveline, 0.1, 1},
		{"rotating mass factor", v.Rotating, 1, 2},
	} {
		if !(f.value >= f.min && f.value <= f.max) {
			return fmt.Errorf("the car's %s is %g, outside %g to %g", f.name, f.value, f.min, f.max)
		}
	}
	if v.Rolling == 0 && v.DragArea*v.AirDensity == 0 {
		return fmt.Errorf("the car has neither air drag nor rolling resistance")
	}
	return nil
}
